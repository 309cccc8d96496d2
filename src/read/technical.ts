// SPDX-License-Identifier: AGPL-3.0-or-later
// The fingering that a note's technical marks, lyrics and words carry, merged into one.
import { type GivenFingering, NOTHING_GIVEN } from "../model/fingering.js";
import type { OddMark, StringNumbers } from "../model/score.js";
import { holdNamed, isForm, type NotUnderstood, readSpoken, type SpokenForm, strokeNamed } from "./fingering.js";
import type { ReadNote } from "./notes.js";
import { isPrinted } from "./own.js";
import { isFretted } from "./playing.js";
import { child, children, type XmlElement } from "./xml.js";

/** A text that was not understood, with the nearest that would be. */
export type Odd = Pick<OddMark, "text" | "nearest"> & Partial<Pick<OddMark, "trouble">>;

/** What a note's technical marks say. */
export interface TechnicalFacts {
  /** null where no mark bears on the fingering */
  readonly given: GivenFingering | null;
  /** the spoken forms among the marks */
  readonly forms: readonly SpokenForm[];
  /** a harmonic sign that is printed */
  readonly harmonic: boolean;
  /** the writer marked a string with its number */
  readonly stringMarked: boolean;
  readonly odd: readonly Odd[];
  /** names of other technical marks */
  readonly others: readonly string[];
}

type Part = Partial<Omit<GivenFingering, "written" | "text">>;

/** The fields of a fingering that one source may give and another contradict. */
const FIELDS = [
  "sound",
  "string",
  "position",
  "finger",
  "contact",
  "stroke",
  "arrival",
  "compound",
  "across",
  "entry",
  "ornament",
] as const;

/**
 * Reads all `<technical>` of the notes. Marks count over the spoken form beside them, and what is printed over what is
 * not. What huipath wrote itself counts strings by the standard, whatever the writer does. Notes with the same marks, as
 * a line of fingering has many, share what they say.
 */
export function readTechnical(notes: readonly ReadNote[], stringNumbers: StringNumbers): readonly TechnicalFacts[] {
  const known = new Map<string, TechnicalFacts>();
  return notes.map((note) => {
    if (!note.notations.some((notations) => child(notations, "technical") !== null)) return NO_FACTS;
    const key = keyOf(note);
    const before = known.get(key);
    if (before !== undefined) return before;
    const facts = factsOf(note, stringNumbers);
    if (key.length <= LONGEST_KEY) known.set(key, facts);
    return facts;
  });
}

/** Longer marks are read each time. */
const LONGEST_KEY = 400;

/** All that {@link factsOf} looks at, in one text; lengths keep the pieces apart, whatever they hold. */
function keyOf({ notations, own }: ReadNote): string {
  let key = "";
  for (const one of notations) {
    key += `${isPrinted(one)} ${own.notations.includes(one)} `;
    for (const technical of one.children)
      if (technical.nodeName === "technical") {
        key += "/";
        for (const { nodeName, textContent } of technical.children)
          key += `${nodeName} ${textContent.length} ${textContent}`;
      }
  }
  return key;
}

function factsOf(note: ReadNote, stringNumbers: StringNumbers): TechnicalFacts {
  const all = note.notations;
  const own = note.own.notations;
  const count: Count = (notations) => (own.includes(notations) ? "musicxml" : stringNumbers);
  const printed = readMarks(all.filter(isPrinted), true, count);
  const hidden = readMarks(
    all.filter((notations) => !isPrinted(notations)),
    false,
    count,
  );
  const odd = [...printed.odd, ...hidden.odd];
  const both = printed.given !== null && hidden.given !== null;
  const written = all.filter((notations) => !own.includes(notations));
  return {
    given: both ? overlay(printed.given, hidden.given, odd) : (printed.given ?? hidden.given),
    forms: [...printed.forms, ...hidden.forms],
    harmonic: printed.harmonic,
    stringMarked: written.some(marksString),
    odd,
    others: [...printed.others, ...hidden.others],
  };
}

/** Of a note without technical marks, as most are. */
const NO_FACTS: TechnicalFacts = {
  given: null,
  forms: [],
  harmonic: false,
  stringMarked: false,
  odd: [],
  others: [],
};

type Count = (notations: XmlElement) => StringNumbers;

function marksString(notations: XmlElement): boolean {
  const own = children(notations, "technical").filter((technical) => !isFretted(technical));
  const numbers = own.flatMap((technical) => children(technical, "string"));
  return numbers.some((number) => IS_STRING.test(number.textContent.trim()));
}

const IS_STRING = /^[1-7]$/;

/** What the marks of some notations say. */
type Marks = Omit<TechnicalFacts, "stringMarked">;

/** Reads the technical marks of notations that are all printed or all not. */
function readMarks(all: readonly XmlElement[], printed: boolean, count: Count): Marks {
  const odd: Odd[] = [];
  const others: string[] = [];
  let marks: Part = {};
  const forms: SpokenForm[] = [];
  let harmonic = false;
  const marked = all.flatMap((notations) =>
    children(notations, "technical").flatMap((technical) =>
      technical.children
        .filter((mark) => mark.nodeName !== "string" || !isFretted(technical))
        .map((mark) => ({ mark, counted: count(notations) })),
    ),
  );
  for (const { mark, counted } of marked) {
    const text = mark.textContent.trim();
    if (mark.nodeName === "other-technical") {
      const form = readSpoken(text);
      if (isForm(form)) forms.push(form);
      odd.push(...oddOf(text, form));
      continue;
    }
    const read = markOf(mark.nodeName, text, counted);
    if (read === null) others.push(mark.nodeName);
    else if ("nearest" in read) odd.push(read);
    else marks = { ...read, ...marks };
    harmonic ||= mark.nodeName === "harmonic";
  }
  const spoken = forms[0]?.given ?? null;
  return { ...merged(marks, spoken, printed, odd), forms: forms.slice(0, 1), harmonic, odd, others };
}

function merged(
  marks: Part,
  spoken: GivenFingering | null,
  printed: boolean,
  odd: Odd[],
): { given: GivenFingering | null } {
  // A harmonic sign alone is a wish of the composer, not a place.
  const place = marks.string !== undefined || spoken !== null;
  const { sound, ...rest } = marks;
  const bearing: Part = sound === "harmonic" && !place ? rest : marks;
  const own: GivenFingering = { ...NOTHING_GIVEN, ...bearing, written: printed, text: "" };
  if (FIELDS.every((field) => own[field] === null) && spoken === null) return { given: null };
  const named = { ...own, text: inWords(own) };
  if (spoken === null) return { given: named };
  const joined = overlay(named, { ...spoken, written: printed }, odd);
  // What is quoted is what counts: the marks in words where the spoken form contradicts them.
  return { given: joined === named ? named : { ...joined, text: spoken.text } };
}

/** What of a text was not read: all of one that is no form, or the technique that a form names and nothing here judges. */
export function oddOf(text: string, read: SpokenForm | NotUnderstood): readonly Odd[] {
  const nearest = isForm(read) ? inWords(read.given) : read.nearest;
  if (read.unjudged !== null) return [{ text, nearest, trouble: read.unjudged }];
  return isForm(read) ? [] : [{ text, nearest }];
}

/** A mark's share of the fingering; null where it says nothing of it. */
function markOf(name: string, text: string, stringNumbers: StringNumbers): Part | Odd | null {
  switch (name) {
    case "string": {
      const number = IS_STRING.test(text) ? Number(text) : null;
      if (number === null) return { text: `string ${text}`, nearest: "string 4" };
      return { string: stringNumbers === "guqin" ? number : 8 - number };
    }
    case "open-string":
      return { sound: "open" };
    case "harmonic":
      return { sound: "harmonic" };
    case "fingering":
      return fingeringOf(text);
    case "pluck": {
      const named = strokeNamed(text);
      if (named !== null) return { ...named, arrival: "plucked" };
      const nearest = readSpoken(`${text} 4`);
      return { text, nearest: isForm(nearest) ? "gou" : (nearest.nearest.split(" ").at(-2) ?? "gou") };
    }
    default:
      return null;
  }
}

/** `ring`, `ring joint`, `ming jie`; digits mean different fingers on different instruments. */
function fingeringOf(text: string): Part | Odd {
  const hold = holdNamed(text);
  if (hold === null) return { text: `fingering ${text}`, nearest: "ring joint" };
  return hold.contact === null ? { finger: hold.finger } : { finger: hold.finger, contact: hold.contact };
}

/** The place that huipath names may lie up to two tenths from the one that the writer gave for it. */
const SAME_PLACE_HUI = 0.25;

/**
 * Joins two sources: where they agree the second fills gaps, where they differ the first counts alone and the second
 * becomes an odd mark.
 */
export function overlay(first: GivenFingering, second: GivenFingering, odd: Odd[]): GivenFingering {
  if (FIELDS.some((field) => !agree(field, first, second))) {
    odd.push({ text: second.text, nearest: first.text, trouble: "contradicted" });
    return first;
  }
  const fields = Object.fromEntries(FIELDS.map((field) => [field, first[field] ?? second[field]]));
  const joined: GivenFingering = Object.assign({ ...first }, fields);
  return { ...joined, written: asks(first, joined) || asks(second, joined) };
}

function agree(field: (typeof FIELDS)[number], first: GivenFingering, second: GivenFingering): boolean {
  const [a, b] = [first[field], second[field]];
  if (a === null || b === null || String(a) === String(b)) return true;
  // A cuo that does not say which is either.
  if (field === "compound" && (a === "cuo" || b === "cuo"))
    return String(a).endsWith("cuo") && String(b).endsWith("cuo");
  const computed = !first.written || !second.written;
  return computed && field === "position" && Math.abs(Number(a) - Number(b)) < SAME_PLACE_HUI;
}

/** Whether a source asks in print for the harmonic or the sound without a pluck that the joined fingering has, if any. */
function asks(source: GivenFingering, joined: GivenFingering): boolean {
  if (!source.written) return false;
  if (joined.sound === "harmonic") return source.sound === "harmonic";
  return joined.arrival === null || joined.arrival === "plucked" || source.arrival === joined.arrival;
}

const FINGER_WORD = { thumb: "da", index: "shi", middle: "zhong", ring: "ming" } as const;
const CONTACT_WORD = { tip: "", joint: " jie", kneeling: " gui" } as const;

/** What is given, in words as near to the spoken form as its gaps allow. */
export function inWords(given: GivenFingering): string {
  const words: string[] = [];
  if (given.sound === "open") words.push("san");
  if (given.sound === "harmonic") words.push("fan");
  if (given.finger !== null) words.push(FINGER_WORD[given.finger] + CONTACT_WORD[given.contact ?? "tip"]);
  if (given.position !== null) words.push(String(given.position));
  const struck = given.compound?.replaceAll("-", " ") ?? given.stroke;
  if (struck !== null) words.push(struck);
  if (given.across !== null) words.push(`${given.across[0]} ${given.across.at(-1)}`);
  else if (given.string !== null) words.push(struck === null ? `string ${given.string}` : String(given.string));
  if (given.ornament !== null) words.push(given.ornament);
  return words.join(" ");
}
