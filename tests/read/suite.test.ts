// SPDX-License-Identifier: AGPL-3.0-or-later
// Every file of the unofficial MusicXML test suite (LilyPond repository, input/regression/musicxml, MIT) is read or
// refused with a reason. The suite is not copied into the project: where it is missing the test says so.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { InputProblem } from "../../src/problem.js";
import { readScore } from "../../src/read/score.js";

const folder = fileURLToPath(new URL("../../../shared/corpora/musicxml-suite/", import.meta.url));
const files = existsSync(folder) ? readdirSync(folder).filter((name) => /\.(xml|mxl)$/.test(name)) : [];
if (files.length === 0) console.warn(`SKIPPED: the MusicXML test suite is not at ${folder}`);

describe.skipIf(files.length === 0)("MusicXML test suite", () => {
  test.each(files)("%s", (name) => {
    try {
      const { score, source } = readScore(readFileSync(folder + name), name);
      const ids = score.notes.flatMap(({ id, tiedIds }) => [id, ...tiedIds]);
      expect(new Set(ids).size).toBe(ids.length);
      expect([...source.notes.keys()].sort()).toEqual([...ids].sort());
    } catch (error) {
      expect(error).toBeInstanceOf(InputProblem);
      // The only files that are refused hold rests or nothing.
      expect((error as InputProblem).code).toBe("no-notes");
    }
  });
});
