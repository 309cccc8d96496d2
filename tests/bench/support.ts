// SPDX-License-Identifier: AGPL-3.0-or-later
// What the timings share: where files lie when compiled, the usual setting, a stop-watch.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Bench } from "tinybench";
import { readHand } from "../../rules/hands.js";
import { DEFAULT_SCALE_LENGTH_CM } from "../../src/model/board.js";
import { UNTRANSPOSED } from "../../src/model/pitch.js";
import type { Setting } from "../../src/model/setting.js";
import { STANDARD } from "../../src/model/tuning.js";

/** The repository's root, seen from the compiled bench. */
export const ROOT = fileURLToPath(new URL("../../../", import.meta.url));

/** Everything usual. */
export const SETTING: Setting = {
  tuning: STANDARD,
  transpose: UNTRANSPOSED,
  temperament: "pythagorean",
  gong: 5,
  hand: readHand(readFileSync(`${ROOT}rules/hands/medium.yaml`, "utf8"), "medium"),
  scaleLengthCm: DEFAULT_SCALE_LENGTH_CM,
};

/** Median milliseconds of so many runs. */
export function timed(run: () => void, runs: number, warmup: boolean): number {
  const bench = new Bench({ iterations: runs, time: 0, warmup, throws: true });
  const [task] = bench.add("run", run).runSync();
  if (task?.result.state !== "completed") throw new Error(`a timing ended ${task?.result.state}`);
  return task.result.latency.p50;
}
