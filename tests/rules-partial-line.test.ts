// SPDX-License-Identifier: AGPL-3.0-or-later
// What the shorthand of the examples cannot say: several voices and parts left out at once.
import { expect, test } from "vitest";
import { play } from "./support/playing.js";
import { shortScore } from "./support/shorthand.js";

test("every voice and part that was left out is named with the option that takes it", () => {
  const leftOut = [
    { part: "P1 (Qin)", voice: "2 (staff 2)", notes: 1, take: '--part P1 --voice "2 (staff 2)"' },
    { part: "P2 (Voice)", voice: null, notes: 8, take: "--part P2" },
  ];
  const { verdicts } = play({ ...shortScore("D3 C3"), leftOut });
  const [finding, ...others] = verdicts.findings.filter(({ rule }) => rule === "partial-line");
  expect(others).toEqual([]);
  expect(finding?.measured).toBe(9);
  expect(String(finding?.message)).toBe(
    '9 notes of the score were not looked at: 1 in voice 2 (staff 2) of part P1 (Qin) (--part P1 --voice "2 (staff 2)"), 8 in part P2 (Voice) (--part P2).',
  );
});

test("one note is spoken of as one", () => {
  const leftOut = [{ part: "P1", voice: "2", notes: 1, take: "--voice 2" }];
  const { verdicts } = play({ ...shortScore("D3 C3"), leftOut });
  expect(String(verdicts.findings.find(({ rule }) => rule === "partial-line")?.message)).toMatch(
    /^1 note of the score was not/,
  );
});

test("of many lines the first are named and the rest counted", () => {
  const leftOut = [1, 2, 3, 4, 5, 6, 7, 8].map((n) => ({
    part: `P${n}`,
    voice: null,
    notes: 2,
    take: `--part P${n}`,
  }));
  const { verdicts } = play({ ...shortScore("D3 C3"), leftOut });
  expect(String(verdicts.findings.find(({ rule }) => rule === "partial-line")?.message)).toMatch(
    /^16 notes of .* 2 in part P6 \(--part P6\), 4 in 2 more lines\.$/,
  );
});
