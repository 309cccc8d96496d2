// SPDX-License-Identifier: AGPL-3.0-or-later
// The fuzzer as a command: `npm run fuzz`, and `npm run fuzz -- --seed N --case M` to see one mutant again.
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { isMainThread, parentPort, workerData } from "node:worker_threads";
import { type More, stock, tried, type Verdict } from "../support/fuzzing.js";
import { mutantOf } from "../support/mutants.js";
import { type Watched, watched } from "../support/watchdog.js";

/** What a thread needs to know. */
interface Shared {
  readonly seed: number;
  readonly folder: string;
}

/** A verdict, and what it is about. */
interface Tried extends Verdict {
  readonly about: string;
}

/** Of so many mutants one gets its page, one is searched although its line is long, one each goes to `fit` and `compare`. */
const PAGE_EVERY = 200;
const LONG_EVERY = 10;
const OTHERS_EVERY = 20;
/** Far more than a mutant takes on a busy machine. */
const BOUNDS = { seconds: 120, megabytes: 1024 };

function moreOf(number: number): More {
  const command = ({ 7: "fit", 13: "compare" } as const)[number % OTHERS_EVERY] ?? "check";
  return { command, long: number % LONG_EVERY === 0, page: number % PAGE_EVERY === 0 };
}

function work({ seed, folder }: Shared): void {
  const all = stock();
  parentPort?.on("message", async (number: number) => {
    const mutant = mutantOf(seed, number, all);
    const place = join(folder, String(number));
    mkdirSync(place);
    const more = moreOf(number);
    const verdict = await tried(mutant, place, more);
    const about = `${more.command}, ${mutant.level} of ${mutant.from}, ${JSON.stringify(mutant.options)}`;
    parentPort?.postMessage({ ...verdict, about } satisfies Tried);
  });
}

/** What came of all mutants. */
class Tally {
  readonly ended = new Map<string, number>();
  defects = 0;
  seconds = 0;
  slowest = { number: -1, cpuSeconds: 0 };

  add(one: Watched<Tried>): void {
    const { number, result } = one;
    const kind = result === null ? "stopped" : result.ended === "read" ? "read" : `refused as ${result.ended}`;
    this.ended.set(kind, (this.ended.get(kind) ?? 0) + 1);
    this.seconds += result?.cpuSeconds ?? 0;
    if (result !== null && result.cpuSeconds > this.slowest.cpuSeconds)
      this.slowest = { number, cpuSeconds: result.cpuSeconds };
    const defect = one.result === null ? one.stopped : one.result.defect;
    if (defect === null) return;
    this.defects++;
    console.log(`\ncase ${number}${result === null ? "" : `, ${result.about}`}: ${defect}`);
  }
}

async function main(): Promise<void> {
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
  const folder = mkdtempSync(join(tmpdir(), "huipath-fuzz-"));
  const numbers = Array.from({ length: count }, (_, index) => first + index);
  const tally = new Tally();
  const start = performance.now();
  for await (const one of watched<Tried>(
    new URL(import.meta.url),
    { seed, folder } satisfies Shared,
    numbers,
    BOUNDS,
  )) {
    const before = tally.defects;
    tally.add(one);
    if (tally.defects > before) console.log(`again with: npm run fuzz -- --seed ${seed} --case ${one.number}`);
    if (values.case === undefined) rmSync(join(folder, String(one.number)), { recursive: true, force: true });
    else console.log(`its files are in ${join(folder, String(one.number))}`);
    if ((one.number - first) % 1000 === 999) console.log(`${one.number - first + 1} mutants, ${tally.defects} defects`);
  }
  if (values.case === undefined) rmSync(folder, { recursive: true });
  for (const [kind, times] of [...tally.ended].sort((a, b) => b[1] - a[1]))
    console.log(`${String(times).padStart(6)} ${kind}`);
  const { number, cpuSeconds } = tally.slowest;
  console.log(
    `${count} mutants, ${tally.defects} defects, ${tally.seconds.toFixed(0)} s of processor time in ` +
      `${((performance.now() - start) / 1000).toFixed(0)} s; the slowest is ${number} with ${cpuSeconds.toFixed(2)} s`,
  );
  process.exitCode = tally.defects > 0 ? 1 : 0;
}

if (isMainThread) await main();
else work(workerData as Shared);
