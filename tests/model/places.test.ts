// SPDX-License-Identifier: AGPL-3.0-or-later
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placesOfPitch, soundingsAt } from "../../src/model/places.js";
import { centsOf, hertz, TEMPERAMENTS } from "../../src/model/temperament.js";
import { STANDARD, TUNINGS } from "../../src/model/tuning.js";

const strung = fc.record({ tuning: fc.constantFrom(...TUNINGS), temperament: fc.constantFrom(...TEMPERAMENTS) });

test("D3 in the standard tuning, pythagorean", () => {
  const places = placesOfPitch(50, { tuning: STANDARD, temperament: "pythagorean" });
  expect(places.map(({ string, sound, position }) => [string, sound, position])).toEqual([
    [1, "stopped", 6.4],
    [2, "stopped", 7],
    [2, "harmonic", 7],
    [3, "stopped", 7.9],
    [4, "stopped", 9],
    [5, "stopped", 10],
    [6, "stopped", 13.1],
    [7, "open", null],
  ]);
});

describe("there and back", () => {
  test("what lies at the places of a pitch sounds that pitch", () => {
    fc.assert(
      fc.property(strung, fc.integer({ min: 34, max: 86 }), (strings, semitone) => {
        for (const place of placesOfPitch(semitone, strings)) {
          const soundings = soundingsAt(place.string, place.position ?? 14, strings);
          const same = soundings.find(({ sound }) => sound === place.sound);
          expect(same?.semitone).toBe(semitone);
        }
      }),
    );
  });

  test("every stop of three octaves is among the places of what it sounds", () => {
    fc.assert(
      fc.property(strung, fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 36 }), (strings, string, above) => {
        const semitone = (strings.tuning.semitones[string - 1] as number) + above;
        const stops = placesOfPitch(semitone, strings).filter((place) => place.sound === "stopped");
        expect(stops.map((place) => place.string)).toContain(string);
        for (const stop of stops) expect(stop.offCents).toBe(0);
      }),
    );
  });

  test("nothing sounds below the lowest string or above hui 1 of the highest", () => {
    const strings = { tuning: STANDARD, temperament: "equal" as const };
    expect(placesOfPitch(35, strings)).toEqual([]);
    expect(placesOfPitch(87, strings)).toEqual([]);
  });
});

describe("temperaments", () => {
  test("agree on gong, and repeat at the octave", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 12, max: 96 }),
        fc.nat(11),
        fc.constantFrom(...TEMPERAMENTS),
        (semitone, gong, one) => {
          expect(centsOf(semitone + 12, gong, one) - centsOf(semitone, gong, one)).toBeCloseTo(1200, 9);
          expect(centsOf(gong + 48, gong, one)).toBeCloseTo(100 * (gong + 48), 9);
          expect(centsOf(semitone + 1, gong, one)).toBeGreaterThan(centsOf(semitone, gong, one));
          expect(Math.abs(centsOf(semitone, gong, one) - 100 * semitone)).toBeLessThan(22);
        },
      ),
    );
  });

  test("a semitone up is the twelfth root of two", () => {
    expect(hertz(70) / hertz(69)).toBeCloseTo(2 ** (1 / 12), 12);
  });
});
