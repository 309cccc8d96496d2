// SPDX-License-Identifier: AGPL-3.0-or-later
// The fuzzer as a command: `npm run fuzz`, and `npm run fuzz -- --seed N --case M` to see one mutant again.
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { stock, tried } from "../support/fuzzing.js";
import { mutantOf } from "../support/mutants.js";

const { values } = parseArgs({
  options: {
    seed: { type: "string" },
    case: { type: "string" },
    from: { type: "string" },
    mutants: { type: "string" },
  },
});
const seed = Number(values.seed ?? 1);
const first = Number(values.case ?? values.from ?? 0);
const count = values.case === undefined ? Number(values.mutants ?? 10_000) : 1;
/** Of so many mutants one gets its page, and one is searched although its line is long. */
const PAGE_EVERY = 200;
const LONG_EVERY = 10;

const all = stock();
const folder = mkdtempSync(join(tmpdir(), "huipath-fuzz-"));
const ended = new Map<string, number>();
let defects = 0;
let total = 0;
let slowest = { number: -1, cpuSeconds: 0 };
const start = performance.now();
for (let number = first; number < first + count; number++) {
  const mutant = mutantOf(seed, number, all);
  const place = join(folder, String(number));
  mkdirSync(place);
  const verdict = await tried(mutant, place, {
    long: number % LONG_EVERY === 0,
    page: number % PAGE_EVERY === 0,
  });
  const kind = verdict.ended === "read" ? "read" : `refused as ${verdict.ended}`;
  ended.set(kind, (ended.get(kind) ?? 0) + 1);
  total += verdict.cpuSeconds;
  if (verdict.cpuSeconds > slowest.cpuSeconds) slowest = { number, cpuSeconds: verdict.cpuSeconds };
  if (verdict.defect !== null) {
    defects++;
    console.log(`\n${mutant.level} of ${mutant.from}, ${JSON.stringify(mutant.options)}: ${verdict.defect}`);
    console.log(`again with: npm run fuzz -- --seed ${seed} --case ${number}`);
  }
  if (verdict.defect === null || values.case === undefined) rmSync(place, { recursive: true });
  else console.log(`its files are in ${place}`);
  if ((number - first) % 1000 === 999) console.log(`${number - first + 1} mutants, ${defects} defects`);
}
if (values.case === undefined) rmSync(folder, { recursive: true });
for (const [kind, times] of [...ended].sort((a, b) => b[1] - a[1])) console.log(`${String(times).padStart(6)} ${kind}`);
console.log(
  `${count} mutants, ${defects} defects, ${total.toFixed(0)} s of processor time in ${((performance.now() - start) / 1000).toFixed(0)} s; ` +
    `the slowest is ${slowest.number} with ${slowest.cpuSeconds.toFixed(2)} s`,
);
process.exitCode = defects > 0 ? 1 : 0;
