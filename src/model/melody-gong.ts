// SPDX-License-Identifier: AGPL-3.0-or-later
// Gong of the melody: the tone on which its printed key puts the five-note scale.
import { gongOfKey } from "./note-table.js";
import { semitoneOf } from "./pitch.js";
import type { Score } from "./score.js";
import type { Setting } from "./setting.js";

/**
 * Gong of the key that is printed at a bar, as it sounds in this setting; the printed key of a transposing part is moved
 * with its notes.
 *
 * @param bar index into the score's bars
 */
export function gongAt(score: Score, setting: Setting, bar = 0): number {
  const key = score.bars[bar]?.key ?? { fifths: 0, mode: null };
  const first = score.notes[0];
  const partTransposition = first === undefined ? 0 : semitoneOf(first.sounding) - semitoneOf(first.written);
  return gongOfKey(key, setting.transpose.semitones + partTransposition);
}

/** Keys on these pitch classes are spelled with flats. */
export function flatsFor(gong: number): boolean {
  return [5, 10, 3, 8, 1].includes(gong);
}
