// SPDX-License-Identifier: AGPL-3.0-or-later
// The fingering that a note's technical marks, lyrics and words carry, merged into one.
import { type GivenFingering, NOTHING_GIVEN } from "../model/fingering.js";
import type { OddMark } from "../model/score.js";
import { contactNamed, fingerNamed, isGiven, parseSpoken, strokeNamed } from "./fingering.js";
import { isPrinted } from "./own.js";
import { children, type XmlElement } from "./xml.js";

/** A text that was not understood, with the nearest that would be. */
export type Odd = Pick<OddMark, "text" | "nearest"> & { readonly trouble?: "contradicted" };

/** What a note's technical marks say. */
export interface TechnicalFacts {
  /** null where no mark bears on the fingering */
  readonly given: GivenFingering | null;
  /** a harmonic sign that is printed */
  readonly harmonic: boolean;
  readonly odd: readonly Odd[];
  /** names of other technical marks */
  readonly others: readonly string[];
}

type Part = Partial<Omit<GivenFingering, "written" | "text">>;

/** The fields of a fingering that one source may give and another contradict. */
const FIELDS = ["sound", "string", "position", "finger", "contact", "stroke", "arrival"] as const;

const FINGERS_IN_ENGLISH = new Set(["thumb", "index", "middle", "ring"]);
const CONTACTS_IN_ENGLISH = new Set(["tip", "joint", "kneeling"]);

/**
 * Reads all `<technical>` of a note element. Marks count over the spoken form beside them, and what is printed over what
 * is not.
 */
export function readTechnical(note: XmlElement): TechnicalFacts {
  const all = children(note, "notations");
  const printed = readMarks(all.filter(isPrinted), true);
  const hidden = readMarks(
    all.filter((notations) => !isPrinted(notations)),
    false,
  );
  const odd = [...printed.odd, ...hidden.odd];
  const both = printed.given !== null && hidden.given !== null;
  return {
    given: both ? overlay(printed.given, hidden.given, odd) : (printed.given ?? hidden.given),
    harmonic: printed.harmonic,
    odd,
    others: [...printed.others, ...hidden.others],
  };
}

/** Reads the technical marks of notations that are all printed or all not. */
function readMarks(all: readonly XmlElement[], printed: boolean): TechnicalFacts {
  const odd: Odd[] = [];
  const others: string[] = [];
  let marks: Part = {};
  let spoken: GivenFingering | null = null;
  let harmonic = false;
  for (const mark of all
    .flatMap((notations) => children(notations, "technical"))
    .flatMap((technical) => technical.children)) {
    const text = mark.textContent.trim();
    const read = mark.nodeName === "other-technical" ? spokenOf(text) : markOf(mark.nodeName, text);
    if (read === null) others.push(mark.nodeName);
    else if ("nearest" in read) odd.push(read);
    else {
      if (mark.nodeName === "other-technical") spoken ??= read as GivenFingering;
      else marks = { ...read, ...marks };
      harmonic ||= mark.nodeName === "harmonic";
    }
  }
  return { ...merged(marks, spoken, printed, odd), harmonic, odd, others };
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
  const named = { ...own, text: spoken?.text ?? formOf(own) };
  return { given: spoken === null ? named : overlay(named, { ...spoken, written: printed }, odd) };
}

/** A mark's share of the fingering; null where it says nothing of it. */
function markOf(name: string, text: string): Part | Odd | null {
  switch (name) {
    case "string": {
      const number = /^[1-7]$/.test(text) ? Number(text) : null;
      return number === null ? { text: `string ${text}`, nearest: "string 4" } : { string: 8 - number };
    }
    case "open-string":
      return { sound: "open" };
    case "harmonic":
      return { sound: "harmonic" };
    case "fingering":
      return fingeringOf(text);
    case "pluck": {
      const stroke = strokeNamed(text);
      const nearest = parseSpoken(`${text} 4`);
      if (stroke !== null) return { stroke, arrival: "plucked" };
      return { text, nearest: "nearest" in nearest ? (nearest.nearest.split(" ").at(-2) ?? "gou") : "gou" };
    }
    default:
      return null;
  }
}

function spokenOf(text: string): GivenFingering | Odd {
  const read = parseSpoken(text);
  return isGiven(read) ? read : { text, nearest: read.nearest };
}

/** `ring`, `ring joint`, `ming jie`; digits mean different fingers on different instruments. */
function fingeringOf(text: string): Part | Odd {
  const [finger = "", contact, ...more] = text.toLowerCase().split(/[\s-]+/);
  const named = FINGERS_IN_ENGLISH.has(finger) ? (finger as GivenFingering["finger"]) : fingerNamed(finger);
  const touched =
    contact === undefined
      ? null
      : CONTACTS_IN_ENGLISH.has(contact)
        ? (contact as GivenFingering["contact"])
        : contactNamed(contact);
  if (named === null || more.length > 0 || (contact !== undefined && touched === null))
    return { text: `fingering ${text}`, nearest: "ring joint" };
  return touched === null ? { finger: named } : { finger: named, contact: touched };
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
  if (a === null || b === null || a === b) return true;
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
function formOf(given: GivenFingering): string {
  const words: string[] = [];
  if (given.sound === "open") words.push("san");
  if (given.sound === "harmonic") words.push("fan");
  if (given.finger !== null) words.push(FINGER_WORD[given.finger] + CONTACT_WORD[given.contact ?? "tip"]);
  if (given.position !== null) words.push(String(given.position));
  if (given.stroke !== null) words.push(given.stroke);
  if (given.string !== null) words.push(given.stroke === null ? `string ${given.string}` : String(given.string));
  return words.join(" ");
}
