// SPDX-License-Identifier: AGPL-3.0-or-later
// What the terminal says of two fingerings: one screen, the answer first, where the page lies last.

import type { Comparison } from "../src/report/compare.js";
import { inWords, type Language, type Said } from "../src/words.js";
import { costWords, sideWords, signed } from "./compare-words.js";

/** At most so many rules and places are named; the page has all. */
const NAMED_RULES = 4;
const NAMED_CHANGES = 3;
const LINE_WIDTH = 400;

/**
 * The summary of `huipath compare`.
 *
 * @param written where the outputs went; null for none
 */
export function compareSummary(
  comparison: Comparison,
  written: { readonly report: string | null; readonly json: string | null },
  language: Language = "en",
): string {
  const { json, sentence } = comparison;
  const lines: readonly Said[] = [
    json.score.title ?? json.score.file,
    sentence,
    ...comparison.line,
    ...(json.deciding === null ? [] : [json.deciding.sentence]),
    `A: ${sideWords(json, "a")}: ${costWords(json.a.total)}`,
    `B: ${sideWords(json, "b")}: ${costWords(json.b.total)}`,
    ...settingLines(comparison),
    ...ruleLines(comparison),
    ...changeLines(comparison),
    ...(written.report !== null && written.report !== "-" ? [`Page: ${written.report}`] : []),
    ...(written.json !== null && written.json !== "-" ? [`JSON: ${written.json}`] : []),
  ];
  return `${lines.map((line) => clipped(inWords(line, language))).join("\n")}\n`;
}

const clipped = (line: string): string =>
  line.length <= LINE_WIDTH ? line : `${line.slice(0, LINE_WIDTH - 1).trimEnd()}…`;

/** What the two sides are set for, where that differs; files and fingerings are said already. */
function settingLines({ settings }: Comparison): readonly string[] {
  const apart = settings.slice(2).filter(({ a, b }) => a !== b);
  return apart.map(({ name, a, b }) => `${name}: ${a} (A), ${b} (B)`);
}

function ruleLines({ json, titles }: Comparison): readonly string[] {
  const apart = json.rules.filter(({ difference }) => difference.effort !== 0 || difference.blocked !== 0);
  if (apart.length === 0) return [];
  const named = apart.slice(0, NAMED_RULES).map(({ rule, difference }) => {
    const stops = difference.blocked === 0 ? "" : ` (${signed(difference.blocked)} that cannot be played)`;
    return `  ${signed(difference.effort).padStart(7)}  ${titles.get(rule) ?? rule}${stops}`;
  });
  const rest = apart.length - named.length;
  return ["By rule, B minus A:", ...named, ...(rest > 0 ? [`           and ${rest} more on the page`] : [])];
}

function changeLines({ json: { changes } }: Comparison): readonly string[] {
  if (changes.length === 0) return [];
  const weight = ({ blocked, effort }: { blocked: number; effort: number }) =>
    Math.abs(blocked) * 1e6 + Math.abs(effort);
  const largest = [...changes].sort((x, y) => weight(y.difference) - weight(x.difference)).slice(0, NAMED_CHANGES);
  const named = changes.filter((change) => largest.includes(change)).map(({ sentence }) => `  ${sentence}`);
  const rest = changes.length - named.length;
  return [
    "Where they part:",
    ...named,
    ...(rest > 0 ? [`  and ${rest} smaller ${rest === 1 ? "place" : "places"} on the page`] : []),
  ];
}
