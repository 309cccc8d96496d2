// SPDX-License-Identifier: AGPL-3.0-or-later
// Tuning by comparison: a stop or a harmonic on one string against another string, in cents, by three ways to tune the
// open strings. Which places are compared: a tuning lesson (yinyue.81art.com/fudao/guqin/9486.html, "lesson"); Yuguzhai
// qinpu (1855), sections v316 and v326 ("1855"); J. Thompson, silkqin.com, 08anal/tuning.htm for the retunings; the rest
// computed. The differences are computed: printed instructions mix pure and Pythagorean thirds, a comma apart.
import { describe, expect, test } from "vitest";
import { centsAt, harmonicCents } from "../../src/model/board.js";
import {
  HARMONIC_COMPARISONS,
  harmonicAgainstHarmonic,
  pureComparisons,
  RETUNING_COMPARISONS,
  STOP_COMPARISONS,
  stopAgainstOpen,
} from "../../src/model/string-comparison.js";
import { centsOf, type Temperament } from "../../src/model/temperament.js";
import { findTuning, STANDARD, TUNINGS } from "../../src/model/tuning.js";

const SYSTEMS: readonly Temperament[] = ["pythagorean", "just", "equal"];

const openCents = (string: number, temperament: Temperament): number =>
  centsOf(STANDARD.semitones[string - 1] as number, STANDARD.gong, temperament);

/** open string, stopped string, position, differences in the three systems, who compares them */
const STOPS = [
  [7, 4, 9, 0.0, 21.5, 2.0, "lesson"],
  [6, 4, 10, 0.0, 0.0, -2.0, "lesson"],
  [5, 3, 10.8, 0.3, 21.8, 8.1, "lesson"],
  [5, 3, 11, -21.5, 0.0, -13.7, "computed"],
  [4, 2, 10, 0.0, -21.5, -2.0, "lesson"],
  [3, 1, 10, 0.0, 0.0, -2.0, "lesson"],
  [7, 2, 7, 0.0, 0.0, 0.0, "lesson"],
  [6, 1, 7, 0.0, 0.0, 0.0, "lesson"],
  [7, 5, 10, 0.0, 0.0, -2.0, "1855"],
  [6, 5, 12, 21.5, 0.0, 15.6, "1855"],
  [5, 1, 8, -21.5, 0.0, -15.6, "1855"],
  [5, 7, 9, 1200.0, 1200.0, 1202.0, "lesson"],
  [3, 6, 10, 1200.0, 1200.0, 1198.0, "lesson"],
  [2, 5, 10, 1200.0, 1200.0, 1198.0, "lesson"],
  [6, 3, 9, 0.0, 0.0, 2.0, "computed"],
  [5, 2, 9, 0.0, 0.0, 2.0, "computed"],
  [4, 1, 9, 0.0, 0.0, 2.0, "computed"],
  [7, 3, 7.9, 7.6, 29.1, 13.5, "computed"],
  [6, 5, 12.2, 4.3, -17.2, -1.6, "computed"],
  [5, 1, 7.9, 7.6, 29.1, 13.5, "computed"],
  [6, 2, 7.6, 7.7, -13.8, 3.8, "computed"],
  [7, 6, 13.1, 2.7, 24.2, 6.6, "computed"],
  [5, 4, 13.1, 2.7, 24.2, 6.6, "computed"],
  [4, 3, 13.1, 2.7, 2.7, 6.6, "computed"],
  [2, 1, 13.1, 2.7, 24.2, 6.6, "computed"],
] as const;

test.each(STOPS)("open %i, string %i stopped at %d", (open, string, position, ...rest) => {
  const by = rest[3];
  for (const [i, one] of SYSTEMS.entries()) {
    const { octaves, cents } = stopAgainstOpen(STANDARD, { open, string, position, by }, one);
    expect(1200 * octaves + cents).toBeCloseTo(rest[i] as number, 1);
  }
  expect(STOP_COMPARISONS).toContainEqual({ open, string, position, by });
});

/** string and hui, string and hui, differences in the three systems, who compares them */
const HARMONICS = [
  [7, 7, 4, 9, 0.0, -21.5, -2.0, "lesson"],
  [4, 10, 6, 9, 0.0, 0.0, -2.0, "lesson"],
  [6, 7, 3, 9, 0.0, 0.0, -2.0, "lesson"],
  [3, 11, 5, 10, -21.5, 0.0, -13.7, "lesson"],
  [5, 7, 2, 9, 0.0, 0.0, -2.0, "lesson"],
  [4, 7, 1, 9, 0.0, 0.0, -2.0, "lesson"],
  [7, 9, 5, 10, 0.0, 0.0, 2.0, "computed"],
  [4, 10, 1, 12, 0.0, 0.0, -2.0, "computed"],
  [7, 10, 4, 12, 0.0, -21.5, -2.0, "computed"],
  [6, 10, 3, 12, 0.0, 0.0, -2.0, "computed"],
  [1, 10, 6, 7, 0.0, 0.0, 0.0, "computed"],
  [2, 10, 7, 7, 0.0, 0.0, 0.0, "computed"],
] as const;

test.each(HARMONICS)("harmonic %i at %i, %i at %i", (string, hui, otherString, otherHui, ...rest) => {
  const compared = { string, hui, otherString, otherHui, by: rest[3] };
  for (const [i, one] of SYSTEMS.entries()) {
    const { octaves, cents } = harmonicAgainstHarmonic(STANDARD, compared, one);
    expect(octaves).toBe(0);
    expect(cents).toBeCloseTo(rest[i] as number, 1);
  }
  expect(HARMONIC_COMPARISONS).toContainEqual(compared);
});

test("nothing is compared that stands in neither table", () => {
  expect([STOP_COMPARISONS.length, HARMONIC_COMPARISONS.length]).toEqual([STOPS.length, HARMONICS.length]);
});

test.each(SYSTEMS)("the harmonic at hui 7 is the open string an octave on, in every system: %s (lesson)", (one) => {
  for (const [low, high] of [
    [1, 6],
    [2, 7],
  ] as const)
    expect(openCents(low, one) + harmonicCents(7) - openCents(high, one)).toBeCloseTo(0, 9);
});

describe("retunings, against equal-tempered open strings", () => {
  test.each([
    ["ruibin", 7, 5, 11, -13.7],
    ["qiliang", 7, 5, 11, -13.7],
    ["qiliang", 4, 2, 11, -13.7],
    ["qingshang", 4, 2, 11, -13.7],
    ["qingshang", 7, 5, 10, -2],
    ["qingshang", 7, 4, 8.5, -9.2],
  ])("%s: open %i is string %i at %d", (name, open, string, position, cents) => {
    const { semitones } = findTuning(name);
    expect(RETUNING_COMPARISONS[name]).toContainEqual({ open, string, position, by: "retuning" });
    const needed = 100 * ((semitones[open - 1] as number) - (semitones[string - 1] as number));
    expect(centsAt(position) - needed).toBeCloseTo(cents, 1);
  });
});

describe("pure comparisons, computed for every tuning", () => {
  test.each(TUNINGS)("$name", (tuning) => {
    for (const comparison of pureComparisons(tuning)) {
      const { octaves, cents } = stopAgainstOpen(tuning, comparison, "pythagorean");
      expect(octaves).toBe(0);
      expect(cents).toBeCloseTo(0, 9);
    }
  });

  test("the standard tuning has those that the two sources give at hui 10, 9 and 7", () => {
    const published = STOP_COMPARISONS.filter(
      ({ open, string, position, by }) => by !== "computed" && string < open && [7, 9, 10].includes(position),
    );
    const found = pureComparisons(STANDARD).map(({ open, string, position }) => `${open} = ${string} at ${position}`);
    for (const { open, string, position } of published) expect(found).toContain(`${open} = ${string} at ${position}`);
  });

  test("strings in unison are compared open", () => {
    expect(pureComparisons(findTuning("manshang"))).toContainEqual({
      open: 2,
      string: 1,
      position: 14,
      by: "computed",
    });
  });
});
