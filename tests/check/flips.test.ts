// SPDX-License-Identifier: AGPL-3.0-or-later
// What flips within a fifth of a weight: against a search for every rule and both directions, and the slow evaluator.
import { expect, test } from "vitest";
import { readingAt } from "../../src/check/check.js";
import { flipsOf } from "../../src/check/flips.js";
import { NO_BRIEF } from "../../src/model/brief.js";
import { weigh } from "../../src/rule/cost.js";
import { PLAIN_WEIGHTING, weightingOf } from "../../src/rule/weighting.js";
import { solve } from "../../src/search/solve.js";
import { evaluate } from "../support/evaluator.js";
import { readMelody } from "../support/melodies.js";
import { play, settingOf } from "../support/playing.js";

const SETTING = settingOf();

test.each(["frere-jacques", "still-water"])("%s: a choice flips exactly where another line is cheaper then", (name) => {
  const { played, rules, choices } = play(readMelody(name), SETTING);
  const { moments } = played;
  const line = { setting: SETTING, rules, choices, weighting: PLAIN_WEIGHTING, brief: NO_BRIEF, played };
  const flips = new Map(flipsOf(line).map(({ weight, changes }) => [`${weight.rule} ${weight.to}`, changes]));
  for (const { id } of rules.filter(({ reach }) => reach !== "passage"))
    for (const to of [0.8, 1.2]) {
      const brief = { ...NO_BRIEF, weights: { [id]: to } };
      const best = solve(choices, SETTING, rules, { weighting: weightingOf(brief, moments, rules) });
      const flipped = flips.has(`${id} ${to}`);
      expect(best.weight < weigh(evaluate(played, rules, brief)), `${id} ${to}`).toBe(flipped);
    }
});

test("what flips is named as it is and as it would be", () => {
  const { played, rules, choices } = play(readMelody("frere-jacques"), SETTING);
  const flips = flipsOf({ setting: SETTING, rules, choices, weighting: PLAIN_WEIGHTING, brief: NO_BRIEF, played });
  const readings = new Map(played.moments.map(({ index, notes }) => [notes[0]?.source.id, readingAt(played, index)]));
  expect(flips.length).toBeGreaterThan(0);
  for (const { note, from, to } of flips.flatMap(({ changes }) => changes)) {
    expect(from).toBe(readings.get(note));
    expect(to).not.toBe(from);
  }
});
