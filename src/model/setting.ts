// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Transposition } from "./pitch.js";
import type { Temperament } from "./temperament.js";
import type { Tuning } from "./tuning.js";

/** A hand: how far it reaches and how fast it goes. Lengths in cm. No published figures exist: defaults of this project. */
export interface Hand {
  readonly name: string;
  /** ring nutward of the thumb, nearest and farthest that needs no effort */
  readonly frameNearCm: number;
  readonly frameFarCm: number;
  /** nearest with the thumb above hui 7, where places lie closer */
  readonly frameNearHighCm: number;
  /** the widest stretch reported as comfortable */
  readonly comfortableSpanCm: number;
  /** beyond this it is a shift, not a stretch */
  readonly spanLimitCm: number;
  /** the hand moves this far along the strings without a shift */
  readonly freeShiftCm: number;
  /** comfortable speed of the hand along the strings */
  readonly comfortableCmPerSecond: number;
  /** alternating strokes, and strokes with one finger */
  readonly plucksPerSecond: number;
  readonly plucksPerSecondOneFinger: number;
  /** plucks a second where each needs a hand shift */
  readonly plucksPerSecondWithShift: number;
  /** added charge for kneeling and joints, in spare moves: practice that beginners do not have yet */
  readonly jointAndKneelingExtra: number;
}

/** The instrument and the player that a melody is set for. */
export interface Setting {
  readonly tuning: Tuning;
  readonly transpose: Transposition;
  readonly temperament: Temperament;
  /** pitch class on which the temperament's twelve-note scale is built, see `scaleGong` */
  readonly gong: number;
  readonly hand: Hand;
  readonly scaleLengthCm: number;
  /** it was chosen as the best of so many; left out where somebody named it */
  readonly chosenFrom?: number;
}
