// SPDX-License-Identifier: AGPL-3.0-or-later
// One score in one setting, searched and judged by the whole rule book.
import { RULES } from "../../rules/index.js";
import { choicesOf } from "../candidates/candidates.js";
import { guardPins } from "../candidates/pins.js";
import { check } from "../check/check.js";
import { betterLines } from "../check/comparison.js";
import { remediesOf } from "../check/remedy.js";
import { type Brief, NO_BRIEF } from "../model/brief.js";
import { type Moment, momentsOf } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { InputProblem } from "../problem.js";
import { assembleReport } from "../report/assemble.js";
import { sourceOf } from "../report/notes.js";
import type { Report } from "../report.js";
import type { Rule } from "../rule/types.js";
import { weightingOf } from "../rule/weighting.js";
import { search } from "../search/solve.js";

/** Searches and judges one score in one setting. */
export function judge(score: Score, setting: Setting, version: string, brief: Brief = NO_BRIEF): Report {
  const bookFor = (one: Setting) => RULES.map((entry) => entry.make(one, brief.parameters[entry.prose.id]));
  const rules = bookFor(setting);
  const moments = momentsOf(score, setting, brief);
  const weighting = weightingOf(brief, moments, rules);
  const { searched, crashed } = searchSound(moments, setting, rules, brief);
  const { lefts, rights } = searched.solution;
  const played = { moments, lefts, rights };
  const verdicts = check(played, score, setting, rules, { brief, weighting, crashed });
  const sound = rules.filter((rule) => !crashed.has(rule.id));
  const remedies = remediesOf({ score, setting, rules: sound, brief, weighting, played, searched, verdicts, bookFor });
  const better = sourceOf(played) !== "searched" ? betterLines({ setting, rules: sound, weighting, played }) : null;
  return assembleReport({ score, setting, rules, played, verdicts, remedies, better, version });
}

/** Searches; where a rule fails it is left out and named, so that one broken rule does not lose the report. */
function searchSound(moments: readonly Moment[], setting: Setting, rules: readonly Rule[], brief: Brief) {
  const searchWith = (book: readonly Rule[]) => {
    const choices = choicesOf(moments, setting, book);
    guardPins(choices, brief, setting);
    return search(choices, setting, book, { weighting: weightingOf(brief, moments, book) });
  };
  const crashed = new Map<string, string>();
  try {
    return { searched: searchWith(rules), crashed };
  } catch (failure) {
    if (failure instanceof InputProblem) throw failure;
    for (const rule of rules) {
      try {
        if (rule.reach !== "passage") searchWith([rule]);
      } catch (error) {
        crashed.set(rule.id, error instanceof Error ? error.message : String(error));
      }
    }
    if (crashed.size === 0) throw failure;
    return { searched: searchWith(rules.filter((rule) => !crashed.has(rule.id))), crashed };
  }
}
