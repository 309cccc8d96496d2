// SPDX-License-Identifier: AGPL-3.0-or-later
// What tells one touch and one stroke from another. Order is published (a nail stops harder than flesh: Penttinen and
// others, J. Acoust. Soc. Am. 120(6), 2006; the thumb is loudest, the ring finger softest, outward strokes are stronger:
// Zhu Xiaogu 2015, as summarised in a blog of 2022). The numbers are our judgement: no decay times are published.
import type { AttackKind, Touch } from "./line.js";

/** How a string sounds and fades under a touch. */
interface TouchSound {
  /** seconds in which the lowest partial of a tone of 196 Hz falls by 60 dB */
  readonly decaySeconds: number;
  /** the same near 3 kHz */
  readonly highDecaySeconds: number;
  /** above this the pluck has little strength, in Hz */
  readonly cutoffHz: number;
}

/** By touch. */
export const TOUCH_SOUND: Readonly<Record<Touch, TouchSound>> = {
  open: { decaySeconds: 5, highDecaySeconds: 0.9, cutoffHz: 2600 },
  nail: { decaySeconds: 2.6, highDecaySeconds: 0.55, cutoffHz: 2200 },
  flesh: { decaySeconds: 1.9, highDecaySeconds: 0.3, cutoffHz: 1300 },
  harmonic: { decaySeconds: 3.6, highDecaySeconds: 1.1, cutoffHz: 1700 },
};

/** How an attack differs from a plain one. */
interface AttackSound {
  /** loudness of the attack, 1 for tiao */
  readonly gain: number;
  /** times the touch's cutoff */
  readonly bright: number;
  /** share of noise in the pluck: the nail's scrape */
  readonly noise: number;
}

/** By attack: outward strokes (nail) are brighter and stronger than inward ones, the left hand alone is soft and dull. */
export const ATTACK_SOUND: Readonly<Record<AttackKind, AttackSound>> = {
  bo: { gain: 1.15, bright: 1.1, noise: 0.3 },
  tuo: { gain: 1.15, bright: 1.2, noise: 0.4 },
  mo: { gain: 0.8, bright: 0.8, noise: 0.2 },
  tiao: { gain: 1, bright: 1.2, noise: 0.4 },
  gou: { gain: 0.9, bright: 0.85, noise: 0.2 },
  ti: { gain: 1.1, bright: 1.2, noise: 0.4 },
  da: { gain: 0.7, bright: 0.75, noise: 0.2 },
  zhai: { gain: 0.75, bright: 1.05, noise: 0.35 },
  pull: { gain: 0.5, bright: 0.7, noise: 0.15 },
  tap: { gain: 0.35, bright: 0.5, noise: 0.1 },
};

/** A string rings longer the lower it sounds: seconds scale by this, and at most so much. */
const LOW_RINGS_LONGER = 0.35;
const MOST_LONGER = 1.6;

/** How much longer or shorter than at 196 Hz a tone rings. @param hz its lowest partial */
export function ringScale(hz: number): number {
  return Math.min(MOST_LONGER, (196 / hz) ** LOW_RINGS_LONGER);
}

/** Seconds in which a tone falls by 60 dB. */
export function ringSeconds(touch: Touch, hz: number): number {
  return TOUCH_SOUND[touch].decaySeconds * ringScale(hz);
}
