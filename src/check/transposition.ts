// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a melody runs off the strings: the smallest transposition that brings all of it back, and what it then costs.
import { choicesOf } from "../candidates/candidates.js";
import { inScale, type Moment, momentsOf } from "../model/moments.js";
import { parseTransposition, type Transposition } from "../model/pitch.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { type Cost, unweigh } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import { solve } from "../search/solve.js";

/** Three octaves above the highest open string lies hui 1. */
const HIGHEST_STOP_SEMITONES = 36;
const FARTHEST_SEMITONES = 48;

/** A setting in which every note lies on the strings. */
export interface Cleared {
  readonly transpose: Transposition;
  readonly cost: Cost;
}

/**
 * The smallest change of the transposition by which no note lies below or above the strings; null where no such change
 * exists or none is needed.
 *
 * @param bookFor the rule book made for a setting
 */
export function clearingTransposition(
  score: Score,
  setting: Setting,
  moments: readonly Moment[],
  bookFor: (setting: Setting) => readonly Rule[],
): Cleared | null {
  const pitches = moments.flatMap((moment) => moment.notes.map((note) => note.semitone));
  const room = {
    down: Math.min(...pitches) - Math.min(...setting.tuning.semitones),
    up: Math.max(...setting.tuning.semitones) + HIGHEST_STOP_SEMITONES - Math.max(...pitches),
  };
  if (room.down + room.up < 0 || (room.down >= 0 && room.up >= 0)) return null;
  const semitones = setting.transpose.semitones + (room.down < 0 ? -room.down : room.up);
  const transpose = parseTransposition(String(semitones), score.bars[0]?.key.fifths ?? 0);
  if (transpose === null || Math.abs(semitones) > FARTHEST_SEMITONES) return null;
  const moved = inScale({ ...setting, transpose }, score);
  const rules = bookFor(moved);
  const { weight } = solve(choicesOf(momentsOf(score, moved), moved, rules), moved, rules);
  return { transpose, cost: unweigh(weight) };
}
