// SPDX-License-Identifier: AGPL-3.0-or-later
// The pipeline from a score to verdicts, for tests.
import { readFileSync } from "node:fs";
import { readHand } from "../../rules/hands.js";
import { RULES } from "../../rules/index.js";
import { type Choice, choicesOf } from "../../src/candidates/candidates.js";
import { check, type Verdicts } from "../../src/check/check.js";
import { type Brief, NO_BRIEF } from "../../src/model/brief.js";
import { momentsOf } from "../../src/model/moments.js";
import { UNTRANSPOSED } from "../../src/model/pitch.js";
import type { Score } from "../../src/model/score.js";
import type { Setting } from "../../src/model/setting.js";
import { findTuning } from "../../src/model/tuning.js";
import type { Rule } from "../../src/rule/types.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { type Played, playedBy } from "../../src/search/charges.js";
import { type Searched, type Solution, search } from "../../src/search/solve.js";

/** A setting with everything usual unless named. */
export function settingOf(
  wish: { tuning?: string; hand?: string; temperament?: Setting["temperament"] } = {},
): Setting {
  const hand = wish.hand ?? "medium";
  const tuning = findTuning(wish.tuning ?? "zhengdiao");
  return {
    tuning,
    gong: tuning.gong,
    transpose: UNTRANSPOSED,
    temperament: wish.temperament ?? "pythagorean",
    hand: readHand(readFileSync(new URL(`../../rules/hands/${hand}.yaml`, import.meta.url), "utf8"), hand),
    scaleLengthCm: 110,
  };
}

/** The whole book made for a setting. */
export function bookFor(setting: Setting): readonly Rule[] {
  return RULES.map((entry) => entry.make(setting));
}

/** A score searched and judged. */
export interface Judged {
  readonly rules: readonly Rule[];
  readonly choices: readonly Choice[];
  readonly searched: Searched;
  readonly solution: Solution;
  readonly played: Played;
  readonly verdicts: Verdicts;
}

/** Searches and judges a score. */
export function play(score: Score, setting: Setting = settingOf(), brief: Brief = NO_BRIEF): Judged {
  const rules = bookFor(setting);
  const moments = momentsOf(score, setting, brief);
  const weighting = weightingOf(brief, moments, rules);
  const choices = choicesOf(moments, setting, rules);
  const searched = search(choices, setting, rules, { weighting });
  const { solution } = searched;
  const played = playedBy(moments, solution);
  const wishes = { brief, weighting, crashed: new Map<string, string>() };
  return { rules, choices, searched, solution, played, verdicts: check(played, score, setting, rules, wishes) };
}
