// SPDX-License-Identifier: AGPL-3.0-or-later
// The guide as Markdown.
import { unitAlone } from "../src/model/unit-words.js";
import { inWords, joined, type Language, type Phrase, phrase, type Said } from "../src/words.js";
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
import { EVIDENCE_WORDS } from "./handbook/evidence.js";
import { handbookSections } from "./handbook/sections.js";
import type { Cell, Part, Section, Table } from "./handbook/table.js";

/** `huipath guide --format md`: begins with the mark by which huipath knows its own files. */
export function guideMarkdown(guide: GuideJson, language: Language): string {
  const blocks: readonly Said[] = [
    "<!-- made by huipath -->",
    phrase("# The handbook of huipath", "# huipath手册"),
    md`> **${phrase("A word on strain.", "先说劳损。")}** ${text(STRAIN_WORDS)}`,
    ...ABOUT_WORDS.map(text),
    text(chargeWords(guide)),
    text(handWords(guide.hand)),
    table(
      [phrase("the hand", "手"), phrase("value", "数值"), phrase("unit", "单位")],
      handRows(guide.hand).map(({ doc, value, unit }) => [doc, value, unit]),
    ),
    phrase("## Contents", "## 目录"),
    contents(guide),
    ...groups(guide).flatMap(({ title, about, rules }) => [md`## ${title}`, about, ...rules.flatMap(ruleBlocks)]),
    ...handbookSections(guide.handbook).flatMap(sectionBlocks),
  ];
  return `${inWords(joined(blocks.filter(isThere), "\n\n"), language)}\n`;
}

/** Markdown around texts in both languages. */
function md(around: TemplateStringsArray, ...texts: readonly Said[]): Phrase {
  return joined(around.flatMap((piece, at) => [piece, texts[at] ?? ""]));
}

/** Whether there is anything to print. */
function isThere(said: Said): boolean {
  return inWords(said, "en") !== "";
}

/** Text without anything that Markdown would take for markup. */
function text(plain: Said): Phrase {
  const escaped = (language: Language): string => inWords(plain, language).replace(/[\\`*_<>|[\]]/g, "\\$&");
  return phrase(escaped("en"), escaped("zh"));
}

function contents(guide: GuideJson): Phrase {
  const rules = groups(guide).flatMap((group) => [
    md`- ${group.title}`,
    ...group.rules.map((rule) => md`  - [${text(rule.title)}](#rule-${rule.id}) (\`${rule.id}\`)`),
  ]);
  const tables = handbookSections(guide.handbook).flatMap(({ id, title, parts }) => [
    md`- [${text(title)}](#${id})`,
    ...parts.flatMap((part) => (part.title === null ? [] : [md`  - [${text(part.title)}](#${part.id ?? ""})`])),
  ]);
  return joined([...rules, ...tables], "\n");
}

function sectionBlocks({ id, title, words, parts }: Section): readonly Said[] {
  return [`<a id="${id}"></a>`, md`## ${text(title)}`, ...words.map(text), ...parts.flatMap(partBlocks)];
}

function partBlocks({ id, title, words, tables }: Part): readonly Said[] {
  const heading = title === null ? [] : [`<a id="${id}"></a>`, md`### ${text(title)}`];
  return [...heading, ...words.map(text), ...tables.flatMap((one) => tableBlocks(one, title))];
}

/** A table under its caption, which is left out where the heading above says the same. */
function tableBlocks({ caption, head, rows }: Table, title: Said | null): readonly Said[] {
  const cells = rows.map((row) => {
    const heading = cellText(row.head);
    return [row.strong ? md`**${heading}**` : heading, ...row.cells.map(cellText)];
  });
  const above = title === null || caption === title ? [] : [md`*${text(caption)}*`];
  return [...above, table(head.map(text), cells)];
}

function cellText(cell: Cell): Phrase {
  const characters = (language: Language): string => {
    const words = inWords(cell.characters, language);
    return words === "" ? "" : ` ${words}`;
  };
  const words = text(joined([cell.text, phrase(characters("en"), characters("zh"))]));
  return cell.odd ? md`**${words}**` : words;
}

function ruleBlocks(rule: GuideRuleJson): readonly Said[] {
  const reports = reportingWords(rule);
  return [
    `<a id="rule-${rule.id}"></a>`,
    md`### ${text(rule.title)} (\`${rule.id}\`)`,
    text(rule.principle),
    joined(
      [
        item(phrase("Why:", "为什么："), rule.why),
        item(phrase("When breaking it is right:", "何时可以违反："), rule.whenRight),
        item(phrase("What to do:", "怎么办："), rule.remedy),
        item(phrase("Looks at:", "看什么："), reachWords(rule)),
        ...(isThere(reports) ? [item(phrase("Reports:", "何时报告："), reports)] : []),
        item(phrase("Sources:", "出处："), joined(rule.sources, SEMICOLON)),
      ],
      "\n",
    ),
    parameterTable(rule),
    joined(rule.examples.map(exampleItem), "\n"),
  ];
}

/** What stands between parts of a row. */
const SEMICOLON = phrase("; ", "；");

function item(label: Said, words: Said): Phrase {
  return md`- **${label}** ${text(words)}`;
}

function parameterTable({ parameters }: GuideRuleJson): Said {
  if (parameters.length === 0) return "";
  return table(
    [
      phrase("name", "名称"),
      phrase("what it is", "含义"),
      phrase("value", "数值"),
      phrase("unit", "单位"),
      phrase("where from", "出处"),
    ],
    parameters.map((parameter) => [
      `\`${parameter.name}\``,
      text(parameter.doc),
      valueWords(parameter),
      text(unitAlone(parameter.unit)),
      EVIDENCE_WORDS[parameter.evidence],
    ]),
  );
}

/** A table of cells that are Markdown already. */
function table(head: readonly Said[], rows: readonly (readonly Said[])[]): Phrase {
  const lines = [head, head.map(() => "---"), ...rows].map((cells) => md`| ${joined(cells, " | ")} |`);
  return joined(lines, "\n");
}

function exampleItem(example: ExampleJson): Phrase {
  const setting = settingWords(example);
  const second = secondVoice(example.melody);
  const notes = exampleNotes(example).map(({ note, marks, spoken }) =>
    text(joined([note, isThere(marks) ? inBrackets(marks) : "", isThere(spoken) ? joined([COLON, spoken]) : ""])),
  );
  const voice = second === "" ? "" : md`${phrase("; second voice ", "；第二声部")}${text(second)}`;
  const found = example.finds.map((find) => md`  - ${findingWords(find)}${COLON}${text(find.message)}`);
  const kind = EXAMPLE_WORDS[example.kind];
  return joined(
    [
      md`- *${phrase("Example, ", "例，")}${kind}${phrase(":", "：")}* ${text(example.shows)}${isThere(setting) ? inBrackets(setting) : ""}${phrase(".", "。")}`,
      md`  - ${joined(notes, SEMICOLON)}${voice}`,
      ...(found.length === 0 ? [phrase("  - nothing is found", "  - 没有发现")] : found),
    ],
    "\n",
  );
}

const COLON = phrase(": ", "：");

function inBrackets(words: Said): Phrase {
  return joined([phrase(" (", "（"), words, phrase(")", "）")]);
}
