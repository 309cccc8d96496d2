// SPDX-License-Identifier: AGPL-3.0-or-later
// What choices of findings are offered, and what the page's script needs to choose by bar.
import type { FindingJson, Report } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import { type InLanguage, inLanguage, type Language, phrase, type Said } from "../src/words.js";
import { KINDS, SEVERITY_WORD, WORST_FIRST } from "./words.js";

/** The check boxes: kinds and severities that there are. */
export interface FilterView {
  /** there is something to choose between */
  readonly shown: boolean;
  readonly kinds: readonly { readonly kind: string; readonly title: Said }[];
  readonly severities: readonly { readonly severity: Severity; readonly word: Said }[];
}

/** The choices among the open findings that stand by themselves. */
export function viewFilter(open: readonly FindingJson[]): FilterView {
  return {
    shown: open.length > 1,
    kinds: KINDS.filter(({ kind }) => open.some((finding) => finding.kind === kind)),
    severities: severitiesOf(open).map((severity) => ({ severity, word: SEVERITY_WORD[severity] })),
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

const WORDS = {
  shown: phrase("{n} of {all} places shown", "共{all}处，显示{n}处"),
} as const;

/** What the page hands to the script. */
export interface FilterData {
  readonly words: InLanguage<typeof WORDS>;
  /** printed labels of all bars */
  readonly bars: readonly string[];
}

/** The data of the filter. */
export function filterData({ score }: Report, language: Language): FilterData {
  return { words: inLanguage(WORDS, language), bars: score.bars.map(({ label }) => label) };
}
