// SPDX-License-Identifier: AGPL-3.0-or-later
// The melody with something changed, searched and judged anew; each change is tried once, whichever finding asks.
import { choicesOf } from "../../candidates/candidates.js";
import type { Brief } from "../../model/brief.js";
import { momentsOf } from "../../model/moments.js";
import type { Score } from "../../model/score.js";
import type { Setting } from "../../model/setting.js";
import { weightingOf } from "../../rule/weighting.js";
import { type Played, playedBy } from "../../search/charges.js";
import { search } from "../../search/solve.js";
import { check, type Verdicts } from "../check.js";
import type { JudgedLine, Remediable } from "./line.js";

/**
 * The trials of one line together search at most so many notes, and each line gets at least one: one trial of a line of
 * 64 bars (about 320 notes), many of a short one, so that the whole command stays below one and a half times its time
 * without remedies.
 */
const MOST_NOTES_TRIED = 600;

/** What is changed; everything else stays. */
export interface Altered {
  readonly score?: Score;
  readonly setting?: Setting;
  readonly brief?: Brief;
}

/** The trials of one line. */
export class Trials {
  private readonly known = new Map<string, JudgedLine>();
  private notes = 0;

  constructor(readonly line: Remediable) {}

  /**
   * The trial of a change; null where no more are made.
   *
   * @param key     names the change: equal names are equal changes
   * @param altered what is changed
   */
  attempt(key: string, altered: () => Altered): JudgedLine | null {
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const count = this.line.played.moments.length;
    if (this.notes > 0 && this.notes + count > MOST_NOTES_TRIED) return null;
    this.notes += count;
    const trial = tryOut(this.line, altered());
    this.known.set(key, trial);
    return trial;
  }
}

function tryOut(line: Remediable, altered: Altered): JudgedLine {
  const { score, setting, brief } = { ...line, ...altered };
  const known = new Set(line.rules.map(({ id }) => id));
  const rules = setting === line.setting ? line.rules : line.bookFor(setting).filter(({ id }) => known.has(id));
  const moments = momentsOf(score, setting, brief);
  const weighting = weightingOf(brief, moments, rules);
  const searched = search(choicesOf(moments, setting, rules), setting, rules, { weighting });
  const played = playedBy(moments, searched.solution);
  const pipeline = { score, setting, rules, brief, weighting };
  return { ...pipeline, played, searched, verdicts: judged(pipeline, played) };
}

/** Another fingering of a trial's notes, judged. */
export function judged(trial: Omit<JudgedLine, "played" | "searched" | "verdicts">, played: Played): Verdicts {
  const { score, setting, rules, brief, weighting } = trial;
  return check(played, score, setting, rules, { brief, weighting, crashed: new Map() });
}
