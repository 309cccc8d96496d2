// SPDX-License-Identifier: AGPL-3.0-or-later
// The spoken form of a fingering in pinyin with digits, as text.
import { distance } from "fastest-levenshtein";
import {
  type Contact,
  type Finger,
  type GivenFingering,
  NOTHING_GIVEN,
  STROKES,
  type Stroke,
} from "../model/fingering.js";

const FINGER_WORDS: ReadonlyMap<string, Finger> = new Map([
  ["da", "thumb"],
  ["shi", "index"],
  ["zhong", "middle"],
  ["ming", "ring"],
]);

const CONTACT_WORDS: ReadonlyMap<string, Contact> = new Map([
  ["jie", "joint"],
  ["gui", "kneeling"],
]);

/** `pi` and `bo` are two names of one stroke. */
const STROKE_WORDS: ReadonlyMap<string, Stroke> = new Map([
  ...STROKES.map((stroke): [string, Stroke] => [stroke, stroke]),
  ["pi", "bo"],
]);

/** The nearest text that {@link parseSpoken} understands. */
export interface NotUnderstood {
  readonly nearest: string;
}

/** A stop lies above the nut, which counts as 14. */
const HIGHEST_POSITION = 13.9;

type Part = Partial<GivenFingering>;

/**
 * Reads `[san | fan POS | FINGER [jie | gui] POS] STROKE STRING`, either half of it alone, or a sound without a pluck:
 * `shang POS`, `xia POS`, `yan POS`, `dai qi`, `zhua qi`, `qia qi`. Words stand apart by spaces or hyphens; case does
 * not matter. `da` before a string number (1 to 7) that ends the form is the stroke, so `da 4` plucks string 4 and
 * `da 8` is the thumb at hui 8. No contact word means the tip.
 *
 * @returns what the form gives, marked as written in print, or the nearest form that would be understood
 * @example parseSpoken("ming jie 10 gou 3") // ring finger, joint, position 10, stroke gou, string 3
 */
export function parseSpoken(text: string): GivenFingering | NotUnderstood {
  const words = wordsOf(text);
  const part = withoutPluck(words) ?? plucked(words);
  if (part === null) return { nearest: nearestForm(words.join(" ")) };
  return { ...NOTHING_GIVEN, ...part, written: true, text: text.trim() };
}

/** Whether {@link parseSpoken} understood. */
export function isGiven(result: GivenFingering | NotUnderstood): result is GivenFingering {
  return "sound" in result;
}

/** A stroke by its word, such as `<pluck>` carries it. */
export function strokeNamed(word: string): Stroke | null {
  return STROKE_WORDS.get(word.trim().toLowerCase()) ?? null;
}

/** A finger by its word, such as `<fingering>` carries it. */
export function fingerNamed(word: string): Finger | null {
  return FINGER_WORDS.get(word) ?? null;
}

/** A contact by its word. */
export function contactNamed(word: string): Contact | null {
  return CONTACT_WORDS.get(word) ?? null;
}

function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .split(/[\s\-\u2010-\u2014]+/)
    .filter((word) => word !== "");
}

function withoutPluck(words: readonly string[]): Part | null {
  const [first = "", second = ""] = words;
  if (words.length !== 2) return null;
  if (second === "qi") {
    if (first === "dai" || first === "zhua") return { arrival: "pulled-off", sound: "open" };
    // The string is let go over a ring finger that already holds it lower down.
    return first === "qia" ? { arrival: "pulled-off", sound: "stopped", finger: "ring", contact: null } : null;
  }
  const position = positionOf(second);
  if (position === null) return null;
  if (first === "shang" || first === "xia") return { arrival: "slid", sound: "stopped", position };
  return first === "yan" ? { arrival: "hammered", sound: "stopped", position } : null;
}

function plucked(words: readonly string[]): Part | null {
  const strike = strikeOf(words.at(-2) ?? "", words.at(-1) ?? "");
  if (strike === null) return words.length === 0 ? null : placeOf(words);
  if (words.length === 2) return strike;
  const place = placeOf(words.slice(0, -2));
  return place === null ? null : { ...place, ...strike };
}

function strikeOf(word: string, number: string): Part | null {
  const stroke = STROKE_WORDS.get(word);
  return stroke !== undefined && /^[1-7]$/.test(number) ? { stroke, string: Number(number), arrival: "plucked" } : null;
}

function placeOf(words: readonly string[]): Part | null {
  const [first = "", ...rest] = words;
  if (first === "san") return rest.length === 0 ? { sound: "open" } : null;
  const contact = rest.length === 2 ? CONTACT_WORDS.get(rest[0] ?? "") : "tip";
  const position = positionOf(rest.at(-1) ?? "");
  if (position === null || contact === undefined || rest.length > 2) return null;
  if (first === "fan")
    return rest.length === 1 && Number.isInteger(position) && position <= 13 ? { sound: "harmonic", position } : null;
  const finger = FINGER_WORDS.get(first);
  return finger === undefined ? null : { sound: "stopped", finger, contact, position };
}

function positionOf(text: string): number | null {
  const position = /^\d{1,2}(\.\d)?$/.test(text) ? Number(text) : 0;
  return position >= 1 && position <= HIGHEST_POSITION ? position : null;
}

/**
 * The form closest to a text: the words are compared, while the numbers that the text holds, brought into range, take
 * their places. The first word counts twice, and twice more when it begins with another letter; a number too many or too
 * few counts as two wrong letters.
 */
function nearestForm(text: string): string {
  const plain = text
    .normalize("NFD")
    .replace(/\p{Mn}/gu, "")
    .replaceAll(",", ".")
    .slice(0, COMPARED_AT_MOST);
  const numbers = (plain.match(NUMBER) ?? []).map(Number);
  const place = clamp(Math.round((numbers[0] ?? 7) * 10) / 10, HIGHEST_POSITION);
  const string = clamp(Math.round(numbers.at(-1) ?? 4), 7);
  const meant = withSwappedLettersMended(plain.replace(NUMBER, "#"));
  let best = { form: "", far: Number.POSITIVE_INFINITY };
  for (const form of formsWith(place, string)) {
    const shape = form.replace(NUMBER, "#");
    const otherStart = shape[0] === meant[0] ? 0 : 2;
    const numbersOff = Math.abs((form.match(NUMBER) ?? []).length - numbers.length);
    const firstWord = distance(shape.split(" ")[0] ?? "", meant.split(" ")[0] ?? "");
    const far = distance(shape, meant) + firstWord + otherStart + 2 * numbersOff;
    if (far < best.far) best = { form, far };
  }
  return best.form;
}

const NUMBER = /\d{1,3}(\.\d+)?/g;
/** Longer texts are no misspelt form, and comparing them would cost time. */
const COMPARED_AT_MOST = 40;

/** `guo` is `gou` with two letters swapped, not one letter away from `tuo`. */
function withSwappedLettersMended(text: string): string {
  return text
    .split(" ")
    .map((word) => WORD_BY_LETTERS.get(lettersOf(word)) ?? word)
    .join(" ");
}

function lettersOf(word: string): string {
  return [...word].sort().join("");
}

const WORD_BY_LETTERS: ReadonlyMap<string, string> = new Map(
  ["san", "fan", "shang", "xia", "yan", ...FINGER_WORDS.keys(), ...CONTACT_WORDS.keys(), ...STROKE_WORDS.keys()].map(
    (word) => [lettersOf(word), word],
  ),
);

function clamp(value: number, highest: number): number {
  return Math.min(highest, Math.max(1, value));
}

function formsWith(position: number, string: number): string[] {
  const strikes = [...STROKE_WORDS.keys()].map((stroke) => `${stroke} ${string}`);
  const stops = [...FINGER_WORDS.keys()].flatMap((finger) => [
    `${finger} ${position}`,
    ...[...CONTACT_WORDS.keys()].map((contact) => `${finger} ${contact} ${position}`),
  ]);
  const places = ["san", `fan ${clamp(Math.round(position), 13)}`, ...stops];
  return [
    ...places.flatMap((place) => strikes.map((strike) => `${place} ${strike}`)),
    ...strikes,
    // `da 4` alone would be read as a stroke.
    ...places.filter((place) => !/^da [1-7]$/.test(place)),
    ...["shang", "xia", "yan"].map((word) => `${word} ${position}`),
    ...["dai qi", "zhua qi", "qia qi"],
  ];
}
