// SPDX-License-Identifier: AGPL-3.0-or-later
// Random little melodies with few choices a note, small enough to try every fingering.
import * as fc from "fast-check";
import { type Choice, choicesOf } from "../../src/candidates/candidates.js";
import { follows } from "../../src/candidates/lefts.js";
import { momentsOf } from "../../src/model/moments.js";
import { type Left, NO_STRINGS, rightAt } from "../../src/model/playing.js";
import type { Setting } from "../../src/model/setting.js";
import type { Rule } from "../../src/rule/types.js";
import { shortScore } from "./shorthand.js";

/** A melody in the shorthand, with what is given for its notes. */
export interface SmallLine {
  readonly melody: string;
  readonly fingering: readonly string[];
  readonly tempo: number;
  /** chooses which candidates are kept */
  readonly salt: number;
}

/** Open strings, their octaves, notes between, one below the strings and one above the board. */
const PITCHES = ["C2", "D2", "E2", "F2", "G2", "A2", "Bb2", "C3", "D3", "E3", "F3", "G3", "A3", "C4", "D4", "F#3"];
const ODD_PITCHES = ["A1", "F6", "A4^", "D4^", "G2!", "D3!", "A3~"];
const CHORDS = ["C2+C3", "D2+D3", "G2+D3", "F2+C3", "A2+A3", "C3+G3", "D2+A2+D3", "C2+C#2"];
const LENGTHS = ["", "", "", ":1/2", ":1/4", ":1/8", ":2", ":5"];
/** What is given for a note now and then; some of it sounds another note, or cannot be done at all. */
const GIVENS = [
  "san",
  "san gou 1",
  "tiao 6",
  "gou 4",
  "ming 10",
  "da 9",
  "shang 9",
  "xia 10",
  "dai qi",
  "yan 7",
  "da 8",
  "lun 4",
  "mo tiao 6",
  "li 7 4",
  "fu 1 5",
  "gun fu 6 3",
  "ru yi 6 7",
  "da yuan 1 6",
  "quan fu 1 2",
  "da 9 tiao 4 yin",
  "cuo",
  "fan cuo",
  "yuan lou",
];

const note = fc
  .tuple(
    fc.oneof(
      { weight: 10, arbitrary: fc.constantFrom(...PITCHES) },
      { weight: 2, arbitrary: fc.constantFrom(...ODD_PITCHES) },
      { weight: 2, arbitrary: fc.constantFrom(...CHORDS) },
    ),
    fc.constantFrom(...LENGTHS),
    fc.integer({ min: 0, max: 11 }),
  )
  .map(([name, length, luck]) => {
    if (name.includes("+")) return `${name}${length}`;
    if (luck === 0) return `r ${name}${length}`;
    if (luck === 1) return `r:1/4 ${name}${length}`;
    return luck === 2 ? `,${name}` : `${name}${length}`;
  });

/** A melody of so many notes and chords; a slur lies over two or three of them now and then. */
function melodyOf(count: number): fc.Arbitrary<string> {
  return fc
    .tuple(fc.array(note, { minLength: count, maxLength: count }), fc.integer({ min: 0, max: count }), fc.boolean())
    .map(([tokens, from, long]) => {
      const to = from + (long ? 2 : 1);
      const slurred = tokens.slice(from, to + 1);
      const plain = slurred.every((token) => !/[r,+]/.test(token));
      if (to >= count || !plain) return tokens.join(" ");
      return tokens.map((token, i) => (i === from ? `(${token}` : i === to ? `${token})` : token)).join(" ");
    });
}

/** Small lines of so many moments. */
export function smallLine(count: number): fc.Arbitrary<SmallLine> {
  const given = fc.oneof(
    { weight: 5, arbitrary: fc.constant("-") },
    { weight: 1, arbitrary: fc.constantFrom(...GIVENS) },
  );
  return fc.record({
    melody: melodyOf(count),
    fingering: fc.array(given, { maxLength: count }),
    tempo: fc.constantFrom(40, 60, 96, 150, 220),
    salt: fc.nat(1_000_000),
  });
}

/** The full choices of a small line. */
export function choicesIn(line: SmallLine, setting: Setting, rules: readonly Rule[]): readonly Choice[] {
  const moments = momentsOf(shortScore(line.melody, line.fingering, line.tempo), setting);
  return choicesOf(moments, setting, rules);
}

/** How many candidates are kept at each moment, at most. */
export interface Width {
  readonly plucked: number;
  readonly unplucked: number;
  readonly strokes: number;
}

/**
 * Keeps a few candidates a moment: the same few wherever the list of plucked hands is the same, and of the hands
 * without a pluck only those that some kept hand leads to.
 */
export function thin(choices: readonly Choice[], width: Width, salt: number, setting: Setting): readonly Choice[] {
  const thinned: Choice[] = [];
  const lists = new Map<number, readonly Left[]>();
  for (const [i, choice] of choices.entries()) {
    const all = choice.lefts.slice(0, choice.plucked);
    const plucked = lists.get(choice.pluckedList) ?? pick(all, width.plucked, salt + choice.pluckedList);
    lists.set(choice.pluckedList, plucked);
    const before = thinned[i - 1]?.lefts ?? [];
    const led = choice.lefts
      .slice(choice.plucked)
      .filter((left) => before.some((from) => follows(from, left, setting)));
    const unplucked = pick(led, width.unplucked, salt + i);
    // A moment that only a dropped hand led to goes on without any: the line then ends before it.
    if (plucked.length + unplucked.length === 0) return thinned;
    const rights = thinStrokes(choice.rights, width.strokes, salt + i);
    thinned.push({ ...choice, lefts: [...plucked, ...unplucked], plucked: plucked.length, rights });
  }
  return thinned;
}

/** So many strokes for each set of strings, waiting fingers among them. */
function thinStrokes(rights: Uint8Array, count: number, salt: number): Uint8Array {
  const kept = new Uint8Array(rights.length);
  const offered = [...rights.keys()].filter((id) => rights[id] === 1).map(rightAt);
  for (const strings of new Set(offered.map((right) => right.strings))) {
    const own = offered.filter((right) => right.strings === strings);
    for (const right of pick(own, strings === NO_STRINGS ? 1 : count, salt + strings.id)) kept[right.id] = 1;
  }
  return kept;
}

/** A few of a list, in their order, the same for the same salt. */
function pick<T>(list: readonly T[], count: number, salt: number): readonly T[] {
  if (list.length <= count) return list;
  const ranked = list.map((one, i) => ({ one, i, rank: scatter(salt, i) })).sort((a, b) => a.rank - b.rank);
  return ranked
    .slice(0, count)
    .sort((a, b) => a.i - b.i)
    .map(({ one }) => one);
}

/** A number that looks random, from two that do not. */
export function scatter(salt: number, i: number): number {
  let x = Math.imul(salt + 1, 0x9e3779b1) ^ Math.imul(i + 1, 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 15), 0x2c1b3c6d);
  x = Math.imul(x ^ (x >>> 12), 0x297a2d39);
  return (x ^ (x >>> 15)) >>> 0;
}
