// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import { checksByEar, retunedStrings } from "../../src/model/retuning.js";
import { stopAgainstOpen } from "../../src/model/string-comparison.js";
import { findTuning, STANDARD, TUNINGS } from "../../src/model/tuning.js";

test("the standard tuning needs nothing", () => {
  expect(retunedStrings(STANDARD)).toEqual([]);
  expect(checksByEar(STANDARD)).toEqual([]);
});

test("names each string, where it comes from and where it goes", () => {
  expect(retunedStrings(findTuning("huangzhong"))).toEqual([
    { string: 1, from: "C2", to: "Bb1", semitones: -2 },
    { string: 5, from: "A2", to: "Bb2", semitones: 1 },
  ]);
});

describe.each(TUNINGS.map((tuning) => [tuning.name, tuning] as const))("%s", (_, tuning) => {
  test("every check has one string that is in tune by then", () => {
    const waiting = new Set(retunedStrings(tuning).map(({ string }) => string));
    for (const { open, string } of checksByEar(tuning)) {
      expect([waiting.has(open), waiting.has(string)].sort()).toEqual([false, true]);
      waiting.delete(open);
      waiting.delete(string);
    }
  });

  test("every check sounds alike, but for a comma where a handbook names a third", () => {
    for (const check of checksByEar(tuning))
      expect(Math.abs(stopAgainstOpen(tuning, check, "pythagorean").cents)).toBeLessThan(22);
  });
});

test("a handbook's comparison comes before a computed one", () => {
  expect(checksByEar(findTuning("ruibin"))).toMatchObject([{ open: 7, string: 5, position: 11, by: "retuning" }]);
});
