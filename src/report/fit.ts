// SPDX-License-Identifier: AGPL-3.0-or-later
// Settings of one melody in order: the value that the outputs of `fit` are made from. No markup here.
import type { Retuned } from "../model/retuning.js";
import type { Score } from "../model/score.js";
import type { StopComparison } from "../model/string-comparison.js";
import type { Tuning } from "../model/tuning.js";
import type { CheckJson, CostJson } from "../report.js";
import type { Ranking } from "../search/ranking.js";
import type { Said } from "../words.js";

/** A tuning and transposition with its cheapest fingering, in numbers. */
export interface FitSettingJson {
  /** from 1; null where it is not among those compared, or settings that were not searched may cost less */
  readonly rank: number | null;
  readonly tuning: string;
  readonly strings: readonly string[];
  /** semitones */
  readonly transpose: number;
  /** the same as an interval, as `--transpose` takes it, such as "-P5" */
  readonly interval: string;
  /** such as "G minor" */
  readonly key: Said;
  readonly total: CostJson;
  readonly effortPerNote: number;
  readonly openNotes: number;
  readonly notesOnHui: number;
  readonly offPattern: number;
  readonly lowest: string;
  readonly highest: string;
  /** phrases that are played an octave from where they stand; printed labels of bars */
  readonly octaveMoves: readonly { readonly bars: string; readonly octaves: number }[];
  /** strings that differ from the standard tuning */
  readonly retune: readonly Retuned[];
  /** plain sentences: what is good about it, and what is not */
  readonly reasons: readonly Said[];
}

/** `--json` of `fit`. */
export interface FitJson {
  readonly schema: 1;
  readonly tool: CheckJson["tool"];
  readonly command: "fit";
  readonly score: CheckJson["score"];
  readonly hand: string;
  readonly temperament: string;
  readonly searched: Ranking["searched"];
  /** the setting of the call: that of the brief or of the score, else the standard tuning as written */
  readonly written: FitSettingJson;
  /** the best first */
  readonly settings: readonly FitSettingJson[];
}

/** A setting with what a page says beside its numbers. */
export interface FitEntry {
  readonly json: FitSettingJson;
  readonly tuning: Pick<Tuning, "title" | "characters" | "simplified" | "semitones"> & {
    readonly change: Said;
    readonly note: Said | null;
  };
  /** such as "a fifth lower" */
  readonly transposition: Said;
  /** MIDI note numbers of the outermost notes */
  readonly lowest: number;
  readonly highest: number;
}

/** All that the outputs say about the settings of one melody. */
export interface Fit {
  readonly json: FitJson;
  readonly score: Score;
  /** the answer in one sentence */
  readonly sentence: Said;
  /** what it compares with: the best without retuning, the setting of the call; empty where that is the best itself */
  readonly beside: Said;
  /** how the order came about, one sentence each */
  readonly how: readonly Said[];
  /** what bears on the whole order and is easily missed, one sentence each */
  readonly cautions: readonly Said[];
  /** one for each of `json.settings` */
  readonly entries: readonly FitEntry[];
  readonly written: FitEntry;
  /** sounds by which the first setting's tuning is checked, for its retuned strings */
  readonly checks: readonly StopComparison[];
}

/** What a ranking was made of, for its words. */
export interface Asked {
  readonly score: Score;
  readonly tunings: readonly Tuning[];
  readonly keepKey: boolean;
  readonly octaves: boolean;
  readonly version: string;
}
