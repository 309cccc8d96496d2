// SPDX-License-Identifier: AGPL-3.0-or-later
// What huipath writes into a score is what it reads out of it.
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { StoredSetting } from "../../src/model/annotation.js";
import { annotated, fingeringOf, USUAL } from "../support/annotated.js";
import { FIXTURES, randomDocument } from "../support/documents.js";

/** Annotates, reads the result back, and compares. */
function readBack(bytes: Uint8Array, file: string, setting: StoredSetting): void {
  const first = annotated(bytes, file, setting);
  const again = annotated(first.bytes, file);
  expect(again.read.setting?.stored).toEqual(setting);
  expect(fingeringOf(again.notes)).toEqual(fingeringOf(first.notes));
  expect(again.total).toEqual(first.total);
  expect(again.text).toBe(first.text);
}

test.each(FIXTURES)("$name gives the same fingering when it is read back, and nothing twice", ({ name, bytes }) => {
  readBack(bytes, name, USUAL);
  readBack(bytes, name, { tuning: "ruibin", transpose: "-2M", temperament: "just", hand: "small" });
});

const setting: fc.Arbitrary<StoredSetting> = fc.record({
  tuning: fc.constantFrom("zhengdiao", "zhengdiao", "manjue", "C2 D2 F2 G2 A2 C3 E3"),
  transpose: fc.constantFrom("1P", "1P", "-4P", "3m"),
  temperament: fc.constantFrom("pythagorean", "just", "equal"),
  hand: fc.constantFrom("medium", "beginner"),
});

test("1000 random lines give the same fingering when they are read back", { timeout: 120_000 }, () => {
  fc.assert(
    fc.property(randomDocument, setting, (text, kept) =>
      readBack(new TextEncoder().encode(text), "random.musicxml", kept),
    ),
    { numRuns: 1000, seed: 1425 },
  );
});
