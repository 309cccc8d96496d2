// SPDX-License-Identifier: AGPL-3.0-or-later
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  centsAt,
  cmFromBridge,
  fractionAt,
  NUT_POSITION,
  positionAt,
  stopPosition,
  writtenPlace,
} from "../../src/model/board.js";
import { centsOf, TEMPERAMENTS } from "../../src/model/temperament.js";

const position = fc.double({ min: 1, max: NUT_POSITION, noNaN: true });

describe("positions", () => {
  test("a fraction leads back to its position", () => {
    fc.assert(
      fc.property(position, (one) => {
        expect(positionAt(fractionAt(one))).toBeCloseTo(one, 9);
      }),
    );
  });

  test("nearer the nut is longer, and lower", () => {
    fc.assert(
      fc.property(position, position, (a, b) => {
        fc.pre(a < b);
        expect(fractionAt(a)).toBeLessThanOrEqual(fractionAt(b));
        expect(centsAt(a)).toBeGreaterThanOrEqual(centsAt(b));
        expect(cmFromBridge(a, 110)).toBeLessThanOrEqual(cmFromBridge(b, 110));
      }),
    );
  });

  test("a stop sounds what it was sought for", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3600, noNaN: true }), (cents) => {
        expect(centsAt(stopPosition(cents) as number)).toBeCloseTo(cents, 6);
      }),
    );
  });

  test.each([-1, 3601])("no stop sounds %i cents above the open string", (cents) => {
    expect(stopPosition(cents)).toBeNull();
  });

  test.each([0.9, 14.1, Number.NaN])("there is no position %d", (one) => {
    expect(() => fractionAt(one)).toThrow(RangeError);
  });
});

describe("written places", () => {
  test.each(TEMPERAMENTS)("three semitones are never written 12.3 (%s)", (temperament) => {
    for (let gong = 0; gong < 12; gong++)
      for (let open = 36; open < 48; open++) {
        const cents = centsOf(open + 3, gong, temperament) - centsOf(open, gong, temperament);
        const exact = stopPosition(cents) as number;
        expect(writtenPlace(exact, 3)).not.toBe(12.3);
        if (cents > 290 && cents < 302) expect(writtenPlace(exact, 3)).toBe(12.2);
      }
  });

  test.each([
    ["pythagorean", 5.9],
    ["just", 6],
    ["equal", 6],
  ] as const)("sixteen semitones in %s are written %d", (temperament, written) => {
    const exact = stopPosition(centsOf(16, 0, temperament)) as number;
    expect(writtenPlace(exact, 16)).toBe(written);
  });

  test("a written place is a tenth, and at most half a tenth and a hair from the exact one", () => {
    fc.assert(
      fc.property(position, fc.integer({ min: 0, max: 36 }), (exact, semitone) => {
        const written = writtenPlace(exact, semitone);
        expect(written).toBe(Math.round(written * 10) / 10);
        expect(Math.abs(written - exact)).toBeLessThan(0.052);
      }),
    );
  });
});
