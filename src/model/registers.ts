// SPDX-License-Identifier: AGPL-3.0-or-later
// How low and how high the strings sound, by kind of sound. Whole range and harmonics agree with printed ranges
// (zgmzyq.cn, articles on the range; UBC Physics 341 wiki, Qin); the ordinary ends of stops are common practice.
import { centsAt, harmonicCents } from "./board.js";
import type { Sound } from "./fingering.js";
import { spell } from "./pitch.js";
import type { Tuning } from "./tuning.js";

/** One end of a register. */
export interface RangeEnd {
  readonly pitch: string;
  /** MIDI note number */
  readonly semitone: number;
  readonly string: number;
  /** written place or hui; null for an open string */
  readonly position: number | null;
}

/** The range of one kind of sound. */
export interface Register {
  readonly sound: Sound;
  /** stops to hui 4 are the ordinary ones; those beyond it are possible, thin and hard to hit */
  readonly ordinary: boolean;
  readonly lowest: RangeEnd;
  readonly highest: RangeEnd;
}

/** The lowest and the highest place of a kind of sound, null for the open string. */
const ENDS: readonly (readonly [Sound, ordinary: boolean, low: number | null, high: number | null])[] = [
  ["open", true, null, null],
  ["stopped", true, 13.1, 4],
  ["stopped", false, 13.6, 1],
  ["harmonic", true, 7, 1],
];

/** Open strings, ordinary stops, all stops, harmonics. */
export function registers(tuning: Tuning): readonly Register[] {
  const { semitones, strings } = tuning;
  const bottom = semitones.indexOf(Math.min(...semitones)) + 1;
  const top = semitones.lastIndexOf(Math.max(...semitones)) + 1;
  const flats = strings.some((name) => name.includes("b"));
  const end = (sound: Sound, string: number, position: number | null): RangeEnd => {
    const cents = position === null ? 0 : sound === "harmonic" ? harmonicCents(position) : centsAt(position);
    const semitone = (semitones[string - 1] as number) + Math.round(cents / 100);
    return { pitch: spell(semitone, flats), semitone, string, position };
  };
  return ENDS.map(([sound, ordinary, low, high]) => ({
    sound,
    ordinary,
    lowest: end(sound, bottom, low),
    highest: end(sound, top, high),
  }));
}
