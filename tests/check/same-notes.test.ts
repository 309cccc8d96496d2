// SPDX-License-Identifier: AGPL-3.0-or-later
// Two scores that part are told apart where they do, each by its own bars.
import { expect, test } from "vitest";
import { firstParting } from "../../src/check/same-notes.js";
import type { Score } from "../../src/model/score.js";
import { shortScore } from "../support/shorthand.js";

/** Bars are counted from another number. */
const countedFrom = (score: Score, from: number): Score => ({
  ...score,
  bars: score.bars.map((bar) => ({ ...bar, label: String(bar.index + from) })),
});

test("the same notes do not part, whatever their bars are called", () => {
  expect(firstParting(shortScore("C3 D3 F3"), countedFrom(shortScore("C3 D3 F3"), 0))).toBeNull();
});

test("another pitch is named once where both bars are called alike, else with each side's own place", () => {
  const [a, b] = [shortScore("C3 D3 F3"), shortScore("C3 E3 F3")];
  expect(firstParting(a, b)).toEqual({ bar: "1", what: "beat 2 has D3 in A and E3 in B" });
  expect(firstParting(a, countedFrom(b, 0))).toEqual({
    bar: "0",
    what: "bar 1, beat 2 has D3 in A, and bar 0, beat 2 has E3 in B",
  });
});
