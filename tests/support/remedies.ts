// SPDX-License-Identifier: AGPL-3.0-or-later
// Remedies of small lines, and what holds a claim of a remedy against the pipeline run anew.
import { expect } from "vitest";
import type { Finding } from "../../src/check/check.js";
import { type Remedy, remediesOf, type Tried } from "../../src/check/remedy.js";
import { type Brief, NO_BRIEF } from "../../src/model/brief.js";
import type { Score } from "../../src/model/score.js";
import type { Setting } from "../../src/model/setting.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { bookFor, type Judged, play, settingOf } from "./playing.js";

/** A score searched, judged, and looked at for remedies. */
export interface Remedied extends Judged {
  readonly tried: ReadonlyMap<Finding, Tried>;
}

/** Searches and judges a score, and looks for remedies. */
export function remedied(score: Score, setting: Setting = settingOf(), brief: Brief = NO_BRIEF): Remedied {
  const judged = play(score, setting, brief);
  const weighting = weightingOf(brief, judged.played.moments, judged.rules);
  return { ...judged, tried: remediesOf({ score, setting, brief, weighting, ...judged, bookFor }) };
}

/** The first finding of a rule, on a note where one is named, with what was tried against it. */
export function triedAgainst(line: Remedied, rule: string, note?: string): Tried & { readonly finding: Finding } {
  const finding = line.verdicts.findings.find(
    (one) => one.rule === rule && (note === undefined || one.notes.at(-1) === note),
  );
  const tried = finding === undefined ? undefined : line.tried.get(finding);
  if (finding === undefined || tried === undefined) throw new Error(`nothing was tried against ${rule}`);
  return { ...tried, finding };
}

/** The remedy of the first finding of a rule. */
export function remedyFor(line: Remedied, rule: string, note?: string): Remedy {
  const { remedy } = triedAgainst(line, rule, note);
  if (remedy === null) throw new Error(`no remedy for ${rule}`);
  return remedy;
}

/** Holds a remedy against the line that it promises: it costs what was said, and the rule is content there. */
export function expectKept(remedy: Remedy, then: Judged, rule: string, note?: string): void {
  expect(then.verdicts.total).toEqual(remedy.after);
  const left = then.verdicts.findings.filter(
    (one) => one.rule === rule && (note === undefined || one.notes.includes(note)),
  );
  expect(left).toEqual([]);
}
