// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Moment } from "../model/moments.js";

/** A fermata makes its note longer by this share (our judgement). */
const FERMATA_LONGER = 0.6;

/** Where a moment of the written time lies, from the first bar on, when fermatas are held. */
export interface TimeMap {
  /** @param seconds written time */
  at(seconds: number): number;
}

/**
 * Holds the fermatas of a line: what begins after one begins later.
 *
 * @param start where the first bar lies in written seconds
 */
export function heldTimes(moments: readonly Moment[], start: number): TimeMap {
  const holds = moments.flatMap(({ notes, onsetSeconds, durationSeconds }) =>
    notes.some(({ source }) => source.marks.fermata)
      ? [{ from: onsetSeconds, extra: FERMATA_LONGER * durationSeconds, takes: durationSeconds }]
      : [],
  );
  return {
    at: (seconds) =>
      holds.reduce(
        (sum, { from, extra, takes }) => sum + extra * Math.min(1, Math.max(0, (seconds - from) / (takes || 1))),
        seconds - start,
      ),
  };
}
