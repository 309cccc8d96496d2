// SPDX-License-Identifier: AGPL-3.0-or-later
// Good files spoilt by chance, always the same ones: none may crash huipath, hang it, leave an output after a refusal or
// be read differently twice. `npm run fuzz` tries ten thousand.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { checked } from "./support/child.js";
import { stock, tried } from "./support/fuzzing.js";
import { mutantOf } from "./support/mutants.js";

const SEED = 2;
const BATCHES = 10;
const BATCH = 30;
/** Of a batch so many long lines are searched, and one mutant in the last batch gets its page. */
const LONG_EVERY = 15;
const PAGE_OF = 285;
/** Mutants that the real command gets too. */
const THROUGH_THE_COMMAND = [3, 14, 25, 36, 47];

const all = stock();
const folder = mkdtempSync(join(tmpdir(), "huipath-fuzz-"));
afterAll(() => rmSync(folder, { recursive: true }));

describe("spoilt files in this process", () => {
  test.each(Array.from({ length: BATCHES }, (_, i) => i * BATCH))("from %i on", async (first) => {
    const defects: string[] = [];
    for (let number = first; number < first + BATCH; number++) {
      const more = { long: number % LONG_EVERY === 0, page: number === PAGE_OF };
      const { defect } = await tried(mutantOf(SEED, number, all), join(folder, String(number)), more);
      if (defect !== null) defects.push(`npm run fuzz -- --seed ${SEED} --case ${number}: ${defect}`);
    }
    expect(defects).toEqual([]);
  });
});

describe("spoilt files through the command", () => {
  test.each(THROUGH_THE_COMMAND)("case %i", async (number) => {
    const { score, brief } = mutantOf(SEED, number, all);
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
