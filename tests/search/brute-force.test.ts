// SPDX-License-Identifier: AGPL-3.0-or-later
// The search against the plainest oracle there is: every fingering of a small line, each charged by the slow evaluator.
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Choice } from "../../src/candidates/candidates.js";
import { type Left, type Right, rightAt } from "../../src/model/playing.js";
import type { Setting } from "../../src/model/setting.js";
import { weigh } from "../../src/rule/cost.js";
import type { Rule } from "../../src/rule/types.js";
import { solve } from "../../src/search/solve.js";
import { costAt, faultsAt } from "../support/evaluator.js";
import { bookFor, settingOf } from "../support/playing.js";
import { choicesIn, smallLine, thin, type Width } from "../support/small-lines.js";
import { stateGraph, waysThrough } from "../support/state-graph.js";

/** The least cost over all legal fingerings, how many of them cost as little, and how many there are. */
function bruteForce(choices: readonly Choice[], setting: Setting, rules: readonly Rule[]) {
  const moments = choices.map((choice) => choice.moment);
  let least = Number.POSITIVE_INFINITY;
  let ties = 0;
  let lines = 0;
  const extend = (lefts: readonly Left[], rights: readonly Right[], cost: number): void => {
    const at = lefts.length;
    const choice = choices[at];
    if (choice === undefined) {
      lines++;
      if (cost < least) ties = 0;
      if (cost <= least) ties++;
      least = Math.min(least, cost);
      return;
    }
    for (const left of choice.lefts)
      for (const right of strokesFor(left, choice, rights[at - 1])) {
        const line = { moments: moments.slice(0, at + 1), lefts: [...lefts, left], rights: [...rights, right] };
        if (faultsAt(line, at, setting).length > 0) continue;
        extend(line.lefts, line.rights, cost + weigh(costAt(line, at, rules)));
      }
  };
  extend([], [], 0);
  return { least, ties, lines };
}

/** A note without a pluck keeps the stroke that stands; a plucked one may have any on its strings. */
function strokesFor(left: Left, choice: Choice, standing: Right | undefined): readonly Right[] {
  if (left.chain > 0) return standing === undefined ? [] : [standing];
  const offered = [...choice.rights.keys()].filter((id) => choice.rights[id] === 1).map(rightAt);
  return offered.filter((right) => right.strings === left.strings);
}

/** Lines of so many moments, how wide, how many of them. */
const SIZES: readonly (readonly [moments: number, width: Width, runs: number])[] = [
  [2, { plucked: 24, unplucked: 8, strokes: 5 }, 60],
  [3, { plucked: 5, unplucked: 4, strokes: 4 }, 150],
  [4, { plucked: 3, unplucked: 3, strokes: 3 }, 150],
  [5, { plucked: 2, unplucked: 3, strokes: 2 }, 150],
];

const SETTINGS = [
  settingOf(),
  settingOf({ tuning: "manshang", temperament: "just", hand: "beginner" }),
  settingOf({ tuning: "ruibin", temperament: "equal", hand: "large" }),
];

/** What a hand does, for telling whether the lines held everything. */
function kindOf(left: Left): string {
  if (left.first === null) return "silent";
  if (left.second !== null) return "chord";
  if (left.chain > 1) return "chain";
  if (left.arrival !== "plucked") return left.arrival;
  return left.first.mismatch ? "mismatch" : left.first.sound;
}

const seen = new Set<string>();

/** How many lines had more than one cheapest fingering. */
let tied = 0;

describe("the least cost over every fingering is the search's, and there are as many cheapest ones as ways of that cost", () => {
  test.each(SIZES)("%i moments", { timeout: 120_000 }, (count, width, runs) => {
    let tried = 0;
    fc.assert(
      fc.property(smallLine(count), fc.constantFrom(...SETTINGS), (line, setting) => {
        const rules = bookFor(setting);
        const choices = thin(choicesIn(line, setting, rules), width, line.salt, setting);
        const { least, ties, lines } = bruteForce(choices, setting, rules);
        tried += lines;
        if (ties > 1) tied++;
        const best = solve(choices, setting, rules);
        for (const left of best.lefts) seen.add(kindOf(left));
        for (const { figure } of best.rights) if (figure !== null) seen.add("figure");
        expect(best.weight).toBe(choices.length === 0 ? 0 : least);
        if (choices.length > 0)
          expect(waysThrough(stateGraph({ choices, setting, rules }))).toEqual({ least, ties, all: lines });
      }),
      { numRuns: runs, seed: 1855 },
    );
    expect(tried).toBeGreaterThan(100 * runs);
  });
});

test("some lines had several cheapest fingerings, some had one", () => {
  expect(tied).toBeGreaterThan(50);
  expect(tied).toBeLessThan(400);
});

test("the lines held every kind of sound", () => {
  const all = [
    "chain",
    "chord",
    "figure",
    "hammered",
    "harmonic",
    "mismatch",
    "open",
    "pulled-off",
    "silent",
    "slid",
    "stopped",
  ];
  expect([...seen].sort()).toEqual(all);
});
