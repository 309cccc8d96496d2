// SPDX-License-Identifier: AGPL-3.0-or-later
// The place as its writer wrote it, which may be a little beside the usual one: 11 for 10.8.
import { namesPlace } from "./places.js";
import type { Placed } from "./playing.js";

/** The written place, where this is the place that is meant; null where nobody wrote one, and for an open string. */
export function writtenPosition(placed: Placed, given: number | null): number | null {
  if (given === null || placed.sound === "open") return null;
  return placed.mismatch || namesPlace(given, placed) ? given : null;
}

/** The place to print: as written, else the usual one; null for an open string. */
export function printedPosition(placed: Placed, given: number | null): number | null {
  return writtenPosition(placed, given) ?? placed.position;
}

/** A written place that is this far from its note, in cents, is heard as another note: half a semitone (our judgement). */
export const OTHER_NOTE_CENTS = 50;

/** Whether a written place sounds another note than the score's, not this note out of tune. */
export function soundsAnotherNote({ mismatch, offCents }: Placed): boolean {
  return mismatch && Math.abs(offCents) >= OTHER_NOTE_CENTS;
}
