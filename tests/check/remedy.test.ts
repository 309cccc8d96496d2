// SPDX-License-Identifier: AGPL-3.0-or-later
// Remedies are what a whole new search would find, and they do away with their finding.
import { describe, expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { check } from "../../src/check/check.js";
import { remediesOf } from "../../src/check/remedy.js";
import { momentsOf } from "../../src/model/moments.js";
import type { Score } from "../../src/model/score.js";
import { unweigh } from "../../src/rule/cost.js";
import { PLAIN_WEIGHTING } from "../../src/rule/weighting.js";
import { search, solve } from "../../src/search/solve.js";
import { readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

function remedied(score: Score) {
  const setting = settingOf();
  const rules = bookFor(setting);
  const moments = momentsOf(score, setting);
  const choices = choicesOf(moments, setting, rules);
  const searched = search(choices, setting, rules);
  const { lefts, rights } = searched.solution;
  const played = { moments, lefts, rights };
  const verdicts = check(played, score, setting, rules);
  const line = { score, setting, rules, weighting: PLAIN_WEIGHTING, played, searched, verdicts, bookFor };
  return { setting, rules, choices, searched, verdicts, remedies: remediesOf(line) };
}

describe("searching again", () => {
  test("with the same rules finds the same line", () => {
    const { searched, rules } = remedied(readMelody("evening-ferry"));
    for (const index of [0, 1, 20, searched.solution.lefts.length - 1]) {
      const again = searched.excepting(index, rules);
      expect(again.weight).toBe(searched.solution.weight);
      expect(again.lefts).toEqual(searched.solution.lefts);
    }
  });

  test("without open strings at one note costs what a search without them costs", () => {
    const { searched, rules, choices, setting } = remedied(readMelody("auld-lang-syne"));
    const closed = rules.map((rule) =>
      rule.id === "finger-and-place" && rule.reach === "place"
        ? {
            ...rule,
            measure: (...all: Parameters<typeof rule.measure>) =>
              all[0]?.sound === "open" ? 99 : rule.measure(...all),
            blocks: (measured: number) => measured === 99,
          }
        : rule,
    );
    for (const index of [0, 5, 26, 30]) {
      const thinned = choices.map((choice, i) => {
        const lefts = choice.lefts.filter((left) => i !== index || left.first?.sound !== "open");
        return {
          ...choice,
          lefts,
          plucked: lefts.filter((left) => left.chain === 0).length,
          pluckedList: i === index ? -1 : choice.pluckedList,
        };
      });
      expect(searched.excepting(index, closed).weight).toBe(solve(thinned, setting, rules).weight);
    }
  });
});

test("a remedy never promises less than the best line costs, nor more blocks than the line has", () => {
  const { verdicts, remedies } = remedied(readMelody("four-walks-round-the-pond"));
  expect(remedies.size).toBeGreaterThan(0);
  for (const remedy of remedies.values()) {
    expect(remedy.after.effort).toBeGreaterThanOrEqual(verdicts.total.effort);
    expect(remedy.after.blocked).toBe(verdicts.total.blocked);
    expect(remedy.text).toMatch(/^Another way: bar \d+, beat [\d.]+, .+ instead of .+\./);
  }
});

test("a submitted note is set free for its remedy, and the line gets better", () => {
  const { verdicts, remedies } = remedied(shortScore("G2 C2", ["san gou 4", "san gou 1"], 120));
  const finding = verdicts.findings.find(({ rule }) => rule === "alternate-strokes");
  const remedy = finding === undefined ? undefined : remedies.get(finding);
  expect(remedy?.text).toBe("Another way: bar 1, beat 1, san tiao 4 instead of san gou 4.");
  expect(remedy?.after).toEqual({ blocked: 0, effort: 100 });
});

test("a melody off the strings is moved by the smallest interval that brings it back", () => {
  const { verdicts, remedies, searched } = remedied(readMelody("lark-above-the-roof"));
  const blocked = verdicts.findings.filter(({ rule }) => rule === "above-the-board");
  const texts = new Set(blocked.map((finding) => remedies.get(finding)?.text));
  expect([...texts]).toEqual(["Play the whole melody a minor seventh lower: every note then lies on the strings."]);
  expect(remedies.get(blocked[0] as (typeof blocked)[number])?.after.blocked).toBe(0);
  expect(unweigh(searched.solution.weight).blocked).toBeGreaterThan(0);
});
