// SPDX-License-Identifier: AGPL-3.0-or-later
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { ruleTable, withRuleTable } from "../../reports/rule-table.js";
import { RULES } from "../../rules/index.js";

const rules = RULES.map((entry) => entry.prose);

test("the README's table of rules is up to date (npm run docs makes it anew)", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  expect(readme).toBe(withRuleTable(readme, rules));
});

test("each rule has one row, and a bar in its words does not break the row", () => {
  const [first] = rules;
  if (first === undefined) throw new Error("the book is empty");
  expect(ruleTable(rules).split("\n")).toHaveLength(rules.length + 2);
  expect(ruleTable([{ ...first, title: "a|b" }])).toContain("| a\\|b |");
});

test("only what lies between the marks changes", () => {
  const readme = "before\n<!-- rules:begin -->\nSTALE\n<!-- rules:end -->\nafter\n";
  const written = withRuleTable(readme, rules);
  expect(written.startsWith("before\n<!-- rules:begin -->\n")).toBe(true);
  expect(written.endsWith("\n<!-- rules:end -->\nafter\n")).toBe(true);
  expect(written).not.toContain("STALE");
  expect(withRuleTable(written, rules)).toBe(written);
  expect(() => withRuleTable("no marks", rules)).toThrow("lacks");
});
