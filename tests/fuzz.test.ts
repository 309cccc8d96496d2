// SPDX-License-Identifier: AGPL-3.0-or-later
// Good files spoilt by chance, always the same ones: none may crash huipath, hang it, leave an output after a refusal or
// be read differently twice. `npm run fuzz` tries ten thousand.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { checked } from "./support/child.js";
import { stock } from "./support/fuzzing.js";
import { mutantOf } from "./support/mutants.js";
import { watched } from "./support/watchdog.js";

const SEED = 2;
const MUTANTS = 300;
/** Mutants that the real command gets too. */
const THROUGH_THE_COMMAND = [3, 14, 25, 36, 47];
const FUZZER = fileURLToPath(new URL("../dist/tests/bench/fuzz.js", import.meta.url));

test(`${MUTANTS} spoilt files`, { timeout: 600_000 }, () => {
  const { stdout, stderr } = spawnSync(process.execPath, [FUZZER, "--seed", `${SEED}`, "--mutants", `${MUTANTS}`]);
  const told = `${stdout}${stderr}`;
  expect(told).toContain(`\n${MUTANTS} mutants, 0 defects, `);
  expect(Number(/ (\d+) s of processor time/.exec(told)?.[1])).toBeLessThan(60);
});

test("a seed and a number make the same mutant each time", () => {
  const digest = (): string => {
    const all = stock();
    const hash = createHash("sha256");
    for (let number = 0; number < MUTANTS; number++) hash.update(JSON.stringify(mutantOf(SEED, number, all)));
    return hash.digest("hex");
  };
  expect(digest()).toBe(digest());
});

test("a job that hangs or breaks its thread is named, and the others are done", async () => {
  const script = `import { parentPort } from "node:worker_threads";
    parentPort.on("message", (number) => {
      while (number === 2) {}
      if (number === 4) throw new Error("broken");
      if (number === 5) process.exit(0);
      parentPort.postMessage("done");
    });`;
  const ended: string[] = [];
  const bounds = { seconds: 5, megabytes: 64 };
  for await (const one of watched<string>(new URL(`data:text/javascript,${script}`), null, [1, 2, 3, 4, 5, 6], bounds))
    ended.push(`${one.number} ${one.result ?? one.stopped}`);
  expect(ended).toEqual([
    "1 done",
    "2 it hangs: no result after 5 s",
    "3 done",
    "4 its thread fails: broken",
    "5 its thread ends without a result",
    "6 done",
  ]);
});

describe("spoilt files through the command", () => {
  test.each(THROUGH_THE_COMMAND)("case %i", async (number) => {
    const { score, brief } = mutantOf(SEED, number, stock());
    const named = brief === null ? [] : ["--brief", "brief.yaml"];
    const files = { "mutant.xml": score, ...(brief === null ? {} : { "brief.yaml": brief }) };
    const { code, out, err, left } = await checked(files, [...named, "--bars", "#1"]);
    expect([0, 1, 2]).toContain(code);
    if (code === 2) {
      expect(err).toMatch(/^huipath: [^\n]+; [^\n]+\n$/);
      expect({ out, left }).toEqual({ out: "", left: [] });
    } else expect(left).toEqual(["a.json", "a.musicxml", "a.yaml", "mutant.report.html"]);
  });
});
