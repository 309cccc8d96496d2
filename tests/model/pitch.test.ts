// SPDX-License-Identifier: AGPL-3.0-or-later
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  microtoneCents,
  type Pitch,
  parsePitch,
  parseTransposition,
  pitchName,
  type Step,
  semitoneOf,
  spell,
  transposePitch,
} from "../../src/model/pitch.js";

const pitch: fc.Arbitrary<Pitch> = fc.record({
  step: fc.constantFrom<Step[]>("A", "B", "C", "D", "E", "F", "G"),
  alter: fc.integer({ min: -2, max: 2 }),
  octave: fc.integer({ min: 0, max: 8 }),
});

describe("names", () => {
  test("a pitch is read back from its name", () => {
    fc.assert(
      fc.property(pitch, (one) => {
        expect(parsePitch(pitchName(one))).toEqual(one);
      }),
    );
  });

  test.each(["B♭2", " Bb2 "])("%s is B flat", (name) => {
    expect(parsePitch(name)).toEqual({ step: "B", alter: -1, octave: 2 });
  });

  test.each(["", "H3", "C", "C#", "Cx", "3C", "C4 D4", "san"])('"%s" is no pitch', (name) => {
    expect(parsePitch(name)).toBeNull();
  });

  test("spelling a semitone and reading it gives the semitone, with sharps and with flats", () => {
    fc.assert(
      fc.property(fc.integer({ min: 12, max: 108 }), fc.boolean(), (semitone, flats) => {
        expect(semitoneOf(parsePitch(spell(semitone, flats)) as Pitch)).toBe(semitone);
      }),
    );
  });

  test("a quarter tone is named by its nearest semitone", () => {
    const low: Pitch = { step: "B", alter: -0.7, octave: 3 };
    expect(pitchName(low)).toBe("Bb3");
    expect(microtoneCents(low)).toBeCloseTo(30, 9);
  });
});

describe("transposition", () => {
  const there = (semitones: number, fifths: number): string =>
    parseTransposition(String(semitones), fifths)?.interval ?? "none";

  test.each([
    [-12, -1, "-8P"],
    [0, 3, "1P"],
    [7, 0, "5P"],
    [-5, -1, "-4P"],
    // From C a semitone up leads to D flat, from E flat to E: five flats and four sharps instead of seven and eight.
    [1, 0, "2m"],
    [1, -3, "1A"],
    [-13, 0, "-9m"],
    [24, 0, "15P"],
  ])("%i semitones from a key of %i fifths are %s", (semitones, fifths, interval) => {
    expect(there(semitones, fifths)).toBe(interval);
  });

  test.each([
    ["-P5", -7, "-5P"],
    ["P5", 7, "5P"],
    ["-8P", -12, "-8P"],
    ["+M2", 2, "2M"],
    ["m3", 3, "3m"],
  ])("%s is an interval", (text, semitones, interval) => {
    expect(parseTransposition(text, 0)).toEqual({ semitones, interval });
  });

  test.each(["", "P", "fifth", "P3", "1.5", "--5", "M5", "m8", "4m", "P0"])('"%s" is no transposition', (text) => {
    expect(parseTransposition(text, 0)).toBeNull();
  });

  test("moves every pitch by exactly its semitones, and leads to no key of more than six accidentals from a plain one", () => {
    fc.assert(
      fc.property(
        pitch,
        fc.integer({ min: -36, max: 36 }),
        fc.integer({ min: -3, max: 3 }),
        (one, semitones, fifths) => {
          const to = parseTransposition(String(semitones), fifths);
          expect(to?.semitones).toBe(semitones);
          expect(semitoneOf(transposePitch(one, to?.interval ?? "1P")) - semitoneOf(one)).toBe(semitones);
          const before = transposePitch({ step: "C", alter: 0, octave: 4 }, to?.interval ?? "1P");
          const key = fifths + "FCGDAEB".indexOf(before.step) - 1 + 7 * before.alter;
          expect(Math.abs(key)).toBeLessThanOrEqual(6);
        },
      ),
    );
  });

  test("keeps a microtone", () => {
    const low: Pitch = { step: "E", alter: -0.25, octave: 3 };
    expect(transposePitch(low, "4P")).toEqual({ step: "A", alter: -0.25, octave: 3 });
  });
});
