// SPDX-License-Identifier: AGPL-3.0-or-later
// The left hand as a frame: thumb toward the bridge, ring finger toward the nut, middle and index between.
import { cmFromBridge } from "./board.js";
import type { Finger } from "./fingering.js";
import type { Hand, Setting } from "./setting.js";

/** The middle and the index finger lie this far nutward of the thumb, in cm (a default of this project). */
const BEHIND_THUMB_CM: Readonly<Record<"index" | "middle", number>> = { index: 3, middle: 6 };

/** Half the play of a relaxed hand around one finger, in cm. */
function playCm(hand: Hand): number {
  return (hand.frameFarCm - hand.frameNearCm) / 4;
}

/**
 * Where the thumb of a relaxed hand lies while a finger stands at a place: nearest and farthest from the bridge in cm.
 * Without a finger (a harmonic, touched by whichever is nearest) all four count.
 */
export function relaxedThumbCm(finger: Finger | null, cm: number, hand: Hand): readonly [from: number, to: number] {
  const play = playCm(hand);
  const ring = (hand.frameFarCm + hand.frameNearCm) / 2;
  if (finger === null) return [cm - ring - play, cm + play];
  const behind = finger === "thumb" ? 0 : finger === "ring" ? ring : BEHIND_THUMB_CM[finger];
  return [cm - behind - play, cm - behind + play];
}

/** Where the thumb of the hand may lie at all while a finger stands at a place, in cm. */
export function reachableThumbCm(
  finger: Finger,
  cm: number,
  hand: Hand,
  near: number,
): readonly [from: number, to: number] {
  if (finger === "thumb") return [cm, cm];
  if (finger === "ring") return [cm - hand.spanLimitCm, cm - near];
  const play = playCm(hand);
  return [cm - BEHIND_THUMB_CM[finger] - play, cm - BEHIND_THUMB_CM[finger] + play];
}

/** How near the ring finger may stand to the thumb, in cm: places lie closer above hui 7. */
export function frameNearCm(thumbCm: number, setting: Setting): number {
  return thumbCm < setting.scaleLengthCm / 2 ? setting.hand.frameNearHighCm : setting.hand.frameNearCm;
}

/**
 * The places where the hand may be while an open string sounds: thumb positions in cm, spaced so that from every stop
 * in a finger's own part of the board (the thumb up to 13.1, the ring finger from hui 3 down) at least one of them is
 * reached without a charge. Fixed for a setting, never taken from the melody.
 */
export function handZonesCm(setting: Setting): readonly number[] {
  const { hand, scaleLengthCm } = setting;
  const window = playCm(hand) + hand.freeShiftCm;
  const first = cmFromBridge(1, scaleLengthCm) + window;
  const last = relaxedThumbCm("ring", cmFromBridge(13.6, scaleLengthCm), hand)[0] - hand.freeShiftCm;
  const count = Math.ceil((last - first) / (2 * window)) + 1;
  return Array.from({ length: count }, (_, k) => first + 2 * window * k);
}
