// SPDX-License-Identifier: AGPL-3.0-or-later
// What the terminal says of two fingerings: one screen, the answer first, where the page lies last.

import type { CompareJson, Comparison } from "../src/report/compare.js";
import {
  inWords,
  isSame,
  joined,
  type Language,
  type Phrase,
  phrase,
  phraseOf,
  printable,
  type Said,
} from "../src/words.js";
import { costWords, sideWords, signed } from "./compare-words.js";
import { writtenLines } from "./terminal.js";

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
    sideLine(json, "a"),
    sideLine(json, "b"),
    ...settingLines(comparison),
    ...ruleLines(comparison),
    ...changeLines(comparison),
    ...writtenLines(written),
  ];
  return `${lines.map((line) => clipped(printable(inWords(line, language)))).join("\n")}\n`;
}

const clipped = (line: string): string =>
  line.length <= LINE_WIDTH ? line : `${line.slice(0, LINE_WIDTH - 1).trimEnd()}…`;

/** What a side is, and what it costs. */
function sideLine(json: CompareJson, side: "a" | "b"): Phrase {
  const [what, cost] = [sideWords(json, side), costWords(json[side].total)];
  const letter = side.toUpperCase();
  return phrase(`${letter}: ${what.en}: ${cost.en}`, `${letter}：${what.zh}：${cost.zh}`);
}

/** What the two sides are set for, where that differs; files and fingerings are said already. */
function settingLines({ settings }: Comparison): readonly Phrase[] {
  const apart = settings.slice(2).filter(({ a, b }) => !isSame(a, b));
  return apart.map(({ name, a, b }) =>
    phraseOf({
      en: (say) => `${say(name)}: ${say(a)} (A), ${say(b)} (B)`,
      zh: (say) => `${say(name)}：A为${say(a)}，B为${say(b)}`,
    }),
  );
}

function ruleLines({ json, titles }: Comparison): readonly Said[] {
  const apart = json.rules.filter(({ difference }) => difference.effort !== 0 || difference.blocked !== 0);
  if (apart.length === 0) return [];
  const named = apart.slice(0, NAMED_RULES).map(({ rule, difference: { effort, blocked } }) => {
    const stops =
      blocked === 0 ? "" : phrase(` (${signed(blocked)} that cannot be played)`, `（不能弹${signed(blocked)}处）`);
    return joined([`  ${signed(effort).padStart(7)}  `, titles.get(rule) ?? rule, stops]);
  });
  const rest = apart.length - named.length;
  const more = phrase(`           and ${rest} more on the page`, `           另有${rest}条，见页面`);
  return [phrase("By rule, B minus A:", "按规则，B减A："), ...named, ...(rest > 0 ? [more] : [])];
}

function changeLines({ json: { changes } }: Comparison): readonly Said[] {
  if (changes.length === 0) return [];
  const weight = ({ blocked, effort }: { blocked: number; effort: number }) =>
    Math.abs(blocked) * 1e6 + Math.abs(effort);
  const largest = [...changes].sort((x, y) => weight(y.difference) - weight(x.difference)).slice(0, NAMED_CHANGES);
  const named = changes.filter((change) => largest.includes(change)).map(({ sentence }) => joined(["  ", sentence]));
  const rest = changes.length - named.length;
  const more = phrase(
    `  and ${rest} smaller ${rest === 1 ? "place" : "places"} on the page`,
    `  另有${rest}处较小的，见页面`,
  );
  return [phrase("Where they part:", "不同之处："), ...named, ...(rest > 0 ? [more] : [])];
}
