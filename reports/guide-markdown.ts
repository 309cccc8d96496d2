// SPDX-License-Identifier: AGPL-3.0-or-later
// The guide as Markdown.
import { exampleNotes, secondVoice } from "./guide-example.js";
import type { ExampleJson, GuideJson, GuideRuleJson } from "./guide-json.js";
import {
  ABOUT_WORDS,
  chargeWords,
  EXAMPLE_WORDS,
  findingWords,
  groups,
  handRows,
  handWords,
  reachWords,
  reportingWords,
  STRAIN_WORDS,
  settingWords,
  valueWords,
} from "./guide-words.js";
import { handbookSections } from "./handbook/sections.js";
import type { Cell, Part, Section, Table } from "./handbook/table.js";

/** `huipath guide --format md`: begins with the mark by which huipath knows its own files. */
export function guideMarkdown(guide: GuideJson): string {
  const blocks = [
    "<!-- made by huipath -->",
    "# The handbook of huipath",
    `> **A word on strain.** ${text(STRAIN_WORDS)}`,
    ...ABOUT_WORDS.map(text),
    text(chargeWords(guide)),
    text(handWords(guide.hand)),
    table(
      ["the hand", "value", "unit"],
      handRows(guide.hand).map(({ doc, value, unit }) => [doc, value, unit]),
    ),
    "## Contents",
    contents(guide),
    ...groups(guide).flatMap(({ title, about, rules }) => [`## ${title}`, about, ...rules.flatMap(ruleBlocks)]),
    ...handbookSections(guide.handbook).flatMap(sectionBlocks),
  ];
  return `${blocks.filter((block) => block !== "").join("\n\n")}\n`;
}

/** Text without anything that Markdown would take for markup. */
function text(plain: string): string {
  return plain.replace(/[\\`*_<>|[\]]/g, "\\$&");
}

function contents(guide: GuideJson): string {
  const rules = groups(guide).flatMap((group) => [
    `- ${group.title}`,
    ...group.rules.map((rule) => `  - [${text(rule.title)}](#rule-${rule.id}) (\`${rule.id}\`)`),
  ]);
  const tables = handbookSections(guide.handbook).flatMap(({ id, title, parts }) => [
    `- [${text(title)}](#${id})`,
    ...parts.flatMap((part) => (part.title === null ? [] : [`  - [${text(part.title)}](#${part.id})`])),
  ]);
  return [...rules, ...tables].join("\n");
}

function sectionBlocks({ id, title, words, parts }: Section): readonly string[] {
  return [`<a id="${id}"></a>`, `## ${text(title)}`, ...words.map(text), ...parts.flatMap(partBlocks)];
}

function partBlocks({ id, title, words, tables }: Part): readonly string[] {
  const heading = title === null ? [] : [`<a id="${id}"></a>`, `### ${text(title)}`];
  return [...heading, ...words.map(text), ...tables.flatMap((one) => tableBlocks(one, title))];
}

/** A table under its caption, which is left out where the heading above says the same. */
function tableBlocks({ caption, head, rows }: Table, title: string | null): readonly string[] {
  const cells = rows.map((row) => {
    const heading = cellText(row.head);
    return [row.strong ? `**${heading}**` : heading, ...row.cells.map(cellText)];
  });
  const above = title === null || caption === title ? [] : [`*${text(caption)}*`];
  return [...above, table(head.map(text), cells)];
}

function cellText(cell: Cell): string {
  const words = text(cell.characters === "" ? cell.text : `${cell.text} ${cell.characters}`);
  return cell.odd ? `**${words}**` : words;
}

function ruleBlocks(rule: GuideRuleJson): readonly string[] {
  const reports = reportingWords(rule);
  return [
    `<a id="rule-${rule.id}"></a>`,
    `### ${text(rule.title)} (\`${rule.id}\`)`,
    text(rule.principle),
    [
      `- **Why:** ${text(rule.why)}`,
      `- **When breaking it is right:** ${text(rule.whenRight)}`,
      `- **What to do:** ${text(rule.remedy)}`,
      `- **Looks at:** ${reachWords(rule)}`,
      ...(reports === "" ? [] : [`- **Reports:** ${text(reports)}`]),
      `- **Sources:** ${rule.sources.map(text).join("; ")}`,
    ].join("\n"),
    parameterTable(rule),
    rule.examples.map(exampleItem).join("\n"),
  ];
}

function parameterTable({ parameters }: GuideRuleJson): string {
  if (parameters.length === 0) return "";
  return table(
    ["name", "what it is", "value", "unit", "where from"],
    parameters.map((parameter) => [
      `\`${parameter.name}\``,
      text(parameter.doc),
      valueWords(parameter),
      text(parameter.unit),
      parameter.evidence,
    ]),
  );
}

/** A table of cells that are Markdown already. */
function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [head, head.map(() => "---"), ...rows].map((cells) => `| ${cells.join(" | ")} |`).join("\n");
}

function exampleItem(example: ExampleJson): string {
  const setting = settingWords(example);
  const notes = exampleNotes(example).map(({ note, marks, spoken }) => {
    const reading = spoken === "" ? "" : `: ${spoken}`;
    return text(`${note}${marks === "" ? "" : ` (${marks})`}${reading}`);
  });
  const second = secondVoice(example.melody);
  const found = example.finds.map((find) => `  - ${findingWords(find)}: ${text(find.message)}`);
  return [
    `- *Example, ${EXAMPLE_WORDS[example.kind]}:* ${text(example.shows)}${setting === "" ? "" : ` (${setting})`}.`,
    `  - ${notes.join("; ")}${second === "" ? "" : `; second voice ${text(second)}`}`,
    ...(found.length === 0 ? ["  - nothing is found"] : found),
  ].join("\n");
}
