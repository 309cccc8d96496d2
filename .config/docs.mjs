// SPDX-License-Identifier: AGPL-3.0-or-later
// Writes the table of rules into the README, from the built rule book.
import { readFileSync, writeFileSync } from "node:fs";
import { withRuleTable } from "../dist/reports/rule-table.js";
import { RULES } from "../dist/rules/index.js";

const readme = new URL("../README.md", import.meta.url);
const rules = RULES.map((entry) => entry.prose);
writeFileSync(readme, withRuleTable(readFileSync(readme, "utf8"), rules));
