// SPDX-License-Identifier: AGPL-3.0-or-later
// In a passage that is meant to struggle nothing is charged; what nobody writes is still what a hand would do.
import { expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { readingAt } from "../../src/check/check.js";
import { settled } from "../../src/check/settle.js";
import { NO_BRIEF } from "../../src/model/brief.js";
import { momentsOf } from "../../src/model/moments.js";
import type { Left } from "../../src/model/playing.js";
import { unweigh } from "../../src/rule/cost.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { chargesOf, type Played, totalOf } from "../../src/search/charges.js";
import { solve } from "../../src/search/solve.js";
import { bookFor, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const setting = settingOf();
const rules = bookFor(setting);
const score = shortScore("F3 D2 C2 D2 F3 D2 C2 D2", [
  ...["ming 9 gou 4", "san gou 2", "san gou 1", "san gou 2"],
  ...["ming 9 gou 4", "san gou 2", "san gou 1", "san gou 2"],
]);

/** How far the hand must travel in all, in cm. */
function travelCm({ lefts }: Played): number {
  return lefts.reduce((sum, left, at) => {
    const before = lefts[at - 1] as Left | undefined;
    if (before === undefined) return 0;
    return sum + Math.max(0, left.handFromCm - before.handToCm, before.handFromCm - left.handToCm);
  }, 0);
}

test("no hand travels for nothing, the readings stay, and the line costs as little as before", () => {
  const passages = [
    { fromBar: 0, toBar: 1, text: "1-2", character: "struggling", reason: "it limps", harmonics: false },
  ] as const;
  const brief = { ...NO_BRIEF, passages };
  const moments = momentsOf(score, setting, brief);
  const weighting = weightingOf(brief, moments, rules);
  const choices = choicesOf(moments, setting, rules);
  const { lefts, rights, weight } = solve(choices, setting, rules, { weighting });
  const played = { moments, lefts, rights };
  const line = settled({ choices, setting, rules, weighting, played, weight });
  expect(travelCm(played)).toBeGreaterThan(5);
  expect(travelCm(line)).toBeLessThan(1);
  expect(moments.map((_, at) => readingAt(line, at))).toEqual(moments.map((_, at) => readingAt(played, at)));
  expect(totalOf(chargesOf(line, rules, weighting))).toEqual(unweigh(weight));
  const own = totalOf(chargesOf(line, rules)).effort;
  expect(own).toBe(unweigh(solve(choices, setting, rules).weight).effort);
});

test("a line without a brief is left as it is", () => {
  const moments = momentsOf(score, setting);
  const weighting = weightingOf(NO_BRIEF, moments, rules);
  const choices = choicesOf(moments, setting, rules);
  const { weight, ...hands } = solve(choices, setting, rules, { weighting });
  const played = { moments, ...hands };
  expect(settled({ choices, setting, rules, weighting, played, weight })).toBe(played);
});
