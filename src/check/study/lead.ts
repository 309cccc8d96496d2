// SPDX-License-Identifier: AGPL-3.0-or-later
// Sounds without a stroke begin at a stop on the same string: where that stop may lie.
import { centsAt, cmFromBridge, NUT_POSITION, stopPosition } from "../../model/board.js";
import { frameNearCm } from "../../model/frame.js";
import { isCore } from "../../model/note-table.js";
import type { Sign } from "../../model/sign.js";
import type { Spot, StudySetting } from "./spot.js";

/** Whether a sign needs a stop before it. */
export function needsLead(sign: Sign): boolean {
  return sign === "shang" || sign === "xia" || sign === "pull-off" || sign === "yan";
}

/**
 * The five-tone note on the same string from which a sign leads to a spot, as a MIDI note number; null where there is none.
 * A slide and a pull-off begin at the next one; for yan the ring finger lies below the thumb, within the hand.
 */
export function leadTo(sign: Sign, { string, position }: Spot, setting: StudySetting): number | null {
  const open = setting.tuning.semitones[string - 1] as number;
  const here = position === NUT_POSITION ? 0 : Math.round(centsAt(position) / 100);
  const up = sign === "xia" || sign === "pull-off";
  const steps = up
    ? Array.from({ length: 12 }, (_, i) => here + 1 + i)
    : Array.from({ length: here - 1 }, (_, i) => here - 1 - i);
  const tones = steps.filter((above) => isCore(open + above, setting.scale));
  const found = sign === "yan" ? tones.find((above) => isWithinHand(here, above, setting)) : tones[0];
  return found === undefined ? null : open + found;
}

/** Whether the ring finger can hold the lower stop while the thumb comes down on the higher one. */
function isWithinHand(thumb: number, ring: number, setting: StudySetting): boolean {
  const [high, low] = [thumb, ring].map((semitones) => stopPosition(100 * semitones));
  if (high === null || high === undefined || low === null || low === undefined) return false;
  const [thumbCm, ringCm] = [high, low].map((place) => cmFromBridge(place, setting.scaleLengthCm)) as [number, number];
  const apart = ringCm - thumbCm;
  return apart >= frameNearCm(thumbCm, setting) && apart <= setting.hand.comfortableSpanCm;
}
