// SPDX-License-Identifier: AGPL-3.0-or-later
// How long a 64-bar melody takes, part by part, beside a bare loop that does nothing but add and compare.
// Run by `npm run bench`; no pass or fail.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { RULES } from "../../rules/index.js";
import { type Choice, choicesOf } from "../../src/candidates/candidates.js";
import { momentsOf } from "../../src/model/moments.js";
import { RIGHTS, type Strings } from "../../src/model/playing.js";
import { readScore } from "../../src/read/score.js";
import { solve } from "../../src/search/solve.js";
import { ROOT, SETTING, timed as timedRuns } from "./support.js";

const MELODY = "fixtures/melodies/four-walks-round-the-pond.musicxml";
const RUNS = 21;
const COMMAND_RUNS = 5;

/** Median milliseconds of so many runs. */
const timed = (run: () => void, runs = RUNS): number => timedRuns(run, runs, runs === RUNS);

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] as number;

/** Rows of additions of one width: as many as there are to be compared. */
interface Rows {
  readonly width: number;
  readonly count: number;
}

/** Adds two rows and keeps the least, over and over; nothing is looked up, laid out or remembered. */
function bareLoop(shapes: readonly Rows[]): number {
  const row = Float64Array.from({ length: WIDEST }, (_, c) => (c * 7919) % 1000);
  const table = Float64Array.from({ length: WIDEST * TABLE_ROWS }, (_, c) => (c * 104729) % 1000);
  let sum = 0;
  for (const { width, count } of shapes)
    for (let r = 0; r < count; r++) sum += least(row, table, width, r % TABLE_ROWS);
  return sum;
}

const WIDEST = 4096;
const TABLE_ROWS = 64;

function least(row: Float64Array, table: Float64Array, width: number, at: number): number {
  const base = at * width;
  let least = Number.POSITIVE_INFINITY;
  for (let c = 0; c < width; c++) {
    const value = (row[c] as number) + (table[base + c] as number);
    if (value < least) least = value;
  }
  return least;
}

/**
 * The rows that the two small minimisations of a step need at least: for every stroke the strokes before, from every
 * hand before; for every hand and stroke the hands before.
 */
function shapesOf(choices: readonly Choice[]): readonly Rows[] {
  return choices.slice(1).flatMap((choice, i) => {
    const before = (choices[i] as Choice).lefts;
    const plucked = choice.lefts.slice(0, choice.plucked);
    const strokes = [...new Set(plucked.map((left) => left.strings))].reduce((n, on) => n + strokesOn(on, choice), 0);
    const states = plucked.reduce((n, left) => n + strokesOn(left.strings, choice), 0);
    return [
      ...before.map((left) => ({ width: strokesOn(left.strings, choices[i] as Choice), count: strokes })),
      { width: before.length, count: states },
    ];
  });
}

function strokesOn(strings: Strings, choice: Choice): number {
  return RIGHTS.filter((right) => right.strings === strings && choice.rights[right.id] === 1).length;
}

/** Hands, and hands by strokes, that a note may have. */
function statesOf(choice: Choice): { lefts: number; states: number } {
  const states = choice.lefts.reduce((sum, left) => sum + strokesOn(left.strings, choice), 0);
  return { lefts: choice.lefts.length, states };
}

/** The whole command as a user runs it, in a process of its own. */
function timeCommand(): number {
  const folder = mkdtempSync(join(tmpdir(), "huipath-bench-"));
  const report = join(folder, "report.html");
  try {
    return timed(() => {
      const args = [`${ROOT}dist/src/cli.js`, "check", ROOT + MELODY, "--report", report, "--force", "--quiet"];
      const { status, stderr } = spawnSync(process.execPath, args, { encoding: "utf8" });
      if (status !== 0 && status !== 1) throw new Error(`the command ended with ${status}: ${stderr}`);
    }, COMMAND_RUNS);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function bench(): void {
  const bytes = readFileSync(ROOT + MELODY);
  const { score } = readScore(bytes, MELODY);
  const rules = RULES.map((entry) => entry.make(SETTING));
  const moments = momentsOf(score, SETTING);
  const choices = choicesOf(moments, SETTING, rules);
  const states = choices.map(statesOf);
  const shapes = shapesOf(choices);
  const bareRelaxations = shapes.reduce((sum, { width, count }) => sum + width * count, 0);

  const reading = timed(() => readScore(bytes, MELODY));
  const candidates = timed(() => choicesOf(moments, SETTING, rules));
  const solving = timed(() => solve(choices, SETTING, rules));
  const unpriced = timed(() => solve(choices, SETTING, []));
  const bare = timed(() => bareLoop(shapes));
  const each = (ms: number, count: number): string => `${ms.toFixed(1)} ms, ${((ms * 1e6) / count).toFixed(2)} ns each`;
  const spread = (values: readonly number[]): string => `${median(values)}, ${Math.max(...values)}`;

  const rows: readonly (readonly [string, string])[] = [
    ["bars, moments", `${score.bars.length}, ${moments.length}`],
    ["hands a note: median, most", spread(states.map(({ lefts }) => lefts))],
    ["hands by strokes a note: median, most", spread(states.map((one) => one.states))],
    ["additions compared", String(bareRelaxations)],
    ["reading", `${reading.toFixed(1)} ms`],
    ["candidates", `${candidates.toFixed(1)} ms`],
    ["search, tables included", each(solving, bareRelaxations)],
    ["the same with an empty rule book", `${unpriced.toFixed(1)} ms: asking the rules takes the rest`],
    ["bare loop over rows of the same widths", each(bare, bareRelaxations)],
    ["search by bare loop", (solving / bare).toFixed(2)],
    ["whole command", `${Math.round(timeCommand())} ms`],
  ];
  const wide = Math.max(...rows.map(([name]) => name.length));
  console.log(`${MELODY}: medians of ${RUNS} runs in one process, of ${COMMAND_RUNS} for the command\n`);
  for (const [name, value] of rows) console.log(`${name.padEnd(wide)}  ${value}`);
}

bench();
