// SPDX-License-Identifier: AGPL-3.0-or-later
// How the optimum must answer when the line or its costs are changed in a known way.
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Choice, choicesOf } from "../../src/candidates/candidates.js";
import { momentsOf } from "../../src/model/moments.js";
import { type Left, type Right, rightAt } from "../../src/model/playing.js";
import type { Toll } from "../../src/search/moves.js";
import { type Searched, type Solution, search, solve } from "../../src/search/solve.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { choicesIn, type SmallLine, scatter, smallLine, thin } from "../support/small-lines.js";
import { reversed, type StateGraph, stateGraph, waysThrough, waysTo } from "../support/state-graph.js";

const setting = settingOf();
const rules = bookFor(setting);
const WIDE = { plucked: 9, unplucked: 6, strokes: 4 };
const NARROW = { plucked: 5, unplucked: 4, strokes: 3 };
const RUNS = { numRuns: 60, seed: 1597 };

const narrow = (line: SmallLine): readonly Choice[] =>
  thin(choicesIn(line, setting, rules), NARROW, line.salt, setting);
const wide = (line: SmallLine): readonly Choice[] => thin(choicesIn(line, setting, rules), WIDE, line.salt, setting);
const weightOf = (choices: readonly Choice[]): number => solve(choices, setting, rules).weight;

/** Costs the same whatever is done. */
const flat = (thousandths: number): Toll => ({ left: () => thousandths, right: () => 0 });

/** Lets one pair of hands pass. */
const only = (left: Left, right: Right): Toll => ({
  left: (one) => (one === left ? 0 : Number.POSITIVE_INFINITY),
  right: (one) => (one === right ? 0 : Number.POSITIVE_INFINITY),
});

/** The toll that pins a moment to what a solution does there. */
const pinTo = ({ lefts, rights }: Solution, at: number): Toll => only(lefts[at] as Left, rights[at] as Right);

describe.each(MELODIES)("%s", (name) => {
  const choices = choicesOf(momentsOf(readMelody(name), setting), setting, rules);
  const searched = search(choices, setting, rules);
  const best = searched.solution;

  test("pinning the optimum changes neither value nor line: one note, some notes, all notes", () => {
    const all = choices.map((_, at) => pinTo(best, at));
    for (const salt of [1, 2, 3]) {
      const at = scatter(salt, 0) % choices.length;
      expect(searched.tolling(at, all[at] as Toll).solution).toEqual(best);
      const some = all.map((toll, i) => (scatter(salt, i) % 3 === 0 ? toll : null));
      expect(searched.retolled(some).solution).toEqual(best);
    }
    expect(searched.retolled(all).solution).toEqual(best);
    expect(solve(choices, setting, rules, { tolls: all })).toEqual(best);
  });

  test("a constant on every way to play one note shifts the total, and prices with it, and nothing else", () => {
    for (const salt of [4, 5]) {
      const at = scatter(salt, 0) % choices.length;
      const taxed = searched.tolling(at, flat(1234));
      expect(taxed.solution).toEqual({ ...best, weight: best.weight + 1234 });
      const asked = scatter(salt, 1) % choices.length;
      for (let state = 0; state < searched.states(asked); state++)
        expect(taxed.price(asked, state)).toBe(searched.price(asked, state) + 1234);
    }
    const everywhere = choices.map((_, at) => flat(10 * at));
    const sum = (10 * choices.length * (choices.length - 1)) / 2;
    expect(searched.retolled(everywhere).solution).toEqual({ ...best, weight: best.weight + sum });
  });

  test("without a hand the optimum costs the least price of the others", () => {
    const first = choices.slice(0, 20);
    const shorter = search(first, setting, rules);
    let cuts = 0;
    for (let draw = 0; draw < 6; draw++) {
      const at = scatter(draw, 6) % first.length;
      const { lefts } = first[at] as Choice;
      // Every other draw takes the optimum's own hand away.
      const gone = draw % 2 === 0 ? shorter.solution.lefts[at] : lefts[scatter(draw, 7) % lefts.length];
      const cut = without(first, at, gone as Left);
      if (cut === null) continue;
      expect(weightOf(cut)).toBe(leastWithout(shorter, at, gone as Left));
      cuts++;
    }
    expect(cuts).toBeGreaterThan(0);
  });
});

/** Whether some hand of the next moment plucks nothing and goes on from this one. */
const hangsOn = (choices: readonly Choice[], at: number): boolean =>
  choices[at + 1]?.lefts.some((one) => one.chain > 0) ?? false;

/** The line without one hand at one moment; null where another hand hangs on it, or none is left. */
function without(choices: readonly Choice[], at: number, left: Left): readonly Choice[] | null {
  const choice = choices[at] as Choice;
  if (hangsOn(choices, at) || choice.lefts.length === 1) return null;
  const lefts = choice.lefts.filter((one) => one !== left);
  const plucked = choice.lefts.indexOf(left) < choice.plucked ? choice.plucked - 1 : choice.plucked;
  return choices.with(at, { ...choice, lefts, plucked, pluckedList: -1 - at });
}

/** The least price at a moment of all states but those of one hand. */
function leastWithout(searched: Searched, at: number, left: Left): number {
  let least = Number.POSITIVE_INFINITY;
  for (let state = 0; state < searched.states(at); state++)
    if (searched.hands(at, state).left !== left) least = Math.min(least, searched.price(at, state));
  return least;
}

/** The line with one moment changed; what follows it is left off where a hand there hangs on the moment. */
function changed(choices: readonly Choice[], at: number, choice: Choice): readonly Choice[] {
  const rest = hangsOn(choices, at) ? [] : choices.slice(at + 1);
  return [...choices.slice(0, at), { ...choice, pluckedList: -1 - at }, ...rest];
}

/** Numbers below a count, in an order that looks random. */
const mixed = (count: number, salt: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => i).sort((a, b) => scatter(salt, a) - scatter(salt, b));

/** What the line costs with ever more of the plucked hands of one moment, until it has them all. */
function addingHands(choices: readonly Choice[], at: number, salt: number): readonly number[] {
  const choice = choices[at] as Choice;
  const order = mixed(choice.plucked, salt);
  return order.map((_, i) => {
    const kept = new Set(order.slice(0, i + 1));
    const lefts = choice.lefts.filter((_, l) => l >= choice.plucked || kept.has(l));
    return weightOf(changed(choices, at, { ...choice, lefts, plucked: kept.size }));
  });
}

/** What the line costs with ever more of the strokes of one moment, until it has them all. */
function addingStrokes(choices: readonly Choice[], at: number, salt: number): readonly number[] {
  const choice = choices[at] as Choice;
  const offered = [...choice.rights.keys()].filter((id) => choice.rights[id] === 1);
  const order = mixed(offered.length, salt).map((i) => offered[i] as number);
  // Strings that are never struck would leave hands without any stroke.
  const needed = order.filter((id, i) => order.findIndex((one) => rightAt(one).strings === rightAt(id).strings) === i);
  const added = order.filter((id) => !needed.includes(id));
  return [-1, ...added.keys()].map((i) => {
    const kept = new Set([...needed, ...added.slice(0, i + 1)]);
    return weightOf(changed(choices, at, { ...choice, rights: choice.rights.map((_, id) => Number(kept.has(id))) }));
  });
}

test("a hand or a stroke that is added never raises the cost", () => {
  let falls = 0;
  fc.assert(
    fc.property(smallLine(4), (line) => {
      const choices = wide(line);
      const at = scatter(line.salt, 1) % Math.max(1, choices.length);
      const choice = choices[at];
      if (choice === undefined || choice.plucked === 0) return;
      const whole = weightOf(changed(choices, at, choice));
      for (const costs of [addingHands(choices, at, line.salt), addingStrokes(choices, at, line.salt)]) {
        for (const [i, cost] of costs.slice(1).entries()) {
          expect(cost).toBeLessThanOrEqual(costs[i] as number);
          if (cost < (costs[i] as number)) falls++;
        }
        expect(costs.at(-1)).toBe(whole);
      }
    }),
    { ...RUNS, numRuns: 20 },
  );
  expect(falls).toBeGreaterThan(20);
});

test("a line costs at least as much as its two parts, each begun anew", () => {
  let dearer = 0;
  fc.assert(
    fc.property(smallLine(6), (line) => {
      const choices = wide(line);
      // A part cannot begin with a note that hangs on a pluck before it.
      const cuts = [...choices.keys()].filter((at) => at > 0 && choices[at]?.lefts.every((left) => left.chain === 0));
      const whole = weightOf(choices);
      for (const at of cuts) {
        const parts = weightOf(choices.slice(0, at)) + weightOf(choices.slice(at));
        expect(whole, `cut before moment ${at}`).toBeGreaterThanOrEqual(parts);
        if (whole > parts) dearer++;
      }
    }),
    RUNS,
  );
  expect(dearer).toBeGreaterThan(100);
});

/** The number of a searched state in the graph. */
function stateIn(graph: StateGraph, at: number, { left, right }: { left: Left; right: Right }): number {
  return graph.states[at]?.findIndex((one) => one.left === left && one.right === right) ?? -1;
}

test("from the last note to the first, the cost is the same", () => {
  fc.assert(
    fc.property(smallLine(6), (line) => {
      const choices = narrow(line);
      if (choices.length === 0) return;
      const graph = stateGraph({ choices, setting, rules });
      expect(waysThrough(reversed(graph)).least).toBe(weightOf(choices));
      expect(waysThrough(reversed(graph))).toEqual(waysThrough(graph));
    }),
    RUNS,
  );
});

test("the potentials of the search are what is left to pay by the reversed graph, and prices are both ways together", () => {
  fc.assert(
    fc.property(smallLine(5), (line) => {
      const choices = narrow(line);
      if (choices.length === 0) return;
      const graph = stateGraph({ choices, setting, rules });
      const searched = search(choices, setting, rules);
      const forward = waysTo(graph);
      const backward = waysTo(reversed(graph)).toReversed();
      for (const at of choices.keys()) {
        const potentials = searched.potentials(at);
        expect(potentials).toHaveLength(graph.sizes[at] as number);
        for (const [k, potential] of potentials.entries()) {
          const state = stateIn(graph, at, searched.hands(at, k));
          const left = (backward[at]?.[state]?.least as number) - graph.own(at, state);
          expect(potential).toBe(left);
          expect(searched.price(at, k)).toBe((forward[at]?.[state]?.least as number) + left);
        }
      }
    }),
    RUNS,
  );
});
