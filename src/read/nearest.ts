// SPDX-License-Identifier: AGPL-3.0-or-later
// The spoken form closest to a text that is none.
import { distance } from "fastest-levenshtein";
import { STROKES } from "../model/fingering.js";
import { asPinyin } from "./vocabulary.js";

const FINGERS = ["da", "shi", "zhong", "ming"];
const CONTACTS = ["jie", "gui"];
const STROKE_NAMES = [...STROKES, "pi"];
const ONE_STRING = ["mo tiao", "gou ti", "mo gou", "die", "juan", "ban lun", "lun", "bei suo", "duan suo", "chang suo"];
const TWO_STRINGS = ["cuo", "da cuo", "xiao cuo", "fan cuo", "ru yi", "shuang tan", "bo la", "da yuan"];
const OUTWARD = ["li", "gun", "gun fu", "suo ling"];

const NUMBER = /\d{1,3}(\.\d+)?/g;
/** Longer texts are no misspelt form, and comparing them would cost time. */
const COMPARED_AT_MOST = 40;
/** A stop lies above the nut, which counts as 14. */
const HIGHEST_POSITION = 13.9;

/**
 * The form closest to a row of words: these are compared, while the numbers among them, brought into range, take their
 * places. The first word counts twice, and twice more when it begins with another letter; a number too many or too few
 * counts as two wrong letters.
 */
export function nearestForm(words: readonly string[]): string {
  const plain = asPinyin(words).replaceAll(",", ".").slice(0, COMPARED_AT_MOST);
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
  ["san", "fan", "shang", "xia", "yan", ...FINGERS, ...CONTACTS, ...STROKE_NAMES].map((word) => [
    lettersOf(word),
    word,
  ]),
);

function clamp(value: number, highest: number): number {
  return Math.min(highest, Math.max(1, value));
}

function formsWith(position: number, string: number): string[] {
  const strikes = STROKE_NAMES.map((stroke) => `${stroke} ${string}`);
  const stops = FINGERS.flatMap((finger) => [
    `${finger} ${position}`,
    ...CONTACTS.map((contact) => `${finger} ${contact} ${position}`),
  ]);
  const places = ["san", `fan ${clamp(Math.round(position), 13)}`, ...stops];
  const compounds = ONE_STRING.map((name) => `${name} ${string}`);
  const other = string > 3 ? string - 3 : string + 3;
  const [low, high] = [Math.min(string, other), Math.max(string, other)];
  return [
    ...places.flatMap((place) => strikes.map((strike) => `${place} ${strike}`)),
    ...strikes,
    // `da 4` alone would be read as a stroke.
    ...places.filter((place) => !/^da [1-7]$/.test(place)),
    ...["shang", "xia", "yan"].map((word) => `${word} ${position}`),
    ...["dai qi", "zhua qi", "qia qi", "jin fu", "tui fu", "er shang", "er xia"],
    ...compounds,
    ...places.flatMap((place) => compounds.map((compound) => `${place} ${compound}`)),
    ...TWO_STRINGS.map((name) => `${name} ${low} ${high}`),
    ...OUTWARD.map((name) => `${name} ${high} ${low}`),
    `fu ${low} ${high}`,
  ];
}
