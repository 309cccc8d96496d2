// SPDX-License-Identifier: AGPL-3.0-or-later
// The table of rules in the README, made from the rule files by `npm run docs`.
import type { RuleProse } from "../src/rule/types.js";
import { KINDS } from "./words.js";

const BEGIN = "<!-- rules:begin -->";
const END = "<!-- rules:end -->";

/** The rules as a Markdown table, group by group: id, title, principle. */
export function ruleTable(rules: readonly RuleProse[]): string {
  const rows = KINDS.flatMap(({ kind, title }) =>
    rules
      .filter((rule) => rule.kind === kind)
      .map((rule) => row([String(title), `\`${rule.id}\``, String(rule.title), String(rule.principle)])),
  );
  return [row(["group", "rule", "what it is about", "the principle"]), "| --- | --- | --- | --- |", ...rows].join("\n");
}

function row(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
}

/**
 * A README with its table of rules made anew; everything outside the two marks stays.
 *
 * @throws Error when a mark is missing
 */
export function withRuleTable(readme: string, rules: readonly RuleProse[]): string {
  const begin = readme.indexOf(BEGIN);
  const end = readme.indexOf(END, begin);
  if (begin < 0 || end < 0) throw new Error(`the README lacks ${BEGIN} or ${END}`);
  return `${readme.slice(0, begin + BEGIN.length)}\n\n${ruleTable(rules)}\n\n${readme.slice(end)}`;
}
