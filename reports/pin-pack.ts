// SPDX-License-Identifier: AGPL-3.0-or-later
// Lines of a brief in few letters: a page carries thousands of them, and its script writes them out again.

/** What a letter stands for; what is packed holds no others, digits and points apart. */
const LETTERS: Readonly<Record<string, string>> = {
  O: "sound: open, string: ",
  H: "sound: harmonic, string: ",
  S: "string: ",
  P: ", position: ",
  T: ", finger: thumb",
  I: ", finger: index",
  M: ", finger: middle",
  R: ", finger: ring",
  J: ", contact: joint",
  G: ", contact: kneeling",
  ...{ b: ", stroke: bo", u: ", stroke: tuo", m: ", stroke: mo", i: ", stroke: tiao" },
  ...{ g: ", stroke: gou", t: ", stroke: ti", d: ", stroke: da", z: ", stroke: zhai" },
  ...{ s: ", arrival: slid", p: ", arrival: pulled-off", h: ", arrival: hammered" },
};
/** Longer words first: ti is the beginning of tiao. */
const WORDS = Object.entries(LETTERS).sort(([, a], [, b]) => b.length - a.length);

const PIN = /^- \{ (bar: .*?, beat: [^,]+(?:, (?:note|grace): \d+)?), (.*) \}$/;

/**
 * The lines that pin one note, packed.
 *
 * @param pins null where a way has none
 * @example packPins(["- { bar: 3, beat: 2, string: 4, position: 7.6, finger: ring, stroke: gou }"]) // "bar: 3, beat: 2|S4P7.6Rg"
 */
export function packPins(pins: readonly (string | null)[]): string {
  const parts = pins.map((pin) => PIN.exec(pin ?? ""));
  const head = parts.find((part) => part !== null)?.[1] ?? "";
  const packed = parts.map((part) =>
    WORDS.reduce((text, [letter, words]) => text.replace(words, letter), part?.[2] ?? ""),
  );
  return [head, ...packed].join("|");
}

/** The lines again; null where a way has none. */
export function unpackPins(packed: string): readonly (string | null)[] {
  const [head = "", ...wishes] = packed.split("|");
  return wishes.map((wish) =>
    wish === "" ? null : `- { ${head}, ${wish.replace(/[a-z]/gi, (letter) => LETTERS[letter] ?? letter)} }`,
  );
}
