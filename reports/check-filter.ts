// SPDX-License-Identifier: AGPL-3.0-or-later
// What choices of findings are offered.
import type { Score } from "../src/model/score.js";
import type { FindingJson } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import { phrase, type Said } from "../src/words.js";
import { KINDS, SEVERITY_WORD, WORST_FIRST } from "./words.js";

/** Check boxes for the kinds and severities that there are; the bars, for the page's script. */
export interface FilterView {
  /** there is something to choose between */
  readonly shown: boolean;
  readonly kinds: readonly { readonly kind: string; readonly title: Said }[];
  readonly severities: readonly { readonly severity: Severity; readonly word: Said }[];
  /** where findings begin or end */
  readonly bars: readonly { readonly index: number; readonly label: string }[];
  /** the sentence that counts what is shown, with {n} and {all} to be filled in */
  readonly counted: Said;
}

/** The choices among the open findings that stand by themselves. */
export function viewFilter(open: readonly FindingJson[], score: Score): FilterView {
  const barOf = new Map(score.notes.map(({ id, bar }) => [id, bar]));
  const ends = open.flatMap(({ notes }) => {
    const bars = notes.flatMap((note) => barOf.get(note) ?? []);
    return bars.length === 0 ? [] : [Math.min(...bars), Math.max(...bars)];
  });
  return {
    shown: open.length > 1,
    kinds: KINDS.filter(({ kind }) => open.some((finding) => finding.kind === kind)),
    severities: severitiesOf(open).map((severity) => ({ severity, word: SEVERITY_WORD[severity] })),
    bars: [...new Set(ends)].sort((a, b) => a - b).map((index) => ({ index, label: score.bars[index]?.label ?? "" })),
    counted: phrase("{n} of {all} places shown", "共{all}处，显示{n}处"),
  };
}

/** Class names for the severities of some findings. @example "has-problem has-note" */
export function hasClasses(findings: readonly FindingJson[]): string {
  return severitiesOf(findings)
    .map((severity) => `has-${severity}`)
    .join(" ");
}

const severitiesOf = (findings: readonly FindingJson[]): readonly Severity[] =>
  WORST_FIRST.filter((severity) => findings.some((finding) => finding.severity === severity));
