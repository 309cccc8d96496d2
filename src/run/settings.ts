// SPDX-License-Identifier: AGPL-3.0-or-later
// The settings that a melody is compared in, and the best of them.
import type { Brief } from "../model/brief.js";
import { parseTransposition, type Transposition } from "../model/pitch.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { type Tuning, tuningsWith } from "../model/tuning.js";
import { InputProblem } from "../problem.js";
import { type Contest, rankSettings } from "../search/ranking.js";
import { bookFor } from "./book.js";

/** Transpositions go so many semitones up and down. */
const FARTHEST_SEMITONES = 24;

/** What is compared. */
export interface Field {
  readonly tunings: readonly Tuning[];
  /** only whole octaves */
  readonly keepKey: boolean;
  readonly octaves: boolean;
  readonly top: number;
}

/** A melody with the setting of its call. */
export interface Called {
  readonly score: Score;
  readonly brief: Brief;
  readonly setting: Setting;
}

/** A contest of settings; rules are those of the brief. */
export function contestOf(called: Called, { tunings, keepKey, octaves, top }: Field): Contest {
  const { score, brief, setting } = called;
  const transpositions = transpositionsOf(score).filter(({ semitones }) => !keepKey || semitones % 12 === 0);
  return { score, brief, own: setting, tunings, transpositions, octaves, top, bookFor: (one) => bookFor(one, brief) };
}

/** Every transposition from two octaves down to two octaves up, spelled as `--transpose` spells it. */
function transpositionsOf(score: Score): readonly Transposition[] {
  const fifths = score.bars[0]?.key.fifths ?? 0;
  return Array.from({ length: 2 * FARTHEST_SEMITONES + 1 }, (_, i) => i - FARTHEST_SEMITONES).flatMap(
    (semitones) => parseTransposition(String(semitones), fifths) ?? [],
  );
}

/**
 * The best setting of a melody, as `fit` puts it first.
 *
 * @param named the tuning was named by somebody: only transpositions are compared
 * @throws InputProblem when a pin of the brief can sound its note in none
 */
export function bestSetting(called: Called, named: boolean): Setting {
  const tunings = named ? [called.setting.tuning] : tuningsWith(called.setting.tuning);
  const ranking = rankSettings(contestOf(called, { tunings, keepKey: false, octaves: false, top: 1 }));
  const [best] = ranking.best;
  if (best !== undefined) return { ...best.setting, chosenFrom: ranking.searched.settings };
  throw ranking.own instanceof InputProblem ? ranking.own : new RangeError("no setting was compared");
}
