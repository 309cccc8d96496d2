// SPDX-License-Identifier: AGPL-3.0-or-later
// Before and after: what a remedy's sentence says, what the search found, and what the page shows are one.
import { describe, expect, it, test } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { swapsFrom } from "../../reports/check-swap.js";
import { engraveReport } from "../../src/engrave/music.js";
import { NO_BRIEF } from "../../src/model/brief.js";
import { inCharacters } from "../../src/model/characters.js";
import type { FindingJson, Report } from "../../src/report.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { judge } from "../../src/run/judge.js";
import { chargesOf, totalOf } from "../../src/search/charges.js";
import { inWords, type Said } from "../../src/words.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";
import { remedied, remedyFor } from "../support/remedies.js";
import { shortScore } from "../support/shorthand.js";
import { sampleReport } from "./sample.js";

const report = judge(readMelody("auld-lang-syne"), settingOf(), "0.0.0");
const music = await engraveReport(report);
const en = (said: Said): string => inWords(said, "en");
const cured = report.json.findings.flatMap(({ remedy, ...rest }) => (remedy === null ? [] : [{ ...rest, remedy }]));

describe("every note of a before and after", () => {
  it.each(cured.map((finding) => [finding.id, finding] as const))("%s", (_id, finding) => {
    const { remedy } = finding;
    const swaps = swapsFrom(report, music)(finding);
    expect(swaps).toHaveLength(1);
    const [now, then] = swaps[0]?.rows ?? [];
    expect(en(now?.words ?? "")).toBe(en(remedy.music?.from ?? ""));
    expect(en(then?.words ?? "")).toBe(en(remedy.music?.to ?? ""));
    const text = en(remedy.text);
    const shown = swaps[0]?.heads.map((head, i) => ({
      head: en(head),
      from: now?.columns[i]?.map(({ said }) => en(said)).join(" + "),
      to: then?.columns[i]?.map(({ said }) => en(said)).join(" + "),
    }));
    for (const { head, from, to } of shown ?? []) {
      expect(text).toContain(`${to} instead of ${from}`);
      const change = remedy.changes.find(({ bar, beat }) => head === `Bar ${bar}, beat ${beat}`);
      expect([change?.from, change?.to]).toEqual([from, to]);
    }
    expect(shown?.length).toBe(Math.min(4, remedy.changes.length));
  });

  it("has the glyph of its own reading", () => {
    for (const [finding, placed] of report.instead)
      for (const note of placed)
        expect(music.instead.get(finding)?.get(note.id)).toBe(`jz-${note.spoken?.replaceAll(" ", "-")}`);
  });
});

test("the changed notes are those of the line that was searched, at its cost", () => {
  const score = shortScore("C3 D3 F3 D3 C3 D3 F3 D3", ["san gou 3", "san gou 4"]);
  const line = remedied(score);
  const weighting = weightingOf(NO_BRIEF, line.played.moments, line.rules);
  const remedies = [...line.tried.values()].flatMap(({ remedy }) => (remedy?.played ? [remedy] : []));
  expect(remedies.length).toBeGreaterThan(0);
  for (const { played, after } of remedies)
    if (played !== null) expect(totalOf(chargesOf(played, line.rules, weighting))).toEqual(after);
});

test("a change of the music is said in a few words", () => {
  const octave = remedyFor(remedied(shortScore("C2 A1 C2 D2")), "below-the-strings");
  expect(octave.music).toEqual({ from: "A1", to: "A2" });
  const run = remedyFor(remedied(shortScore("D4 E6 G6 D4")), "above-the-board");
  expect(run.music).toEqual({ from: "E6–G6", to: "E5–G5" });
});

describe("costs", () => {
  const [finding] = sampleReport().json.findings.filter(({ remedy }) => remedy !== null) as [FindingJson];
  const rows = (blocked: number, blockedAfter: number, effortAfter: number) => {
    const sample = sampleReport();
    const total = { blocked, effort: 8 };
    const changed = { ...sample, json: { ...sample.json, fingering: { ...sample.json.fingering, total } } } as Report;
    const remedy = { ...finding.remedy, blockedAfter, effortAfter, changes: [], music: { from: "E6", to: "E5" } };
    const none = { ...music, instead: new Map() };
    const one = { ...finding, id: "other", remedy: { text: "", ...remedy } };
    return swapsFrom(changed, none)(one)[0]?.rows.map(({ cost, share }) => [en(cost), share]);
  };

  it("of both lines stand beside each other as shares of the dearer one", () => {
    expect(rows(0, 0, 2)).toEqual([
      ["8", "--share: 100%"],
      ["2", "--share: 25%"],
    ]);
  });

  it("are not compared where one of them leaves notes out", () => {
    expect(rows(1, 0, 20)).toEqual([
      ["1 left out", ""],
      ["0 left out", ""],
    ]);
  });
});

test("the page shows both rows in both languages", async () => {
  const [, finding] = cured as [FindingJson, FindingJson];
  const [change] = finding.remedy?.changes ?? [];
  for (const [language, reading] of [
    ["en", change?.to ?? ""],
    ["zh", inCharacters(change?.to ?? "")],
  ] as const) {
    const page = await renderCheckPage(report, music, language);
    expect(page).toContain('<table class="swap">');
    expect(page).toContain(reading);
  }
});
