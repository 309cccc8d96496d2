// SPDX-License-Identifier: AGPL-3.0-or-later
// The spoken form of a fingering, as players say and write it, in pinyin, characters or plain English.
import { courseOf, strokesOf } from "../model/compounds.js";
import {
  type Contact,
  FIGURES,
  type FigureName,
  type Finger,
  type GivenCompound,
  type GivenFingering,
  NOTHING_GIVEN,
  STROKES,
  type Stroke,
} from "../model/fingering.js";
import { UNJUDGED_TECHNIQUES, type UnjudgedTechnique } from "../model/score.js";
import { type Direction, type Move, movesOf, ornamentAt } from "./moves.js";
import { nearestForm } from "./nearest.js";
import { POSITION, positionOf } from "./positions.js";
import { remembered } from "./remembered.js";
import { isLoneEnglish, numberOf, numberWords, wordsOf } from "./vocabulary.js";

/** What one text says. */
export interface SpokenForm {
  /** of the note that it stands at */
  readonly given: GivenFingering;
  /** which way the slide into this note goes, where it is one */
  readonly direction: Direction | null;
  /** of the notes after it, in order */
  readonly following: readonly Move[];
  /** harmonics begin or end with this note */
  readonly harmonics: "begin" | "end" | null;
  /** a technique that the text names besides and that is not judged */
  readonly unjudged: UnjudgedTechnique | null;
}

/** A text that {@link readSpoken} makes nothing of. */
export interface NotUnderstood {
  /** the nearest that it understands; empty where a technique is known that is not judged */
  readonly nearest: string;
  readonly unjudged: UnjudgedTechnique | null;
}

type Part = Partial<GivenFingering>;

const STRING = `(?:[1-7]|${numberWords(1, 7)})(?: xian)?`;
const FINGER_WORDS: ReadonlyMap<string, Finger> = new Map([
  ...["da", "thumb"].map((word): [string, Finger] => [word, "thumb"]),
  ...["shi", "index"].map((word): [string, Finger] => [word, "index"]),
  ...["zhong", "middle"].map((word): [string, Finger] => [word, "middle"]),
  ...["ming", "ring"].map((word): [string, Finger] => [word, "ring"]),
]);
const CONTACT_WORDS: ReadonlyMap<string, Contact> = new Map([
  ["tip", "tip"],
  ["jie", "joint"],
  ["joint", "joint"],
  ["gui", "kneeling"],
  ["kneeling", "kneeling"],
]);
/** `pi` and `bo` are two names of one stroke. */
const STROKE_WORDS: ReadonlyMap<string, Stroke> = new Map([
  ...STROKES.map((stroke): [string, Stroke] => [stroke, stroke]),
  ["pi", "bo"],
  ["hit", "da"],
]);
const COMPOUND_WORDS: ReadonlyMap<string, GivenCompound> = new Map<string, GivenCompound>([
  ["cuo", "cuo"],
  ...["xiao cuo", "small cuo"].map((word): [string, GivenCompound] => [word, "small-cuo"]),
  ...["da cuo", "thumb cuo", "large cuo"].map((word): [string, GivenCompound] => [word, "large-cuo"]),
  ...["fan cuo", "reverse cuo"].map((word): [string, GivenCompound] => [word, "reverse-cuo"]),
  ["yuan lou", "yuan-lou"],
  ...FIGURES.map((figure): [string, GivenCompound] => [figure.replaceAll("-", " "), figure]),
  ["half lun", "ban-lun"],
  ["ru one", "ru-yi"],
  ["po la", "bo-la"],
  ["hit yuan", "da-yuan"],
]);

const any = (words: ReadonlyMap<string, unknown>): string => [...words.keys()].join("|");
/** The sign of chuo is also that of wai, as which it counts in the place of a position. */
const ENTRY = "chuo|zhu|bu";
const STRIKE = new RegExp(`^(?<strike>${any(COMPOUND_WORDS)}|${any(STROKE_WORDS)})(?<strings>(?: ${STRING})*)$`);
const SHI_AS_TEN = /^shi (?:yi|er|san|ba) /;
const FORM = new RegExp(
  `^(?:(?<open>san|open)|(?:fan|harmonic) (?<touched>${POSITION})|` +
    `(?:(?<before>${ENTRY}) )?(?<finger>${any(FINGER_WORDS)})(?: zhi)?(?: (?<contact>${any(CONTACT_WORDS)}))?` +
    `(?: (?<between>chuo|zhu))?(?: (?<stopped>${POSITION}))?(?: (?<behind>chuo|zhu))?)?` +
    `(?:(?:^| )(?<strike>${any(COMPOUND_WORDS)}|${any(STROKE_WORDS)})(?<strings>(?: ${STRING})*))?$`,
);
/** The finger is that of the note before. */
const FINGERLESS = new RegExp(
  `^(?:(?<before>${ENTRY}) )?(?<stopped>${POSITION})(?: (?<behind>chuo|zhu))? ` +
    `(?<strike>${any(COMPOUND_WORDS)}|${any(STROKE_WORDS)})(?<strings>(?: ${STRING})*)$`,
);
const BEGINS = /^(?:fan qi|harmonic rise)(?: |$)/;
const ENDS = /(?:^| )(?:fan zhi|harmonic stop)$/;

/**
 * Reads what is written at one note: `[san | fan POS | [chuo | zhu] FINGER [jie | gui] POS] STROKE STRING`, either half
 * of it alone, or sounds of the left hand, alone or behind it: `shang POS`, `xia POS`, `jin fu`, `yan POS`, `dai qi`.
 * STROKE may be a compound, with two strings where it goes over several. `fan qi` and `fan zhi` enclose harmonics. `da`
 * before a string number (1 to 7) that ends the form is the stroke, so `da 4` plucks string 4 and `da 8` is the thumb at
 * hui 8. No contact word means the tip.
 *
 * @returns what the form gives, marked as written in print, or the nearest form that would be understood
 * @example readSpoken("ming jie 10 gou 3") // ring finger, joint, position 10, stroke gou, string 3
 * @example readSpoken("大七六挑四") // thumb, tip, position 7.6, stroke tiao, string 4
 */
export const readSpoken = remembered((text): SpokenForm | NotUnderstood => {
  if (text.length > MOST_CHARACTERS) return { nearest: "", unjudged: null };
  const form = understood(text);
  if (form !== null) return form;
  const unjudged = unjudgedIn(text);
  return { nearest: unjudged === null ? nearestForm(wordsOf(text)) : "", unjudged };
});

/** The technique that a text names and that is known, but not judged; null without one. */
export function unjudgedIn(text: string): UnjudgedTechnique | null {
  if (text.length > MOST_CHARACTERS) return null;
  const words = ` ${wordsOf(text).join(" ")} `;
  return UNJUDGED_TECHNIQUES.find((name) => words.includes(` ${name.replace("-", " ")} `)) ?? null;
}

/** What {@link readSpoken} understands of a text; null where it does not. */
export const understood = remembered((text): SpokenForm | null => {
  if (text.length > MOST_CHARACTERS) return null;
  const words = wordsOf(text);
  if (words.length === 0 || words.length > MOST_WORDS || isLoneEnglish(words, text)) return null;
  const unjudged = unjudgedIn(text);
  const form = formOf(unjudged === null ? words : besides(words, unjudged));
  return form && { ...form, unjudged, given: { ...NOTHING_GIVEN, ...form.given, written: true, text: text.trim() } };
});

/** What a text says besides a technique: the pluck before fen kai, the place of a tap. */
function besides(words: readonly string[], technique: UnjudgedTechnique): readonly string[] {
  switch (technique) {
    case "jian-gou":
      return [];
    case "fen-kai":
      return words.slice(0, words.indexOf("kai") - 1);
    case "xu-yan":
      return words[0] === "xu" ? ["thumb", ...words.slice(2)] : [];
  }
}

/** Longer texts are no fingering. */
const MOST_WORDS = 24;
const MOST_CHARACTERS = 400;

/** Whether {@link readSpoken} understood. */
export function isForm(result: SpokenForm | NotUnderstood): result is SpokenForm {
  return "given" in result;
}

/** A stroke or a compound by its word, such as `<pluck>` carries it. */
export const strokeNamed = remembered((text): Pick<GivenFingering, "stroke" | "compound"> | null => {
  const word = wordsOf(text).join(" ");
  const compound = COMPOUND_WORDS.get(word) ?? null;
  if (compound !== null) return { stroke: firstStroke(compound), compound };
  const stroke = STROKE_WORDS.get(word) ?? null;
  return stroke === null ? null : { stroke, compound: null };
});

/** A finger with its contact by their words, such as `<fingering>` carries them; no contact where it names none. */
export const holdNamed = remembered((text): { readonly finger: Finger; readonly contact: Contact | null } | null => {
  const words = wordsOf(text).filter((word) => word !== "zhi");
  const finger = FINGER_WORDS.get(words[0] ?? "");
  const contact = words[1] === undefined ? null : CONTACT_WORDS.get(words[1]);
  return finger === undefined || contact === undefined || words.length > 2 ? null : { finger, contact };
});

type RawForm = Omit<SpokenForm, "given" | "unjudged"> & { readonly given: Part };

/** Signs of harmonics around a form, or a sign alone. A form that can be read without a sign is. */
function formOf(words: readonly string[]): RawForm | null {
  const text = words.join(" ");
  const plain = BEGINS.exec(text)?.[0] === text ? null : noteForm(words);
  if (plain !== null) return { ...plain, harmonics: null };
  for (const [sign, harmonics] of [
    [BEGINS, "begin"],
    [ENDS, "end"],
  ] as const) {
    const found = sign.exec(text);
    if (found === null) continue;
    const rest = text.replace(sign, "").trim();
    const form = rest === "" ? { given: {}, direction: null, following: [] } : noteForm(rest.split(" "));
    if (form !== null) return { ...form, harmonics };
  }
  return null;
}

type NoteForm = Omit<RawForm, "harmonics">;

/** A pluck, moves of the left hand, or a pluck with moves behind it. */
function noteForm(words: readonly string[]): NoteForm | null {
  for (let at = words.length; at >= 0; at--) {
    const head = at === 0 ? null : adorned(words.slice(0, at), (rest) => plucked(rest.join(" ")));
    const moves = movesOf(words.slice(at));
    if (moves === null || (at > 0 && head === null)) continue;
    if (head !== null) return { given: head, direction: null, following: moves };
    const [first, ...following] = moves;
    if (first !== undefined) return { given: first.given, direction: first.direction, following };
  }
  return null;
}

/** A form with an ornament behind it, which needs a finger on the string; an ornament alone; or a form without one. */
function adorned(words: readonly string[], read: (words: readonly string[]) => Part | null): Part | null {
  const ornament = ornamentAt(words);
  if (ornament === null) return read(words);
  if (words.length === 1) return { ornament };
  const form = read(words.slice(0, -1));
  return form === null || form.sound === "open" || form.sound === "harmonic" ? null : { ...form, ornament };
}

function plucked(text: string): Part | null {
  // `shi` is both ten and the index finger: 11, 12, 13 and 10.8 are common places, the index finger there is not.
  const own = SHI_AS_TEN.test(text) ? FINGERLESS.exec(text) : null;
  const groups = (STRIKE.exec(text) ?? own ?? FORM.exec(text) ?? FINGERLESS.exec(text))?.groups ?? {};
  const place = placeOf(groups);
  const strike = strikeOf(groups.strike, groups.strings ?? "");
  if (place === null || strike === null) return null;
  // A finger alone names no place, and one place is not that of both strings of a pinch.
  if (strike.arrival === undefined && place.sound === "stopped" && place.position === undefined) return null;
  if (strike.across && strike.stroke === null && place.position !== undefined) return null;
  const part = { ...place, ...strike };
  return Object.keys(part).length === 0 ? null : part;
}

type Groups = Readonly<Record<string, string | undefined>>;

function placeOf(groups: Groups): Part | null {
  if (groups.open !== undefined) return { sound: "open" };
  const text = groups.touched ?? groups.stopped;
  const position = text === undefined ? undefined : positionOf(text);
  if (position === null) return null;
  const place = position === undefined ? {} : { position };
  if (groups.touched !== undefined)
    return Number.isInteger(position) && (position ?? 0) <= 13 ? { sound: "harmonic", ...place } : null;
  const word = groups.before ?? groups.between ?? groups.behind;
  const entry: Part = word === undefined ? {} : { entry: word === "zhu" ? "zhu" : "chuo" };
  const finger = FINGER_WORDS.get(groups.finger ?? "");
  if (finger === undefined) return { ...place, ...entry };
  return {
    sound: "stopped",
    finger,
    contact: CONTACT_WORDS.get(groups.contact ?? "tip") ?? "tip",
    ...place,
    ...entry,
  };
}

function firstStroke(compound: GivenCompound): Stroke | null {
  const figure = FIGURES.find((one) => one === compound);
  return figure === undefined ? null : strokesOf(figure)[0];
}

/** A stroke or compound with its strings; nothing where there is none, null where they do not go together. */
function strikeOf(word: string | undefined, numbers: string): Part | null {
  if (word === undefined) return numbers === "" ? {} : null;
  const strings = numbers
    .split(" ")
    .filter((one) => one !== "" && one !== "xian")
    .map(numberOf);
  const compound = COMPOUND_WORDS.get(word);
  if (compound === undefined) {
    const stroke = STROKE_WORDS.get(word);
    const [string, ...more] = strings;
    return stroke === undefined || string === undefined || more.length > 0
      ? null
      : { stroke, string, arrival: "plucked" };
  }
  const base: Part = { stroke: firstStroke(compound), compound, arrival: "plucked" };
  const [only, ...others] = strings;
  if (only === undefined) return /cuo$|^da-yuan$|^yuan-lou$/.test(compound) ? base : null;
  if (others.length === 0) return { ...base, string: only };
  const across = acrossOf(FIGURES.find((one) => one === compound) ?? null, strings);
  return across === null ? null : { ...base, ...pinchOf(compound, across), across };
}

/** A cuo over five strings or more is a large one, over three or fewer a small one. */
function pinchOf(compound: GivenCompound, [a = 0, b = 0]: readonly number[]): Part {
  const apart = Math.abs(a - b);
  if (compound !== "cuo" || apart === 4) return {};
  return { compound: apart > 4 ? "large-cuo" : "small-cuo" };
}

/** The strings that a compound goes over in the order struck; null where it cannot go so. */
function acrossOf(figure: FigureName | null, strings: readonly number[]): readonly number[] | null {
  const course = figure === null ? "pair" : courseOf(figure);
  const start = strings[0] as number;
  const end = strings.at(-1) as number;
  if (course === "one" || start === end) return null;
  if (course === "pair") return strings.length === 2 ? strings : null;
  const inward = start < end;
  if (inward !== (course === "inward")) return null;
  const row = Array.from({ length: Math.abs(end - start) + 1 }, (_, i) => start + (inward ? i : -i));
  const within = strings.every((one, i) => row.includes(one) && (i === 0 || one !== strings[i - 1]));
  return within ? row : null;
}
