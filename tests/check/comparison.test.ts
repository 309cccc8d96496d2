// SPDX-License-Identifier: AGPL-3.0-or-later
// Lines beside a written one: they cost less each time, and end at the best of all.
import { expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { readingAt } from "../../src/check/check.js";
import { bestLine, betterLines } from "../../src/check/comparison.js";
import { NO_BRIEF } from "../../src/model/brief.js";
import { momentsOf } from "../../src/model/moments.js";
import { PLAIN_WEIGHTING, weightingOf } from "../../src/rule/weighting.js";
import { solve } from "../../src/search/solve.js";
import { bookFor, play, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const MELODY = "C3 D3 F3 G3 A3 G3 F3 D3 C3";

function compared(fingering: readonly string[]) {
  const setting = settingOf();
  const rules = bookFor(setting);
  const { played, choices, verdicts } = play(shortScore(MELODY, fingering, 80), setting);
  const better = betterLines({ setting, rules, choices, brief: NO_BRIEF, weighting: PLAIN_WEIGHTING, played });
  const moments = momentsOf(shortScore(MELODY, [], 80), setting);
  const best = solve(choicesOf(moments, setting, rules), setting, rules).weight;
  return { yours: verdicts.total.effort, better, best };
}

test("better lines cost less each time, take more changes, and end at the best line", () => {
  const { yours, better, best } = compared([
    "ming 10 gou 4",
    "ming 9 gou 4",
    "ming 10 mo 6",
    "ming 9 mo 6",
    "da 9 mo 7",
    "da 9 mo 6",
    "ming 8.5 gou 5",
    "ming 9 gou 4",
    "ming 10 gou 4",
  ]);
  const efforts = [yours, ...better.map(({ total }) => total.effort)];
  expect(better.length).toBeGreaterThan(1);
  expect(efforts).toEqual([...efforts].sort((a, b) => b - a));
  expect(new Set(efforts).size).toBe(efforts.length);
  expect(better.at(-1)?.total.effort).toBe(best);
  const counts = better.map(({ changes }) => changes.length);
  expect(counts).toEqual([...counts].sort((a, b) => a - b));
});

test("one wrong stroke in the best line is one change", () => {
  const setting = settingOf();
  const { played } = play(shortScore(MELODY, [], 80), setting);
  const readings = played.lefts.map((left, at) => {
    const placed = left.first;
    const fingers = { thumb: "da", index: "shi", middle: "zhong", ring: "ming" } as const;
    const contact = placed?.contact === "joint" ? " jie" : "";
    const place =
      placed?.sound === "open" ? "san" : `${fingers[placed?.finger ?? "ring"]}${contact} ${placed?.position}`;
    return `${place} ${at === 4 ? "da" : played.rights[at]?.stroke} ${placed?.string}`;
  });
  const { better, best } = compared(readings);
  expect(better).toHaveLength(1);
  expect(better[0]?.changes).toHaveLength(1);
  expect(better[0]?.total.effort).toBe(best);
});

test("the best line has nothing beside it", () => {
  expect(compared([]).better).toEqual([]);
});

test("what is meant to struggle stays as it is written; the rest is still put right", () => {
  const setting = settingOf();
  const rules = bookFor(setting);
  const fingering = ["san gou 1", "san gou 2", "san gou 3", "san gou 4", "san gou 1", "san gou 2", "san gou 3"];
  const score = shortScore("C2 D2 F2 G2 C2 D2 F2", fingering, 80);
  const passage = { fromBar: 0, toBar: 0, text: "1", character: "struggling", reason: "it limps" } as const;
  const brief = { ...NO_BRIEF, passages: [{ ...passage, harmonics: false }] };
  const { played, choices } = play(score, setting, brief);
  const weighting = weightingOf(brief, played.moments, rules);
  const barOf = (id: string): number => score.notes.find((note) => note.id === id)?.bar ?? -1;
  const bars = (lines: ReturnType<typeof betterLines>) =>
    lines.flatMap(({ changes }) => changes.map((one) => barOf(one.note)));
  const meant = bars(betterLines({ setting, rules, choices, brief, weighting, played }));
  expect(new Set(meant)).toEqual(new Set([1]));
  const unmeant = play(score, setting);
  const free = { ...unmeant, setting, brief: NO_BRIEF, weighting: PLAIN_WEIGHTING };
  expect(bars(betterLines(free))).toContain(0);
  const best = bestLine({ setting, rules, choices, brief, weighting, played });
  expect(best.moments).toBe(played.moments);
  for (const at of [0, 1, 2, 3]) expect(readingAt(best, at)).toBe(fingering[at]);
});
