// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the semitones lie, and how players write them. The written places marked "published" stand in a beginner's list
// of hui-fen signs (kxting.com/article/20221020/448318.html) or in J. Thompson's decimals for the semitone list of a Ming
// handbook (silkqin.com, 02qnpu/05tydq/ty1c); the others are from memory of modern scores. The exact places are computed
// from the hui of Yuguzhai qinpu (1855), section v29, tenths counted along the length from hui to hui.
import { describe, expect, test } from "vitest";
import { centsAt, fractionAt, stopPosition, writtenPlace } from "../../src/model/board.js";
import { centsOf, type Temperament } from "../../src/model/temperament.js";

/** semitones, exact place in equal, pythagorean and just temperament, written place, where that comes from */
const PLACES = [
  [1, 13.551, 13.594, 13.5, 13.6, "memory"],
  [2, 13.127, 13.111, 13.111, 13.1, "published"],
  [3, 12.182, 12.25, 12.0, 12.2, "published"],
  [4, 10.874, 10.802, 11.0, 10.8, "published"],
  [5, 9.99, 10.0, 10.0, 10, "published"],
  [6, 9.485, 9.428, 9.533, 9.4, "published"],
  [7, 9.009, 9.0, 9.0, 9, "published"],
  [8, 8.449, 8.492, 8.375, 8.5, "published"],
  [9, 7.946, 7.926, 8.0, 7.9, "published"],
  [10, 7.612, 7.625, 7.556, 7.6, "published"],
  [11, 7.297, 7.267, 7.333, 7.3, "memory"],
  [12, 7.0, 7.0, 7.0, 7, "published"],
  [13, 6.719, 6.746, 6.688, 6.7, "memory"],
  [14, 6.454, 6.444, 6.444, 6.4, "published"],
  [15, 6.204, 6.219, 6.167, 6.2, "published"],
  [16, 5.953, 5.926, 6.0, 5.9, "memory"],
  [17, 5.619, 5.625, 5.625, 5.6, "published"],
  [18, 5.303, 5.267, 5.333, 5.3, "memory"],
  [19, 5.006, 5.0, 5.0, 5, "published"],
  [20, 4.78, 4.797, 4.75, 4.8, "memory"],
  [21, 4.568, 4.556, 4.6, 4.6, "published"],
  [22, 4.367, 4.375, 4.333, 4.4, "published"],
  [23, 4.178, 4.16, 4.2, 4.2, "memory"],
  [24, 4.0, 4.0, 4.0, 4, "published"],
] as const;

/** A stop on a string that is gong itself. */
const exactPlace = (semitones: number, temperament: Temperament): number =>
  stopPosition(centsOf(semitones, 0, temperament)) as number;

describe.each(PLACES)("%i semitones", (semitones, equal, pythagorean, just, written) => {
  test.each([
    ["equal", equal],
    ["pythagorean", pythagorean],
    ["just", just],
  ] as const)("lie there in %s temperament", (temperament, place) => {
    expect(exactPlace(semitones, temperament)).toBeCloseTo(place, 3);
  });

  test("are written so", () => {
    expect(writtenPlace(exactPlace(semitones, "pythagorean"), semitones)).toBe(written);
  });
});

test("where a pure third or sixth is meant, players write the whole hui (same list)", () => {
  const whole = [3, 4, 9, 16].map((semitones) => writtenPlace(exactPlace(semitones, "just"), semitones));
  expect(whole).toEqual([12, 11, 8, 6]);
});

/** Position, part of the string, cents: computed by two programs of ours and by hand; no source prints them. */
test.each([
  [7.6, 0.56, 1003.802],
  [7.9, 0.59, 913.456],
  [10.8, 0.79, 408.091],
  [12.2, 0.841667, 298.415],
  [12.25, 27 / 32, 294.135],
  [13.1, 0.8875, 206.617],
  [8.5, 0.633333, 790.756],
  [9.4, 0.7, 617.488],
  [6.4, 0.44, 1421.309],
  [6.2, 0.42, 1501.847],
  [5.9, 0.393333, 1615.411],
  [5.6, 0.373333, 1705.757],
  [5.3, 0.353333, 1801.078],
  [4.8, 0.316667, 1990.756],
  [4.6, 0.3, 2084.359],
  [4.4, 0.283333, 2183.313],
])("position %d", (position, fraction, cents) => {
  expect(fractionAt(position)).toBeCloseTo(fraction, 6);
  expect(centsAt(position)).toBeCloseTo(cents, 3);
});

test("about 2 cm beyond hui 13 is the whole tone, written 13.1 or outside (the beginner's list)", () => {
  const beyond = (fractionAt(13) * 110 + 2) / 110;
  expect(-1200 * Math.log2(beyond)).toBeCloseTo(195.6, 1);
  expect(Math.abs(centsAt(13.1) - 200)).toBeLessThan(10);
});
