// SPDX-License-Identifier: AGPL-3.0-or-later
// The search against shortest paths by a library of other people (ngraph.path, MIT) over the graph of all states.
import * as fc from "fast-check";
import createGraph from "ngraph.graph";
import { aStar, nba } from "ngraph.path";
import { expect, test } from "vitest";
import { type Choice, choicesOf } from "../../src/candidates/candidates.js";
import { type Brief, NO_BRIEF } from "../../src/model/brief.js";
import { momentsOf } from "../../src/model/moments.js";
import { weigh } from "../../src/rule/cost.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { solve } from "../../src/search/solve.js";
import { evaluate, faultsOf } from "../support/evaluator.js";
import { readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { choicesIn, smallLine, thin } from "../support/small-lines.js";
import {
  denseEdges,
  type Edge,
  nodeOf,
  SINK,
  SOURCE,
  type State,
  type StateGraph,
  splitEdges,
  stateGraph,
} from "../support/state-graph.js";

const setting = settingOf();
const rules = bookFor(setting);

/** What the library's shortest path costs, edge by edge, and the states on it. */
function shortest(graph: StateGraph, edges: Iterable<Edge>, find: typeof aStar) {
  const nodes = createGraph<undefined, number>();
  let count = 0;
  for (const { from, to, weight } of edges) {
    nodes.addLink(from, to, weight);
    count++;
  }
  const distance = (_: unknown, __: unknown, link: { readonly data: number }): number => link.data;
  // The library gives a path from its end.
  const path = find(nodes, { oriented: true, distance }).find(SOURCE, SINK).reverse();
  const ids = path.map(({ id }) => String(id));
  const weight = ids
    .slice(1)
    .reduce((sum, id, i) => sum + (nodes.getLink(ids[i] as string, id)?.data ?? Number.NaN), 0);
  const passed = new Set(ids);
  const line = graph.states.map((states, at) => states.find((_, k) => passed.has(nodeOf(at, k))) as State);
  return { weight, line, edges: count };
}

/** What is searched: the first so many moments of a melody. */
function beginningOf(name: string, length: number, brief: Brief = NO_BRIEF) {
  const moments = momentsOf(readMelody(name), setting, brief).slice(0, length);
  return { choices: choicesOf(moments, setting, rules), weighting: weightingOf(brief, moments, rules) };
}

/** The slow evaluator finds a path to be a fingering, at the same cost. */
function expectCost(choices: readonly Choice[], line: readonly State[], weight: number, brief: Brief = NO_BRIEF): void {
  const moments = choices.map(({ moment }) => moment);
  const played = { moments, lefts: line.map(({ left }) => left), rights: line.map(({ right }) => right) };
  expect(faultsOf(played, setting)).toEqual([]);
  expect(weigh(evaluate(played, rules, brief))).toBe(weight);
}

/** Every left hand, and a few strokes on each string: with all of them a step has 200,000 edges. */
const FEW_STROKES = { plucked: Number.POSITIVE_INFINITY, unplucked: Number.POSITIVE_INFINITY, strokes: 3 };

/** What a melody brings, its name, how many of its moments, how many edges at least. */
const EXCERPTS: readonly (readonly [string, string, number, number])[] = [
  ["open strings", "amazing-grace", 32, 190_000],
  ["notes out of reach", "lark-above-the-roof", 32, 13_000],
  ["chords", "two-bells", 20, 100_000],
  ["slurs", "willow-bend", 12, 170_000],
  ["grace notes and triplets", "market-morning", 12, 200_000],
  ["a high line", "greensleeves", 16, 110_000],
];

test.each(EXCERPTS)("%s: every edge from state to state (%s, %i moments)", (_, name, length, atLeast) => {
  const choices = thin(beginningOf(name, length).choices, FEW_STROKES, 7, setting);
  expect(choices).toHaveLength(length);
  const graph = stateGraph({ choices, setting, rules });
  const { weight, line, edges } = shortest(graph, denseEdges(graph), aStar);
  expect(edges).toBeGreaterThan(atLeast);
  expect(weight).toBe(solve(choices, setting, rules).weight);
  expectCost(choices, line, weight);
});

/** Name, and how many of its moments. */
const BEGINNINGS: readonly (readonly [string, number])[] = [
  ["amazing-grace", 12],
  ["spider-on-the-stairs", 6],
  ["two-bells", 10],
  ["willow-bend", 5],
];

test.each(BEGINNINGS)("with every stroke there is (%s, %i moments)", (name, length) => {
  const { choices } = beginningOf(name, length);
  const graph = stateGraph({ choices, setting, rules });
  const { weight, line, edges } = shortest(graph, splitEdges(graph), nba);
  expect(edges).toBeGreaterThan(100_000);
  expect(weight).toBe(solve(choices, setting, rules).weight);
  expectCost(choices, line, weight);
});

test("under a brief that weighs, accepts and lets flow", () => {
  const brief: Brief = {
    ...NO_BRIEF,
    weights: { "hand-shift": 2.5, "string-leap": 0.3 },
    passages: [{ fromBar: 0, toBar: 1, text: "1-2", character: "flowing", reason: null, harmonics: false }],
    accept: [{ fromBar: 2, toBar: 3, text: "3-4", rule: "alternate-strokes", reason: "an echo" }],
  };
  const { choices: all, weighting } = beginningOf("willow-bend", 12, brief);
  const choices = thin(all, FEW_STROKES, 7, setting);
  const graph = stateGraph({ choices, setting, rules, weighting });
  const { weight, line } = shortest(graph, denseEdges(graph), nba);
  expect(weight).toBe(solve(choices, setting, rules, { weighting }).weight);
  expect(weight).not.toBe(solve(choices, setting, rules).weight);
  expectCost(choices, line, weight, brief);
});

test("small random lines, by either finder and over either set of edges", () => {
  let paths = 0;
  fc.assert(
    fc.property(smallLine(6), (small) => {
      const width = { plucked: 8, unplucked: 6, strokes: 3 };
      const choices = thin(choicesIn(small, setting, rules), width, small.salt, setting);
      if (choices.length === 0) return;
      const graph = stateGraph({ choices, setting, rules });
      const least = solve(choices, setting, rules).weight;
      for (const edges of [denseEdges, splitEdges])
        for (const find of [aStar, nba]) {
          const { weight, line } = shortest(graph, edges(graph), find);
          expect(weight).toBe(least);
          expectCost(choices, line, weight);
          paths++;
        }
    }),
    { numRuns: 60, seed: 2718 },
  );
  expect(paths).toBeGreaterThan(200);
});
