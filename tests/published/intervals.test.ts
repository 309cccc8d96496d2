// SPDX-License-Identifier: AGPL-3.0-or-later
// Intervals and frequencies. Rounded cents of the ratios: list of 53 just ratios "Wier53", scalelibrary.org. A4 = 440 Hz:
// ISO 16:1975. Note numbers: MIDI 1.0 (from memory), 60 = middle C = C4 of scientific pitch notation. C2 = 65.406 Hz and
// A1 = 55 Hz also in the English Yuguzhai qinpu, section v326 (translator's notes). Six decimals are computed.
import { describe, expect, test } from "vitest";
import { parsePitch, semitoneOf } from "../../src/model/pitch.js";
import { centsOf, hertz } from "../../src/model/temperament.js";

/** interval, semitones, Pythagorean cents, cents of the 5-limit scale */
const INTERVALS = [
  ["unison", 0, 0, 0],
  ["minor second", 1, 90.224996, 111.731285],
  ["major second", 2, 203.910002, 203.910002],
  ["minor third", 3, 294.134997, 315.641287],
  ["major third", 4, 407.820003, 386.313714],
  ["fourth", 5, 498.044999, 498.044999],
  ["augmented fourth", 6, 611.730005, 590.223716],
  ["fifth", 7, 701.955001, 701.955001],
  ["minor sixth", 8, 792.179997, 813.686286],
  ["major sixth", 9, 905.865003, 884.358713],
  ["minor seventh", 10, 996.089998, 1017.596288],
  ["major seventh", 11, 1109.775004, 1088.268715],
] as const;

describe.each(INTERVALS)("%s", (_, semitones, pythagorean, just) => {
  test("above gong", () => {
    expect(centsOf(60 + semitones, 0, "pythagorean") - centsOf(60, 0, "pythagorean")).toBeCloseTo(pythagorean, 6);
    expect(centsOf(60 + semitones, 0, "just") - centsOf(60, 0, "just")).toBeCloseTo(just, 6);
    expect(centsOf(60 + semitones, 0, "equal") - centsOf(60, 0, "equal")).toBe(100 * semitones);
  });
});

/** Whole cents as the list prints them. */
const PRINTED = {
  pythagorean: { 2: 204, 3: 294, 4: 408, 5: 498, 7: 702, 8: 792, 9: 906, 10: 996 },
  just: { 2: 204, 3: 316, 4: 386, 5: 498, 6: 590, 7: 702, 8: 814, 9: 884, 10: 1018, 11: 1088 },
} as const;

test.each(["pythagorean", "just"] as const)("whole cents of the %s scale as printed", (temperament) => {
  for (const [semitones, cents] of Object.entries(PRINTED[temperament]))
    expect(Math.round(centsOf(Number(semitones), 0, temperament))).toBe(cents);
});

describe("small differences", () => {
  const pythagorean = (semitones: number): number => centsOf(semitones, 0, "pythagorean");
  const just = (semitones: number): number => centsOf(semitones, 0, "just");

  test("syntonic comma, 81/80", () => expect(pythagorean(4) - just(4)).toBeCloseTo(21.50629, 5));
  test("limma, 256/243", () => expect(pythagorean(1)).toBeCloseTo(90.224996, 6));
  test("apotome, 2187/2048", () => expect(pythagorean(2) - pythagorean(1)).toBeCloseTo(113.685006, 6));
  test("Pythagorean comma, 531441/524288", () => expect(pythagorean(2) - 2 * pythagorean(1)).toBeCloseTo(23.46001, 5));
});

test.each([
  ["A1", 33, 55],
  ["Bb1", 34, 58.27047],
  ["C2", 36, 65.406391],
  ["D2", 38, 73.416192],
  ["Eb2", 39, 77.781746],
  ["E2", 40, 82.406889],
  ["F2", 41, 87.307058],
  ["F#2", 42, 92.498606],
  ["G2", 43, 97.998859],
  ["A2", 45, 110],
  ["Bb2", 46, 116.54094],
  ["C3", 48, 130.812783],
  ["D3", 50, 146.832384],
  ["Eb3", 51, 155.563492],
  ["C4", 60, 261.625565],
  ["A4", 69, 440],
  ["D6", 86, 1174.659072],
])("%s is note %i", (name, note, frequency) => {
  const pitch = parsePitch(name);
  expect(pitch && semitoneOf(pitch)).toBe(note);
  expect(hertz(note)).toBeCloseTo(frequency, 6);
});
