// SPDX-License-Identifier: AGPL-3.0-or-later
import fc from "fast-check";
import Fraction from "fraction.js";
import { describe, expect, it } from "vitest";
import { findTuplets, isPlain, noteValues, restValues } from "../../src/engrave/values.js";

const f = (text: string): Fraction => new Fraction(text);
const names = (values: readonly { dur: string; dots: number }[]): string =>
  values.map(({ dur, dots }) => dur + ".".repeat(dots)).join(" ");

describe("note values", () => {
  // Common notation: a half note is two quarters, a dot adds half (no source needed).
  it.each([
    ["1", "4"],
    ["3/2", "4."],
    ["7/4", "4.."],
    ["8", "breve"],
    ["5/2", "2 8"],
    ["5", "1 4"],
    ["1/4", "16"],
  ])("writes %s quarters as %s", (length, expected) => {
    expect(names(noteValues(f(length)))).toBe(expected);
  });

  it("adds up to the length", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2048 }), (n) => {
        const length = new Fraction(n, 64);
        const sum = noteValues(length).reduce((total, value) => total.add(value.length), new Fraction(0));
        expect(sum.toFraction()).toBe(length.toFraction());
      }),
    );
  });

  it("refuses what is shorter than a 1024th note", () => {
    expect(() => noteValues(f("1/4096"))).toThrow(RangeError);
  });
});

describe("rests", () => {
  it("keeps the beats of a simple meter visible", () => {
    expect(names(restValues(f("1/2"), f("7/2"), null))).toBe("8 4 2");
  });

  it("fills dotted beats of a compound meter", () => {
    expect(names(restValues(f("1/2"), f("5/2"), f("3/2")))).toBe("8 8 4.");
  });
});

describe("tuplets", () => {
  it("closes where time is plain again", () => {
    const groups = findTuplets(["1", "1/3", "2/3", "1/5", "1/5", "1/5", "1/5", "1/5", "1"].map(f));
    expect(groups.map(({ count, ratio }) => [count, ratio])).toEqual([
      [1, null],
      [2, { num: 3, base: 2 }],
      [5, { num: 5, base: 4 }],
      [1, null],
    ]);
  });

  it("covers every length once, and every written length is plain", () => {
    const lengths = fc.array(fc.constantFrom("1", "1/2", "1/3", "2/3", "1/6", "1/5", "3/7", "1/4"), { minLength: 1 });
    fc.assert(
      fc.property(lengths, (texts) => {
        const all = texts.map(f);
        let next = 0;
        for (const { first, count, ratio } of findTuplets(all)) {
          expect(first).toBe(next);
          next += count;
          for (const length of all.slice(first, next))
            expect(isPlain(length.mul(ratio?.num ?? 1).div(ratio?.base ?? 1))).toBe(true);
        }
        expect(next).toBe(all.length);
      }),
    );
  });
});
