// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a stroke comes to rest (common practice, no source): pinches, and the thumb.
import { expect, test } from "vitest";
import { play } from "./support/playing.js";
import { shortScore } from "./support/shorthand.js";

function damped(melody: string, fingering: readonly string[]) {
  const { verdicts } = play(shortScore(melody, fingering));
  return verdicts.findings.filter(({ rule }) => rule === "damped-neighbour").map(({ notes }) => notes.at(-1));
}

test("a pinch is judged by each of its strokes", () => {
  expect(damped("D2! C2+C3", ["san gou 2", "san gou 1", "san tuo 6"])).toEqual(["n2"]);
  expect(damped("A2! C2+C3", ["san tiao 5", "san gou 1", "san tuo 6"])).toEqual(["n2"]);
  expect(damped("G2! C2+C3", ["san tiao 4", "san gou 1", "san tuo 6"])).toEqual([]);
});

test("a pinch does not stop its own other string", () => {
  expect(damped("F2+G2! F2+G2", ["san gou 3", "san tiao 4", "san gou 3", "san tiao 4"])).toEqual([]);
});

test("the thumb stops the next outer string with its outward stroke only", () => {
  expect(damped("C3! D3", ["san tiao 6", "san tuo 7"])).toEqual(["n2"]);
  expect(damped("C3! D3", ["san tiao 6", "san bo 7"])).toEqual([]);
});
