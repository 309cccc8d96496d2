// SPDX-License-Identifier: AGPL-3.0-or-later
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { beatLabel, earlier, quarters, ZERO } from "../../src/model/time.js";

const length = fc
  .tuple(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 1, max: 480 }))
  .map(([a, b]) => quarters(a, b));

describe("exact time", () => {
  test("three triplets and three quarters meet exactly", () => {
    const triplet = quarters(1, 3);
    expect(triplet.add(triplet).add(triplet).equals(quarters(1))).toBe(true);
  });

  test("adding in another order gives the same moment", () => {
    fc.assert(
      fc.property(length, length, length, (a, b, c) => {
        expect(a.add(b).add(c).equals(c.add(a).add(b))).toBe(true);
      }),
    );
  });

  test("what is added can be taken away again", () => {
    fc.assert(
      fc.property(length, length, (a, b) => {
        expect(a.add(b).sub(b).equals(a)).toBe(true);
      }),
    );
  });

  test("the earlier of two is one of them and not later than the other", () => {
    fc.assert(
      fc.property(length, length, (a, b) => {
        const first = earlier(a, b);
        expect(first === a || first === b).toBe(true);
        expect(first.compare(a) <= 0 && first.compare(b) <= 0).toBe(true);
      }),
    );
  });

  test.each([
    [quarters(1), "1"],
    [quarters(3, 2), "1.5"],
    [quarters(4, 3), "1.333"],
    [quarters("5/6"), "0.833"],
    [ZERO, "0"],
  ])("beat %s is written %s", (beat, label) => {
    expect(beatLabel(beat)).toBe(label);
  });
});
