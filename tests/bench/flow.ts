// SPDX-License-Identifier: AGPL-3.0-or-later
// The search against a linear programme by other people's solver (HiGHS, MIT): one unit flows from the first note to the
// last over the ways that nothing blocks, and the cheapest flow is the cheapest fingering. Run by `npm run bench:flow`;
// it fails where the two disagree.
import { readFileSync } from "node:fs";
import loadHighs, { type ModelData } from "highs";
import { RULES } from "../../rules/index.js";
import { choicesOf } from "../../src/candidates/candidates.js";
import { momentsOf } from "../../src/model/moments.js";
import { readScore } from "../../src/read/score.js";
import { BLOCK } from "../../src/rule/cost.js";
import { solve } from "../../src/search/solve.js";
import { type Edge, SINK, SOURCE, splitEdges, stateGraph } from "../support/state-graph.js";
import { ROOT, SETTING, timed } from "./support.js";

/** Melodies that nothing needs to block, and how many of their moments. */
const EXCERPTS: readonly (readonly [string, number])[] = [
  ["amazing-grace", 8],
  ["amazing-grace", 16],
  ["auld-lang-syne", 4],
  ["auld-lang-syne", 8],
  ["still-water", 5],
];
const OPTIMAL = 7;
const RUNS = 21;

/** A column for each way, a row for each node: what flows in flows out again, but for the one unit at both ends. */
function flowOf(edges: readonly Edge[]): ModelData {
  const rows = new Map<string, number>();
  const rowOf = (node: string): number => {
    const row = rows.get(node) ?? rows.size;
    rows.set(node, row);
    return row;
  };
  const indices = Int32Array.from(edges.flatMap(({ from, to }) => [rowOf(from), rowOf(to)]));
  const surplus = Float64Array.from(rows.keys(), (node) => (node === SOURCE ? 1 : node === SINK ? -1 : 0));
  const numCols = edges.length;
  const numRows = rows.size;
  return {
    numCols,
    numRows,
    colCost: Float64Array.from(edges, ({ weight }) => weight),
    colLower: new Float64Array(numCols),
    colUpper: new Float64Array(numCols).fill(1),
    rowLower: surplus,
    rowUpper: surplus,
    matrix: {
      format: "csc",
      numRows,
      numCols,
      starts: Int32Array.from({ length: numCols + 1 }, (_, column) => 2 * column),
      indices,
      values: Float64Array.from(indices, (_, i) => (i % 2 === 0 ? 1 : -1)),
    },
  };
}

/** Milliseconds that something takes once, and what it gives. */
function once<T>(make: () => T): readonly [T, number] {
  const start = performance.now();
  const made = make();
  return [made, performance.now() - start];
}

const rules = RULES.map((entry) => entry.make(SETTING));
const highs = await loadHighs();

/** One line of the table. */
function compare(name: string, length: number): readonly string[] {
  const file = `fixtures/melodies/${name}.musicxml`;
  const moments = momentsOf(readScore(readFileSync(ROOT + file), file).score, SETTING).slice(0, length);
  const choices = choicesOf(moments, SETTING, rules);
  const { weight } = solve(choices, SETTING, rules);
  const searching = timed(() => solve(choices, SETTING, rules), RUNS, true);
  const ways = splitEdges(stateGraph({ choices, setting: SETTING, rules }));
  const [flow, building] = once(() => flowOf([...ways].filter((way) => way.weight < BLOCK)));
  const [value, solving] = once(() =>
    highs.withModel(flow, (model) => {
      model.options.set({ output_flag: false });
      const { modelStatus } = model.run();
      if (modelStatus !== OPTIMAL) throw new Error(`${name}: HiGHS ended with status ${modelStatus}`);
      return model.getObjectiveValue();
    }),
  );
  // The solver counts in floating point; the costs are whole.
  if (Math.abs(value - weight) > 1e-3) throw new Error(`${name}: HiGHS finds ${value}, the search ${weight}`);
  const seconds = (ms: number, places: number): string => (ms / 1000).toFixed(places);
  return [
    name,
    ...[length, flow.numCols, flow.numRows, weight, Math.round(value)].map(String),
    seconds(searching, 4),
    seconds(building, 2),
    seconds(solving, 2),
    Math.round(solving / searching).toString(),
  ];
}

const HEAD = ["melody", "notes", "columns", "rows", "search", "HiGHS", "search s", "building s", "HiGHS s", "ratio"];
const table = [HEAD, ...EXCERPTS.map(([name, length]) => compare(name, length))];
const widths = HEAD.map((_, column) => Math.max(...table.map((row) => (row[column] as string).length)));
console.log(`Cheapest effort in thousandths; medians of ${RUNS} searches, tables included, one run of HiGHS\n`);
for (const row of table) console.log(row.map((cell, column) => cell.padStart(widths[column] as number)).join("  "));
