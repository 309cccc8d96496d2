// SPDX-License-Identifier: AGPL-3.0-or-later
// Which keys lie well in a tuning: how much of each lies on open strings and on the hui that sound pure.
import { Key } from "tonal";
import { centsAt } from "./board.js";
import { degreeAbove, isCore } from "./note-table.js";
import { parsePitch, semitoneOf } from "./pitch.js";
import type { Tuning } from "./tuning.js";

/** Stops that are pure in every reading: octave, fifth and fourth. */
const PURE_HUI = [7, 9, 10] as const;
/** These and the three hui of pure thirds and sixths, a comma from the Pythagorean tones. */
const NEAR_HUI = [7, 8, 9, 10, 11, 12] as const;

/** How a pitch class lies in a tuning: open, on hui 7, 9 or 10 of some string, or between hui on all of them. */
export type Lying = "open" | "hui" | "between";

/** A major key (with its relative minor) in a tuning. */
export interface KeyRank {
  /** from 1; no two keys share a rank */
  readonly rank: number;
  readonly major: string;
  readonly minor: string;
  /** degrees that are open strings, of 7 */
  readonly openDegrees: number;
  /** degrees of the five-note scale that are open strings, of 5 */
  readonly openCoreDegrees: number;
  /** open strings that belong to the key, of 7 */
  readonly openStrings: number;
  /** degrees that are open or lie on hui 7, 9 or 10, of 7 */
  readonly pureDegrees: number;
  /** strings times hui 7, 9 and 10 that sound a tone of the key, of 21 */
  readonly pureStops: number;
  /** the same with hui 7 to 12, of 42 */
  readonly nearStops: number;
  readonly tonic: Lying;
  /** degrees that always lie between hui */
  readonly between: readonly string[];
}

/** Major keys in the order of their tonics from C, each spelled as it is usually printed. */
const MAJORS = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"] as const;

const pitchClass = (name: string): number => {
  const pitch = parsePitch(`${name}4`);
  if (pitch === null) throw new RangeError(`no pitch: ${name}`);
  return degreeAbove(semitoneOf(pitch), 0);
};

/** Pitch classes that the strings sound at the given hui, string by string. */
function stopsAt(tuning: Tuning, hui: readonly number[]): readonly number[] {
  return tuning.semitones.flatMap((open) => hui.map((at) => (open + Math.round(centsAt(at) / 100)) % 12));
}

/**
 * The twelve major keys, the best first: by open degrees, then pure degrees, then pure stops, then how the tonic lies,
 * then near stops, then from C upward.
 */
export function rankKeys(tuning: Tuning): readonly KeyRank[] {
  const order: readonly Lying[] = ["open", "hui", "between"];
  return MAJORS.map((major) => keyIn(tuning, major))
    .sort(
      (a, b) =>
        b.openDegrees - a.openDegrees ||
        b.pureDegrees - a.pureDegrees ||
        b.pureStops - a.pureStops ||
        order.indexOf(a.tonic) - order.indexOf(b.tonic) ||
        b.nearStops - a.nearStops,
    )
    .map((key, at) => ({ rank: at + 1, ...key }));
}

function keyIn(tuning: Tuning, major: (typeof MAJORS)[number]): Omit<KeyRank, "rank"> {
  const { scale, minorRelative } = Key.majorKey(major);
  const gong = pitchClass(major);
  const open = tuning.semitones.map((semitone) => semitone % 12);
  const pure = stopsAt(tuning, PURE_HUI);
  const tones = scale.map((name) => ({ name, class: pitchClass(name) }));
  const inKey = (classes: readonly number[]): number =>
    classes.filter((one) => tones.some((tone) => tone.class === one)).length;
  const lying = (one: number): Lying => (open.includes(one) ? "open" : pure.includes(one) ? "hui" : "between");
  const openTones = tones.filter((tone) => lying(tone.class) === "open");
  const between = tones.filter((tone) => lying(tone.class) === "between").map(({ name }) => name);
  return {
    major,
    minor: minorRelative,
    openDegrees: openTones.length,
    openCoreDegrees: openTones.filter((tone) => isCore(tone.class, gong)).length,
    openStrings: inKey(open),
    pureDegrees: tones.length - between.length,
    pureStops: inKey(pure),
    nearStops: inKey(stopsAt(tuning, NEAR_HUI)),
    tonic: lying(gong),
    between,
  };
}
