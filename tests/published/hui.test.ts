// SPDX-License-Identifier: AGPL-3.0-or-later
// The thirteen hui: Zhu Fengjie, Yuguzhai qinpu (1855), section v29: eighths of the string give hui 1, 4, 7, 10 and 13,
// sixths 2, 5, 9 and 12, fifths 3, 6, 8 and 11. The cents follow by the definition of the cent (A. J. Ellis, from memory).
import { describe, expect, test } from "vitest";
import { centsAt, fractionAt, HUI_FRACTION, HUI_PARTIAL, harmonicCents, positionAt } from "../../src/model/board.js";
import { parsePitch, semitoneOf } from "../../src/model/pitch.js";
import { placesOfPitch } from "../../src/model/places.js";
import { STANDARD } from "../../src/model/tuning.js";

/** hui, part of the string, cents of the stop, partial of the harmonic, cents of the harmonic */
const HUI = [
  [1, 1 / 8, 3600, 8, 3600],
  [2, 1 / 6, 3101.955, 6, 3101.955],
  [3, 1 / 5, 2786.314, 5, 2786.314],
  [4, 1 / 4, 2400, 4, 2400],
  [5, 1 / 3, 1901.955, 3, 1901.955],
  [6, 2 / 5, 1586.314, 5, 2786.314],
  [7, 1 / 2, 1200, 2, 1200],
  [8, 3 / 5, 884.359, 5, 2786.314],
  [9, 2 / 3, 701.955, 3, 1901.955],
  [10, 3 / 4, 498.045, 4, 2400],
  [11, 4 / 5, 386.314, 5, 2786.314],
  [12, 5 / 6, 315.641, 6, 3101.955],
  [13, 7 / 8, 231.174, 8, 3600],
] as const;

describe.each(HUI)("hui %i", (hui, fraction, stopped, partial, harmonic) => {
  test("divides the string", () => {
    expect(HUI_FRACTION[hui]).toBe(fraction);
    expect(fractionAt(hui)).toBe(fraction);
    expect(positionAt(fraction)).toBe(hui);
  });

  test("sounds stopped", () => expect(centsAt(hui)).toBeCloseTo(stopped, 3));

  test("sounds touched", () => {
    expect(HUI_PARTIAL[hui]).toBe(partial);
    expect(harmonicCents(hui)).toBeCloseTo(harmonic, 3);
  });

  test("has its mirror image beyond the middle, with the same partial", () => {
    expect(fractionAt(hui) + fractionAt(14 - hui)).toBeCloseTo(1, 12);
    expect(HUI_PARTIAL[14 - hui]).toBe(partial);
  });
});

/**
 * Harmonics of the standard tuning on hui 7; 5 and 9; 4 and 10; 3, 6, 8 and 11; 2 and 12; 1 and 13. Computed from the
 * partials above; that the range ends at D6 is published (zgmzyq.cn, articles on the range; UBC Physics 341 wiki, Qin).
 */
const HARMONICS = [
  ["C3", "G3", "C4", "E4", "G4", "C5"],
  ["D3", "A3", "D4", "F#4", "A4", "D5"],
  ["F3", "C4", "F4", "A4", "C5", "F5"],
  ["G3", "D4", "G4", "B4", "D5", "G5"],
  ["A3", "E4", "A4", "C#5", "E5", "A5"],
  ["C4", "G4", "C5", "E5", "G5", "C6"],
  ["D4", "A4", "D5", "F#5", "A5", "D6"],
];
const COLUMNS = [[7], [5, 9], [4, 10], [3, 6, 8, 11], [2, 12], [1, 13]];

test.each(HARMONICS.map((pitches, i) => [i + 1, pitches] as const))("harmonics of string %i", (string, pitches) => {
  for (const [column, pitch] of pitches.entries()) {
    const semitone = semitoneOf(parsePitch(pitch) as NonNullable<ReturnType<typeof parsePitch>>);
    const touched = placesOfPitch(semitone, { tuning: STANDARD, temperament: "equal" }).filter(
      (place) => place.string === string && place.sound === "harmonic",
    );
    expect(touched.map((place) => place.position)).toEqual(COLUMNS[column]);
    expect(touched[0]?.offCents).toBeCloseTo([0, 1.955, 0, -13.686, 1.955, 0][column] ?? Number.NaN, 3);
  }
});
