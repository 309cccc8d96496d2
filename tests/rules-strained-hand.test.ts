// SPDX-License-Identifier: AGPL-3.0-or-later
// Fast plucks that go on: lines too long for an example of the guide. The numbers are this project's own judgement.
import { expect, test } from "vitest";
import { play, settingOf } from "./support/playing.js";
import { shortScore } from "./support/shorthand.js";

/** Findings of the rule on open strings plucked by turns. */
function strain(notes: number, tempo: number, hand = "medium", between = "") {
  const half = Array.from({ length: notes / 2 }, (_, i) => (i % 2 === 0 ? "G2" : "C2")).join(" ");
  const fingering = Array.from({ length: notes }, (_, i) => ((i % (notes / 2)) % 2 === 0 ? "san tiao 4" : "san gou 1"));
  const score = shortScore(`${half} ${between} ${half}`, fingering, tempo);
  return play(score, settingOf({ hand })).verdicts.findings.filter(({ rule }) => rule === "strained-hand");
}

test("4.5 plucks a second for 11 s are named once", () => {
  const found = strain(52, 270);
  expect(found).toHaveLength(1);
  expect(found[0]?.notes).toHaveLength(52);
  expect(String(found[0]?.message)).toBe(
    "For 11.3 s the right hand plucks 4.5 times a second without a pause (up to 4 a second can go on). This holds for the medium hand; pain is a reason to stop, and a teacher should judge the individual hand.",
  );
});

test("four plucks a second can go on", () => {
  expect(strain(60, 240)).toEqual([]);
});

test("the same speed for less than 10 s is a run", () => {
  expect(strain(40, 270)).toEqual([]);
});

test("a pause in the middle gives the hand rest", () => {
  expect(strain(52, 270, "medium", "r:4")).toEqual([]);
});

test("a faster hand has a higher limit", () => {
  expect(strain(52, 270, "experienced")).toEqual([]);
});
