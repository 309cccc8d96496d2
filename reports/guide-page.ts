// SPDX-License-Identifier: AGPL-3.0-or-later
// The guide as one HTML page.

import type { TablatureSpecimen } from "../src/engrave/tablature/specimen.js";
import { unitAlone } from "../src/model/unit-words.js";
import { handName } from "../src/report/wording.js";
import type { Severity } from "../src/rule/types.js";
import { joined, type Language, phrase } from "../src/words.js";
import { anchor } from "./anchors.js";
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
import { rangeChart } from "./handbook/range-chart.js";
import { handbookSections } from "./handbook/sections.js";
import { viewTablature } from "./handbook/tablature.js";
import type { Row, Section } from "./handbook/table.js";
import { loadStyle, loadTemplate } from "./template.js";
import { allTerms } from "./terms.js";
import { count } from "./words.js";

/**
 * The guide as one HTML file that loads nothing from anywhere and needs no script.
 *
 * @example await renderGuidePage(guideJson(source), drawSpecimen()) // "<!doctype html>..."
 */
export async function renderGuidePage(
  guide: GuideJson,
  tablature: TablatureSpecimen,
  language: Language = "en",
): Promise<string> {
  const [template, style] = await Promise.all([loadTemplate("guide"), loadStyle()]);
  const { tool } = guide;
  return template(
    {
      style,
      tool: `${tool.name} ${tool.version}`,
      hand: {
        name: phrase(guide.hand.name, handName(guide.hand.name)),
        words: handWords(guide.hand),
        rows: handRows(guide.hand),
      },
      rules: phrase(count(guide.rules.length, "rule"), `${guide.rules.length}条规则`),
      strain: STRAIN_WORDS,
      about: [...ABOUT_WORDS, chargeWords(guide)].filter((words) => words !== ""),
      groups: groups(guide).map(({ kind, title, about, rules }) => ({
        id: `group-${kind}`,
        title,
        about,
        rules: rules.map(ruleView),
      })),
      sections: handbookSections(guide.handbook).map((section) => sectionView(section, guide)),
      terms: allTerms(),
      tablature: viewTablature(tablature),
    },
    language,
  );
}

/** A section of tables, ready for the template; the range has its chart. */
function sectionView({ parts, ...section }: Section, { handbook }: GuideJson): object {
  const standard = handbook.tunings[0]?.strings ?? [];
  return {
    ...section,
    chart: section.id === "range" ? rangeChart(standard) : null,
    parts: parts.map(({ tables, ...part }) => ({
      ...part,
      tables: tables.map(({ rows, ...table }) => ({
        ...table,
        captioned: part.title !== null && table.caption !== part.title,
        rows: rows.map((row) => ({ ...row, classes: rowClasses(row) })),
      })),
    })),
  };
}

function rowClasses({ strong, starts }: Row): string {
  return [...(strong ? ["strong"] : []), ...(starts ? ["starts"] : [])].join(" ");
}

function ruleView(rule: GuideRuleJson): object {
  return {
    anchor: anchor("rule", rule.id),
    href: `#${anchor("rule", rule.id)}`,
    id: rule.id,
    title: rule.title,
    principle: rule.principle,
    why: rule.why,
    whenRight: rule.whenRight,
    remedy: rule.remedy,
    reach: reachWords(rule),
    reports: reportingWords(rule),
    sources: joined(rule.sources, phrase("; ", "；")),
    parameters: rule.parameters.map((parameter) => ({
      name: parameter.name,
      doc: parameter.doc,
      value: valueWords(parameter),
      unit: unitAlone(parameter.unit),
      evidence: EVIDENCE_WORDS[parameter.evidence],
    })),
    examples: rule.examples.map(exampleView),
  };
}

function exampleView(example: ExampleJson): object {
  const severities = new Map<number | null, Severity>(example.finds.map((find) => [find.note, find.severity]));
  return {
    kind: EXAMPLE_WORDS[example.kind],
    shows: example.shows,
    setting: settingWords(example),
    notes: exampleNotes(example).map(({ number, ...cell }) => {
      const severity = severities.get(number);
      return { ...cell, classes: severity === undefined ? "" : `at sev-${severity}` };
    }),
    second: secondVoice(example.melody),
    finds: example.finds.map((find) => ({
      where: findingWords(find),
      message: find.message,
      severity: find.severity,
    })),
  };
}
