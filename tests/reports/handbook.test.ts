// SPDX-License-Identifier: AGPL-3.0-or-later
// The tables of the handbook: the same in page, Markdown and JSON, every fact with its grounds.
import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { guideJson } from "../../reports/guide-json.js";
import { guideMarkdown } from "../../reports/guide-markdown.js";
import { renderGuidePage } from "../../reports/guide-page.js";
import { handbookJson } from "../../reports/handbook/json.js";
import { rangeChart } from "../../reports/handbook/range-chart.js";
import { handbookSections } from "../../reports/handbook/sections.js";
import { BY_CHARGE } from "../../src/check/strict.js";
import { drawSpecimen } from "../../src/engrave/tablature/specimen.js";
import { STROKES } from "../../src/model/fingering.js";
import { TUNINGS } from "../../src/model/tuning.js";
import { inLanguage } from "../../src/words.js";
import { bookFor, settingOf } from "../support/playing.js";

const setting = settingOf();
const guide = guideJson({ rules: bookFor(setting), hand: setting.hand, version: "0.0.0", byCharge: BY_CHARGE });
const page = (await renderGuidePage(guide, drawSpecimen())).replace(
  /<span lang="zh-Hant">(\p{Script=Han}+)<\/span>/gu,
  "$1",
);
const markdown = guideMarkdown(guide, "en").replace(/\\(?=[\\`*_<>|[\]])/g, "");
const handbook = handbookJson();
const sections = handbookSections(handbook);

/** Text as a page has it. */
const escaped = (text: string): string =>
  text.replace(/&/g, "&amp;").replace(/'/g, "&#x27;").replace(/"/g, "&quot;").replace(/=/g, "&#x3D;");

describe.each(sections.map((section) => [section.id, section] as const))("%s", (id, section) => {
  const words = [section.title, ...section.words, ...section.parts.flatMap((part) => part.words)];
  const cells = section.parts.flatMap(({ tables }) =>
    tables.flatMap((table) => [...table.head, ...table.rows.flatMap((row) => row.cells.map(({ text }) => text))]),
  );

  test("stands whole in page and Markdown, under one anchor that the contents lead to", () => {
    expect(page.split(`id="${id}"`)).toHaveLength(2);
    expect(page).toContain(`href="#${id}"`);
    expect(markdown).toContain(`](#${id})`);
    for (const text of [...words, ...cells].map(String)) {
      expect(page).toContain(escaped(text));
      expect(markdown).toContain(text);
    }
  });

  test("every table has as many cells as columns", () => {
    for (const { head, rows } of section.parts.flatMap(({ tables }) => tables))
      for (const row of rows) expect(row.cells).toHaveLength(head.length - 1);
  });
});

test("the page can be searched: nothing is folded but the hand and the words, and every tuning is in its text", () => {
  expect(page.split("<details")).toHaveLength(3);
  for (const { title, characters, name } of TUNINGS)
    for (const text of [title, characters, name]) expect(page).toContain(text);
});

test("a rule of thumb: the pattern and the odd string of the standard tuning can be read off the page", () => {
  const row = (head: string): string =>
    /<th scope="row">(?<head>[^<]*)<\/th>(?<cells>.*)<\/tr>/.exec(page.slice(page.indexOf(`<th scope="row">${head}`)))
      ?.groups?.cells ?? "";
  const plain = (cells: string): string =>
    cells
      .replace(/<[^>]+>/g, " ")
      .replace(/\s+/g, " ")
      .trim();
  expect(plain(row("below hui 7"))).toBe("7.9 7.6 7.9 7.6 7.6 7.9 7.6");
  expect(plain(row("above hui 7"))).toBe("6.4 6.2 6.4 6.4 6.2 6.4 6.2");
  expect(plain(row("around hui 10"))).toBe("10 10 10.8 ◆ 10 10 10 10");
  expect(plain(row("around hui 9"))).toBe("9 9 9 9 8.5 ◆ 9 9");
});

describe("facts of the trade", () => {
  const facts = [
    ...handbook.strokes,
    ...handbook.compounds,
    ...handbook.fingers,
    ...handbook.signs,
    ...handbook.cautions,
  ];

  test("say what they rest on: published ones name the source, others have none to name", () => {
    for (const { evidence, source } of facts) expect(source !== null).toBe(evidence === "published");
  });

  test("the eight strokes are there, their fingers and directions with them", () => {
    expect(handbook.strokes.map(({ name }) => name)).toEqual(STROKES);
    // Thompson's 75 terms, silkqin.com, for the fingers; Yuguzhai qinpu (1855), v44, for the thumb.
    const toward = handbook.strokes.filter(({ direction }) => direction === "toward the player");
    expect(toward.map(({ name }) => name)).toEqual(["bo", "mo", "gou", "da"]);
  });

  test("plain names are the pinyin without tone marks", () => {
    for (const { name, pinyin } of [...handbook.compounds, ...handbook.signs]) {
      const plain = pinyin.normalize("NFD").replace(/[\u0300-\u036f]/g, "");
      if (!name.endsWith(" cuo")) expect(plain).toBe(name);
    }
  });
});

test("the chart places strings from low to high, and ends at D6", () => {
  const { strings, octaves, width } = rangeChart(TUNINGS[0]?.strings ?? []);
  expect(octaves.map(({ name }) => name)).toEqual(["C2", "C3", "C4", "C5", "C6"]);
  for (const { open, from, hui4, hui1, harmonics } of strings) {
    expect(open).toBeLessThan(from);
    expect(hui1 - open).toBeCloseTo(1.5 * (hui4 - open), 9);
    expect(harmonics).toHaveLength(6);
    expect(Math.max(...harmonics.map(({ x }) => x))).toBe(hui1);
    expect(hui1).toBeLessThan(width);
  }
});

describe("the schema", () => {
  const text = readFileSync(new URL("../../reports/schema/guide.schema.json", import.meta.url), "utf8");
  const keeps = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false }).compile(JSON.parse(text));
  const withHandbook = (change: object): unknown =>
    JSON.parse(JSON.stringify(inLanguage({ ...guide, handbook: { ...handbook, ...change } }, "en")));

  test("holds what the guide prints", () => {
    keeps(withHandbook({}));
    expect(keeps.errors).toBeNull();
  });

  test("refuses what is missing, unknown or impossible", () => {
    const [first] = handbook.strokes;
    const [string] = handbook.harmonics;
    expect(keeps(withHandbook({ extra: 1 }))).toBe(false);
    expect(keeps(withHandbook({ cautions: undefined }))).toBe(false);
    expect(keeps(withHandbook({ strokes: [{ ...first, hand: "shut" }, ...handbook.strokes.slice(1)] }))).toBe(false);
    expect(keeps(withHandbook({ harmonics: [{ ...string, string: 8 }, ...handbook.harmonics.slice(1)] }))).toBe(false);
  });
});
