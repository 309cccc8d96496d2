// SPDX-License-Identifier: AGPL-3.0-or-later
// Lengths as printed: note values, dots and tuplets.
import { earlier, type Quarters, quarters, ZERO } from "../model/time.js";

/** A note value as printed: MEI's name of it ("breve", "1" for a whole note, "4" for a quarter) and its dots. */
export interface NoteValue {
  readonly dur: string;
  readonly dots: number;
  /** its plain length, dots included, tuplets not */
  readonly length: Quarters;
}

const PLAIN: readonly (readonly [string, Quarters])[] = [
  ["breve", quarters(8)],
  ...[1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024].map((dur) => [String(dur), quarters(4, dur)] as const),
];

const DOTTED: readonly NoteValue[] = PLAIN.flatMap(([dur, length]) =>
  [quarters(7, 4), quarters(3, 2), quarters(1)].map((factor, i) => ({ dur, dots: 2 - i, length: length.mul(factor) })),
);

/** True when a length can be written with plain note values: its denominator is a power of two. */
export function isPlain(length: Quarters): boolean {
  return (length.d & (length.d - 1n)) === 0n;
}

/**
 * The note values that make up a plain length, longest first; one where one can say it.
 *
 * @throws RangeError when the length is shorter than a 1024th note or needs a tuplet
 * @example noteValues(quarters(5, 2)) // half, eighth
 */
export function noteValues(length: Quarters): readonly NoteValue[] {
  const exact = DOTTED.find((value) => value.length.equals(length));
  if (exact !== undefined) return [exact];
  const first = DOTTED.find((value) => value.dots === 0 && value.length.compare(length) < 0);
  if (first === undefined) throw new RangeError(`no note value for ${length.toFraction()} of a quarter note`);
  return [first, ...noteValues(length.sub(first.length))];
}

/**
 * Rests that fill a span so that beats stay visible: each rest starts at a multiple of its own length.
 *
 * @param from   where the span begins, from the start of the bar
 * @param length its length
 * @param beat   a dotted beat for compound meters, else null
 */
export function restValues(from: Quarters, length: Quarters, beat: Quarters | null): readonly NoteValue[] {
  const rests: NoteValue[] = [];
  let at = from;
  let left = length;
  while (left.compare(ZERO) > 0) {
    const fits = (value: NoteValue): boolean => value.length.compare(left) <= 0 && at.mod(value.length).equals(0);
    const value =
      (beat === null ? DOTTED.find((v) => v.dots === 0 && fits(v)) : inBeat(at, left, beat)) ?? noteValues(left)[0];
    if (value === undefined) break;
    rests.push(value);
    at = at.add(value.length);
    left = left.sub(value.length);
  }
  return rests;
}

/** A rest in a compound meter: whole dotted beats, else what stays inside its beat. */
function inBeat(at: Quarters, left: Quarters, beat: Quarters): NoteValue | undefined {
  const into = at.mod(beat);
  const whole = DOTTED.find((value) => value.length.equals(beat));
  if (into.equals(0) && whole !== undefined && beat.compare(left) <= 0) return whole;
  const room = earlier(left, beat.sub(into));
  return DOTTED.find((v) => v.dots === 0 && v.length.compare(room) <= 0 && into.mod(v.length).equals(0));
}

/** `num` notes in the time of `base`. */
export interface TupletRatio {
  readonly num: number;
  readonly base: number;
}

/** A run of neighbouring lengths that is written plainly (ratio null) or as one tuplet. */
export interface TupletGroup {
  readonly first: number;
  readonly count: number;
  readonly ratio: TupletRatio | null;
}

/**
 * Finds the tuplets in a bar: from the first length that is not plain to where time is plain again.
 *
 * @example findTuplets([quarters(1, 3), quarters(2, 3), quarters(1)]) // 3:2 over the first two, then one plain
 */
export function findTuplets(lengths: readonly Quarters[]): readonly TupletGroup[] {
  const groups: TupletGroup[] = [];
  let first = 0;
  while (first < lengths.length) {
    let total: Quarters = ZERO;
    let last = first;
    let denominator = 1n;
    do {
      const length = lengths[last] as Quarters;
      total = total.add(length);
      denominator = leastCommonMultiple(denominator, oddPart(length.d));
      last++;
    } while (!isPlain(total) && last < lengths.length);
    const num = Number(denominator);
    const ratio = num === 1 ? null : { num, base: 2 ** Math.floor(Math.log2(num)) };
    groups.push({ first, count: last - first, ratio });
    first = last;
  }
  return groups;
}

function oddPart(n: bigint): bigint {
  let odd = n;
  while (odd % 2n === 0n) odd /= 2n;
  return odd;
}

function leastCommonMultiple(a: bigint, b: bigint): bigint {
  let [x, y] = [a, b];
  while (y !== 0n) [x, y] = [y, x % y];
  return (a / x) * b;
}
