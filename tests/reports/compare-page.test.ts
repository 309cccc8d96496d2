// SPDX-License-Identifier: AGPL-3.0-or-later
// Two fingerings side by side: the page and the terminal say what the JSON says.
import { beforeAll, describe, expect, it } from "vitest";
import { renderComparePage } from "../../reports/compare-page.js";
import { compareSummary } from "../../reports/compare-text.js";
import type { Comparison } from "../../src/report/compare.js";
import { inWords } from "../../src/words.js";
import { sampleComparison } from "./sample-comparison.js";

let comparison: Comparison;
let html: string;
beforeAll(async () => {
  comparison = sampleComparison();
  html = await renderComparePage(comparison);
});

describe("the page of compare", () => {
  it("comes in the order in which it is to be read", () => {
    const places = ["answer", "changes", "notes", "rules", "settings"].map((id) => html.indexOf(`<section id="${id}"`));
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it("says who made it, and loads nothing", () => {
    expect(html).toContain('<meta name="generator" content="huipath">');
    expect(html).not.toMatch(/<(script|link|iframe|img|object|embed|base|form)\b/i);
    expect(html).not.toMatch(/\ssrc(set)?=|url\(|@import|https?:\/\//i);
  });

  it("leads every link to a place in the page, and names every place once", () => {
    const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, href] of html.matchAll(/\shref="#([^"]*)"/g)) expect(ids).toContain(href);
  });

  it("has a row for every note that differs, and every sentence once", () => {
    const { notes, changes } = comparison.json;
    for (const note of notes) expect(html).toContain(`id="note-${note.id}"`);
    expect([...html.matchAll(/class="note-row/g)]).toHaveLength(notes.length);
    for (const { place, rest } of changes)
      expect(html.split(`${inWords(place, "en")}:</a> ${inWords(rest, "en")}`)).toHaveLength(2);
  });

  it("folds the smaller places away and marks those that decide", () => {
    const [open = "", folded = ""] = html.split('<details class="more">');
    expect(open.match(/<li class="(decides)?"><a /g)).toHaveLength(8);
    expect(folded.match(/<li class="(decides)?"><a /g)).toHaveLength(comparison.json.changes.length - 8);
    expect(html).toContain('<li class="decides">');
  });

  it("escapes whatever a score says", async () => {
    const EVIL = `"><script>alert(1)</script><img src=x onerror=alert(1)>`;
    const { json, score } = comparison;
    const page = await renderComparePage({
      ...comparison,
      score: { ...score, title: EVIL, creator: EVIL },
      settings: [{ name: EVIL, a: EVIL, b: EVIL }],
      pitches: json.notes.map(() => EVIL),
      json: {
        ...json,
        score: { ...json.score, title: EVIL, part: EVIL },
        a: { ...json.a, file: EVIL },
        changes: json.changes.map((change) => ({ ...change, place: EVIL, rest: EVIL, sentence: `${EVIL}: ${EVIL}` })),
        notes: json.notes.map((note) => ({ ...note, id: EVIL, bar: EVIL, a: { ...note.a, spoken: EVIL } })),
      },
    });
    expect(/<script|<img/i.test(page)).toBe(false);
    expect(/<[^>]*\son\w+\s*=/i.test(page.replace(/"[^"]*"/g, '""'))).toBe(false);
  });
});

describe("the terminal", () => {
  it("says the answer first and where the page lies last, on one screen", () => {
    const lines = compareSummary(comparison, { report: "x.compare.html", json: null }).trimEnd().split("\n");
    expect(lines[1]).toBe(comparison.sentence);
    expect(lines[2]).toBe(comparison.json.deciding?.sentence);
    expect(lines.at(-1)).toBe("Page: x.compare.html");
    expect(lines.length).toBeLessThanOrEqual(20);
  });

  it("says nothing of outputs that are not there", () => {
    const text = compareSummary(comparison, { report: "-", json: null });
    expect(text).not.toMatch(/^(Page|JSON):/m);
  });
});

describe("the words", () => {
  it("of the answer give both sums and blame nobody", () => {
    const { a, b } = comparison.json;
    const hundredths = (effort: number): string => String(Math.round(effort * 100) / 100);
    expect(comparison.sentence).toContain(`${hundredths(b.total.effort)} against ${hundredths(a.total.effort)}`);
    expect(html).not.toMatch(/\b(error|wrong|bad|fault|mistake)\b/i);
  });
});
