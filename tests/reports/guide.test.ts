// SPDX-License-Identifier: AGPL-3.0-or-later
// The rule book in its three forms: nothing left out, nothing loaded, nothing unescaped.
import { describe, expect, test } from "vitest";
import { exampleNotes } from "../../reports/guide-example.js";
import { type GuideJson, guideJson } from "../../reports/guide-json.js";
import { guideMarkdown } from "../../reports/guide-markdown.js";
import { renderGuidePage } from "../../reports/guide-page.js";
import { reportingWords } from "../../reports/guide-words.js";
import { RULES } from "../../rules/index.js";
import { BY_CHARGE } from "../../src/check/strict.js";
import { drawSpecimen } from "../../src/engrave/tablature/specimen.js";
import { inLanguage } from "../../src/words.js";
import { bookFor, settingOf } from "../support/playing.js";

function guideFor(hand = "medium"): GuideJson {
  const setting = settingOf({ hand });
  return guideJson({ rules: bookFor(setting), hand: setting.hand, version: "0.0.0", byCharge: BY_CHARGE });
}

const guide = guideFor();
const page = await renderGuidePage(guide, drawSpecimen());
const markdown = guideMarkdown(guide, "en");

/** Text as a page has it. */
const escaped = (text: string): string =>
  text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;")
    .replace(/'/g, "&#x27;");

describe.each(RULES.map(({ prose }) => [prose.id, prose] as const))("%s", (id, prose) => {
  const words = [prose.title, prose.principle, prose.why, prose.whenRight, prose.remedy, ...prose.sources];
  const numbers = Object.entries(prose.parameters).flatMap(([name, parameter]) => [name, parameter.doc]);
  const examples = prose.examples.flatMap((example) => [example.shows, ...example.finds.map((find) => find[2])]);

  test("stands whole in the page, under its anchor", () => {
    expect(page.split(`id="rule-${id}"`)).toHaveLength(2);
    expect(page).toContain(`href="#rule-${id}"`);
    for (const text of [...words, ...numbers, ...examples]) expect(page).toContain(escaped(String(text)));
  });

  test("stands whole in the Markdown", () => {
    const plain = markdown.replace(/\\(?=[\\`*_<>|[\]])/g, "");
    for (const text of [...words, ...numbers, ...examples]) expect(plain).toContain(String(text));
  });

  test("every example reads note by note, and its findings point at one of them", () => {
    for (const example of guide.rules.find((rule) => rule.id === id)?.examples ?? []) {
      const notes = exampleNotes(example);
      const last = Math.max(...notes.map((note) => note.number));
      expect(example.fingering.length).toBeLessThanOrEqual(last);
      for (const { note } of example.finds) expect(note ?? 1).toBeLessThanOrEqual(last);
    }
  });
});

describe("the page", () => {
  test("loads nothing, runs nothing, and says who made it", () => {
    expect(page).toContain('<meta name="generator" content="huipath">');
    expect(page).not.toMatch(/<script|<link|<img|<iframe|\ssrc=|url\(|@import/i);
    for (const [, href] of page.matchAll(/href="([^"]*)"/g)) expect(href).toMatch(/^#/);
  });

  test("every link leads to something, every id stands once", () => {
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, target] of page.matchAll(/href="#([^"]+)"/g)) expect(ids).toContain(target);
  });

  test("the caution stands before the first rule", () => {
    expect(page.indexOf("A word on strain")).toBeGreaterThan(0);
    expect(page.indexOf("A word on strain")).toBeLessThan(page.indexOf('class="rule"'));
    expect(markdown.indexOf("A word on strain")).toBeLessThan(markdown.indexOf("### "));
  });

  test("text from a rule is escaped", async () => {
    const [first, ...rest] = guide.rules;
    if (first === undefined) throw new Error("the book is empty");
    const hostile = { ...guide, rules: [{ ...first, title: "<b>&'\"" }, ...rest] };
    expect(await renderGuidePage(hostile, drawSpecimen())).toContain("&lt;b&gt;&amp;&#x27;&quot;");
    expect(guideMarkdown(hostile, "en")).toContain("\\<b\\>");
  });
});

describe("what a rule reports, in words", () => {
  const base = { ...(guide.rules[0] as GuideJson["rules"][number]), unit: "cents" };
  const usual = {
    limit: null,
    breaks: "above",
    limitVaries: false,
    by: "charge",
    severities: [],
    blocks: false,
  } as const;
  const steps = [
    { from: 10, severity: "caution" },
    { from: 20, severity: "problem" },
  ] as const;

  test.each([
    [usual, "By what it charges."],
    [{ ...usual, limit: 1 }, "Beyond 1 cent, by what it charges."],
    [
      { ...usual, limit: 2, blocks: true },
      "Beyond 2 cents, by what it charges; what cannot be played is counted apart.",
    ],
    [
      { ...usual, limit: 10, by: "number", severities: steps },
      "Noticeable beyond 10 cents, a player would ask beyond 20.",
    ],
    [
      { ...usual, limit: 30, breaks: "below", limitVaries: true, by: "number", severities: steps },
      "Reported below 30 cents (some notes have a limit of their own): noticeable below 10 cents, a player would ask below 20.",
    ],
  ] as const)("%j", (reporting, words) => {
    expect(String(reportingWords({ ...base, reporting }))).toBe(words);
  });
});

test("an example's shorthand in words", () => {
  const example = guide.rules[0]?.examples[0];
  if (example === undefined) throw new Error("no example");
  const notes = inLanguage(
    exampleNotes({ ...example, melody: "(,D3 C2+C3!:2) r:1/2 F3^", fingering: ["-", "san gou 1"] }),
    "en",
  );
  expect(notes).toEqual([
    { note: "D3", marks: "grace note, slur begins", spoken: "free", number: 1 },
    { note: "C2 + C3", marks: "2 beats, let ring, slur ends", spoken: "san gou 1 + free", number: 3 },
    { note: "rest", marks: "1/2 beat", spoken: "", number: 0 },
    { note: "F3", marks: "printed as a harmonic", spoken: "free", number: 4 },
  ]);
  expect(() => exampleNotes({ ...example, melody: "X9" })).toThrow("X9");
});

test("the limits are those of the hand asked for", () => {
  const span = (hand: string): string => `| ${settingOf({ hand }).hand.spanLimitCm} | cm |`;
  expect(span("small")).not.toBe(span("large"));
  expect(guideMarkdown(guideFor("small"), "en")).toContain(
    `the widest stretch at all; beyond it the hand moves ${span("small")}`,
  );
});
