// SPDX-License-Identifier: AGPL-3.0-or-later
// What remedies are looked for in, and what they are.
import type { Brief } from "../../model/brief.js";
import type { Moment } from "../../model/moments.js";
import type { Score } from "../../model/score.js";
import type { Setting } from "../../model/setting.js";
import { type Cost, isLess } from "../../rule/cost.js";
import type { Rule } from "../../rule/types.js";
import type { Weighting } from "../../rule/weighting.js";
import type { Played } from "../../search/charges.js";
import type { Searched } from "../../search/solve.js";
import type { Said } from "../../words.js";
import type { Finding, Verdicts } from "../check.js";

/** A change that removes a finding, and what the whole line costs after it. */
export interface Remedy {
  readonly text: Said;
  readonly after: Cost;
  /** the same notes as they are then played; null where the notes, the tempo or the setting are changed */
  readonly played: Played | null;
  /** what is changed beside the fingering; null where nothing is */
  readonly music: MusicChange | null;
}

/** What is written now and what would be written instead, in a few words. @example { from: "E6", to: "E5" } */
export interface MusicChange {
  readonly from: Said;
  readonly to: Said;
}

/** What was tried against a finding. */
export interface Tried {
  /** null where nothing that was tried takes the finding away */
  readonly remedy: Remedy | null;
  /** every other fingering of the place was searched, and none avoids the finding */
  readonly unavoidable: boolean;
}

/** A line, searched and judged. */
export interface JudgedLine {
  readonly score: Score;
  readonly setting: Setting;
  /** the rule book without rules that failed */
  readonly rules: readonly Rule[];
  readonly brief: Brief;
  readonly weighting: Weighting;
  readonly played: Played;
  readonly searched: Searched;
  readonly verdicts: Verdicts;
}

/** A line with all that its remedies are searched with. */
export interface Remediable extends JudgedLine {
  /** the rule book made for another setting */
  readonly bookFor: (setting: Setting) => readonly Rule[];
}

/** The most blocks that a line may have in which this finding is gone. */
export function blocksWithout(finding: Finding, { total }: Verdicts): number {
  return finding.severity === "blocker" ? total.blocked - 1 : total.blocked;
}

/** Indices of the moments that a finding speaks of, in order; empty for the whole line. */
export function momentsOfFinding(finding: Finding, moments: readonly Moment[]): readonly number[] {
  const ids = new Set(finding.notes);
  return moments.filter(({ notes }) => notes.some(({ source }) => ids.has(source.id))).map(({ index }) => index);
}

/** The cheapest of some remedies; null for none. */
export function cheapest(remedies: readonly Remedy[]): Remedy | null {
  return remedies.reduce<Remedy | null>(
    (best, next) => (best === null || isLess(next.after, best.after) ? next : best),
    null,
  );
}
