// SPDX-License-Identifier: AGPL-3.0-or-later
// What the shorthand of the examples cannot say: several voices and parts left out at once.
import { expect, test } from "vitest";
import { play } from "./support/playing.js";
import { shortScore } from "./support/shorthand.js";

test("every voice and part that was left out is named with the option that takes it", () => {
  const leftOut = [
    { part: "P1 (Qin)", voice: "2 (staff 2)", notes: 1 },
    { part: "P2 (Voice)", voice: null, notes: 8 },
  ];
  const { verdicts } = play({ ...shortScore("D3 C3"), leftOut });
  const [finding, ...others] = verdicts.findings.filter(({ rule }) => rule === "partial-line");
  expect(others).toEqual([]);
  expect(finding?.measured).toBe(9);
  expect(finding?.message).toBe(
    '9 notes of the score were not looked at: 1 in voice 2 (staff 2) of part P1 (Qin) (--voice "2 (staff 2)"), 8 in part P2 (Voice) (--part P2).',
  );
});

test("one note is spoken of as one", () => {
  const leftOut = [{ part: "P1", voice: "2", notes: 1 }];
  const { verdicts } = play({ ...shortScore("D3 C3"), leftOut });
  expect(verdicts.findings.find(({ rule }) => rule === "partial-line")?.message).toMatch(
    /^1 note of the score was not/,
  );
});
