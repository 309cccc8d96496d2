// SPDX-License-Identifier: AGPL-3.0-or-later
// What pitches alone say of a setting, before anything is searched.
import { HIGHEST_STOP_SEMITONES, ORDINARY_STOP_SEMITONES } from "../model/board.js";
import { semitoneOf } from "../model/pitch.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";

/** What a melody's pitches say of a setting. */
export interface Outlook {
  /** notes below the lowest string or above hui 1 of the highest for which the score gives nothing: none can be placed */
  readonly barred: number;
  /** how well the notes lie by a rough count; it decides nothing but what is tried first */
  readonly promise: number;
}

/** The octave, the fifth and the fourth lie on hui 7, 9 and 10. */
const PURE_STOPS = [12, 7, 5] as const;
/** What a note is worth by where it lies. */
const WORTH = { open: 2, pure: 1, between: 0, thin: -2 } as const;

/** The outlook of a melody in a setting. */
export function outlookOf(score: Score, { tuning, transpose }: Pick<Setting, "tuning" | "transpose">): Outlook {
  const low = Math.min(...tuning.semitones);
  const top = Math.max(...tuning.semitones);
  let barred = 0;
  let promise = 0;
  for (const note of score.notes) {
    const pitch = semitoneOf(note.sounding) + transpose.semitones;
    const free = note.given.string === null && note.given.position === null && note.given.across === null;
    if (free && (pitch < low || pitch > top + HIGHEST_STOP_SEMITONES)) barred++;
    promise += WORTH[lying(pitch, tuning.semitones, top)];
  }
  return { barred, promise };
}

function lying(pitch: number, open: readonly number[], top: number): keyof typeof WORTH {
  if (open.includes(pitch)) return "open";
  if (pitch > top + ORDINARY_STOP_SEMITONES) return "thin";
  return PURE_STOPS.some((above) => open.includes(pitch - above)) ? "pure" : "between";
}
