// SPDX-License-Identifier: AGPL-3.0-or-later
// The price of every choice is the cost of a real line through it, and no line through it is cheaper.
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Choice, choicesOf } from "../../src/candidates/candidates.js";
import { momentsOf } from "../../src/model/moments.js";
import type { Left, Right } from "../../src/model/playing.js";
import { unweigh, weigh } from "../../src/rule/cost.js";
import { chargesOf } from "../../src/search/charges.js";
import type { Toll } from "../../src/search/moves.js";
import { type Searched, search } from "../../src/search/solve.js";
import { evaluate, faultsOf } from "../support/evaluator.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { choicesIn, scatter, smallLine, thin } from "../support/small-lines.js";

const setting = settingOf();
const rules = bookFor(setting);

const OTHERS: Toll = { left: () => 0, right: () => 0 };

/** Lets nothing through but one pair of hands. */
const only = (left: Left, right: Right): Toll => ({
  left: (one) => (one === left ? 0 : Number.POSITIVE_INFINITY),
  right: (one) => (one === right ? 0 : Number.POSITIVE_INFINITY),
});

const pricesAt = (searched: Searched, index: number): readonly number[] =>
  Array.from({ length: searched.states(index) }, (_, state) => searched.price(index, state));

describe.each(MELODIES)("%s", (name) => {
  const moments = momentsOf(readMelody(name), setting);
  const searched = search(choicesOf(moments, setting, rules), setting, rules);

  test("the least price is the cost of the best line at every moment", () => {
    for (const { index } of moments)
      expect(Math.min(...pricesAt(searched, index)), `moment ${index}`).toBe(searched.solution.weight);
  });

  test("the slow evaluator asks the price for the line through a choice", () => {
    for (let draw = 0; draw < 12; draw++) {
      const index = scatter(draw, 1) % moments.length;
      const open = pricesAt(searched, index).flatMap((price, state) => (Number.isFinite(price) ? [state] : []));
      const state = open[scatter(draw, 2) % open.length] as number;
      const { lefts, rights, weight } = searched.through(index, state);
      const line = { moments, lefts, rights };
      const { left, right } = searched.hands(index, state);
      expect(faultsOf(line, setting)).toEqual([]);
      expect([lefts[index], rights[index]]).toEqual([left, right]);
      expect(weigh(evaluate(line, rules))).toBe(weight);
      expect(weight).toBe(searched.price(index, state));
    }
  });
});

/** The same search with one moment's choices cut down by hand. */
function cut(choices: readonly Choice[], index: number, left: Left, right: Right): readonly Choice[] {
  return choices.map((choice, at) => {
    if (at !== index) return choice;
    const lefts = choice.lefts.filter((one) => one === left);
    const plucked = choice.lefts.indexOf(left) < choice.plucked ? 1 : 0;
    // A hand without a pluck needs the strokes of the pluck it hangs on.
    const rights = plucked === 0 ? choice.rights : Uint8Array.from(choice.rights, (_, id) => Number(id === right.id));
    return { ...choice, lefts, plucked, rights, pluckedList: -1 - index };
  });
}

test("a price is what a search costs in which nothing else is allowed there, from scratch or taken up again", () => {
  fc.assert(
    fc.property(smallLine(7), (line) => {
      const choices = thin(
        choicesIn(line, setting, rules),
        { plucked: 12, unplucked: 8, strokes: 5 },
        line.salt,
        setting,
      );
      if (choices.length === 0) return;
      const searched = search(choices, setting, rules);
      const index = scatter(line.salt, 3) % choices.length;
      const state = scatter(line.salt, 4) % searched.states(index);
      const { left, right } = searched.hands(index, state);
      const plucked = left.chain === 0;
      // Where nothing is struck a toll on strokes asks nothing: the stroke that stands is any.
      const alike = pricesAt(searched, index).filter((_, k) => !plucked && searched.hands(index, k).left === left);
      const price = Math.min(searched.price(index, state), ...alike);
      const pinned = searched.tolling(index, only(left, right));
      expect(pinned.solution.weight).toBe(price);
      const chainGoesOn = choices[index + 1]?.lefts.some((one) => one.chain > 0) ?? false;
      if (plucked && !chainGoesOn && Number.isFinite(price))
        expect(search(cut(choices, index, left, right), setting, rules).solution.weight).toBe(price);
      for (const at of choices.keys()) expect(Math.min(...pricesAt(pinned, at)), `moment ${at}`).toBe(price);
      expect(pinned.tolling(index, OTHERS).solution.weight).toBe(searched.solution.weight);
    }),
    { numRuns: 120, seed: 4711 },
  );
});

test("a ceiling bars every charge above it and nothing else", () => {
  const moments = momentsOf(readMelody(MELODIES[0] as string), setting);
  const choices = choicesOf(moments, setting, rules);
  const free = search(choices, setting, rules).solution;
  expect(search(choices, setting, rules, { ceiling: 5000 }).solution.weight).toBe(free.weight);
  const charges = chargesOf({ moments, lefts: free.lefts, rights: free.rights }, rules);
  const worst = Math.max(...charges.map((charge) => charge.cost.effort));
  const tight = search(choices, setting, rules, { ceiling: worst - 1 }).solution;
  const line = { moments, lefts: tight.lefts, rights: tight.rights };
  expect(evaluate(line, rules).effort).toBe(unweigh(tight.weight).effort);
  expect(tight.weight).toBeGreaterThan(free.weight);
});
