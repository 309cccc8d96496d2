// SPDX-License-Identifier: AGPL-3.0-or-later
// Which places each scale tone has on each string: what players learn by heart for a tuning and mode.
import { stopPosition, writtenPlace } from "./board.js";
import { spell } from "./pitch.js";
import type { Key } from "./score.js";
import type { Setting } from "./setting.js";
import { centsOf } from "./temperament.js";

/** A tone of the scale on gong. */
export interface Degree {
  /** semitones above gong */
  readonly semitones: number;
  /** such as "1" or "♯4" */
  readonly degree: string;
  /** its traditional name in pinyin; empty for tones without one */
  readonly name: string;
  /** one of the five of the pentatonic scale */
  readonly core: boolean;
}

/** The twelve tones on gong, the five of the pentatonic scale first, then the four that have names. */
export const DEGREES: readonly Degree[] = [
  { semitones: 0, degree: "1", name: "gōng", core: true },
  { semitones: 2, degree: "2", name: "shāng", core: true },
  { semitones: 4, degree: "3", name: "jué", core: true },
  { semitones: 7, degree: "5", name: "zhǐ", core: true },
  { semitones: 9, degree: "6", name: "yǔ", core: true },
  { semitones: 5, degree: "4", name: "qīngjué", core: false },
  { semitones: 11, degree: "7", name: "biàngōng", core: false },
  { semitones: 6, degree: "♯4", name: "biànzhǐ", core: false },
  { semitones: 10, degree: "♭7", name: "rùn", core: false },
  { semitones: 1, degree: "♯1", name: "", core: false },
  { semitones: 3, degree: "♭3", name: "", core: false },
  { semitones: 8, degree: "♭6", name: "", core: false },
];

/** Places are listed from the open string up to hui 4, the ordinary ceiling of stops. */
const HIGHEST_SEMITONE = 24;

/** What the places of a scale depend on: the strings, the pitch class of gong, and the temperament on it. */
export type Scale = Pick<Setting, "tuning" | "gong" | "temperament">;

/** Written places of a pitch class on a string up to hui 4; 14 stands for the open string. */
export function placesOnString(pitchClass: number, string: number, scale: Scale): readonly number[] {
  const open = scale.tuning.semitones[string - 1] as number;
  const { gong, temperament } = scale;
  const places: number[] = [];
  for (let above = 0; above <= HIGHEST_SEMITONE; above++) {
    if ((open + above) % 12 !== pitchClass) continue;
    const cents = centsOf(open + above, gong, temperament) - centsOf(open, gong, temperament);
    places.push(above === 0 ? 14 : writtenPlace(stopPosition(cents) as number, above));
  }
  return places;
}

/** The pitch class that is gong (1, the major tonic) in a key signature, after a transposition by semitones. */
export function gongOfKey(key: Key, transposeSemitones: number): number {
  return (((7 * key.fifths + transposeSemitones) % 12) + 12) % 12;
}

/** Semitones of a pitch above gong, 0 to 11. */
export function degreeAbove(semitone: number, gong: number): number {
  return (((semitone - gong) % 12) + 12) % 12;
}

/** Whether a pitch is one of the five tones of the pentatonic scale on gong. */
export function isCore(semitone: number, gong: number): boolean {
  return DEGREES.some((degree) => degree.core && degree.semitones === degreeAbove(semitone, gong));
}

/** A pitch class as a name without octave, with flats where its key has them. */
export function pitchClassName(pitchClass: number, flats: boolean): string {
  return spell(60 + pitchClass, flats).replace(/\d+$/, "");
}
