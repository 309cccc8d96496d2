// SPDX-License-Identifier: AGPL-3.0-or-later
// How many attacks a compound stroke has: the right-hand term list at yueqixuexi.com; of chang suo other lists count nine.
import { expect, it, test } from "vitest";
import { FIGURES, type FigureName } from "../../src/model/fingering.js";
import { figureAttacks } from "../../src/report/attacks.js";

const ONE_STRING: readonly (readonly [FigureName, string])[] = [
  ["mo-tiao", "mo tiao"],
  ["gou-ti", "gou ti"],
  ["mo-gou", "mo gou"],
  ["die", "mo gou"],
  ["juan", "mo gou"],
  ["ban-lun", "ti tiao"],
  ["lun", "zhai ti tiao"],
  ["bei-suo", "ti mo tiao"],
  ["duan-suo", "mo gou ti mo tiao"],
  ["chang-suo", "mo tiao mo gou ti mo tiao"],
];

it.each(ONE_STRING)("%s strikes its string with %s", (figure, strokes) => {
  const attacks = figureAttacks(figure, 3, null, 2);
  expect(attacks.map(({ stroke }) => stroke).join(" ")).toBe(strokes);
  expect(new Set(attacks.map(({ string }) => string))).toEqual(new Set([3]));
});

const MANY_STRINGS: readonly (readonly [FigureName, readonly number[], string])[] = [
  ["li", [7, 6, 5], "tiao 7, tiao 6, tiao 5"],
  ["gun", [4, 3, 2], "zhai 4, zhai 3, zhai 2"],
  ["fu", [1, 2, 3], "mo 1, mo 2, mo 3"],
  ["gun-fu", [3, 2, 1], "zhai 3, zhai 2, zhai 1, mo 1, mo 2, mo 3"],
  ["suo-ling", [7, 6], "tiao 7, tiao 6"],
  ["ru-yi", [6, 7], "ti 7, ti 6"],
  ["shuang-tan", [1, 2], "ti 2, ti 1, tiao 2, tiao 1"],
  ["bo-la", [1, 2], "gou 1, gou 2, ti 2, ti 1"],
  ["quan-fu", [1, 2], "mo 1, mo 2, gou 1, gou 2"],
  ["da-yuan", [6, 1], "tiao 6, gou 1, tiao 6, gou 1, tiao 6, gou 1, tiao 6"],
];

it.each(MANY_STRINGS)("%s over %j goes %s", (figure, across, wanted) => {
  const attacks = figureAttacks(figure, across[0] as number, across, 2);
  expect(attacks.map(({ stroke, string }) => `${stroke} ${string}`).join(", ")).toBe(wanted);
});

test("every figure is there, in order of time, and fits its note", () => {
  expect([...ONE_STRING, ...MANY_STRINGS].map(([figure]) => figure).sort()).toEqual([...FIGURES].sort());
  for (const figure of FIGURES)
    for (const seconds of [0.1, 1, 4]) {
      const after = figureAttacks(figure, 2, [2, 1], seconds).map((attack) => attack.after);
      expect(after[0]).toBe(0);
      expect(after).toEqual([...after].sort((a, b) => a - b));
      expect(after.at(-1)).toBeLessThan(seconds);
    }
});
