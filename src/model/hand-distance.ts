// SPDX-License-Identifier: AGPL-3.0-or-later
// How far the left hand goes between two places: what the rules of movement measure, and reports show.
import { frameNearCm, reachableThumbCm } from "./frame.js";
import type { Left, Placed } from "./playing.js";
import type { Setting } from "./setting.js";

/**
 * Cm that the hand moves along the strings. One finger moves as far as its places lie apart; two fingers of the frame
 * move only by what their distance exceeds or misses; under an open string the hand counts, not a finger.
 */
export function handDistanceCm(from: Left, to: Left, setting: Setting): number {
  const a = from.first;
  const b = to.first;
  if (
    a !== null &&
    b !== null &&
    a.finger !== null &&
    b.finger !== null &&
    from.second === null &&
    to.second === null
  ) {
    if (a.finger === b.finger) return Math.abs(a.cm - b.cm);
    const near = frameNearCm(Math.min(a.cm, b.cm), setting);
    const [aFrom, aTo] = reachableThumbCm(a.finger, a.cm, setting.hand, near);
    const [bFrom, bTo] = reachableThumbCm(b.finger, b.cm, setting.hand, near);
    return Math.max(0, aFrom - bTo, bFrom - aTo);
  }
  return Math.max(0, from.handFromCm - to.handToCm, to.handFromCm - from.handToCm);
}

/** Cm from the thumb nutward to the ring finger; NaN where the two are not thumb and ring. */
export function thumbToRingCm(a: Placed | null, b: Placed | null): number {
  if (a === null || b === null) return Number.NaN;
  if (a.finger === "thumb" && b.finger === "ring") return b.cm - a.cm;
  if (a.finger === "ring" && b.finger === "thumb") return a.cm - b.cm;
  return Number.NaN;
}
