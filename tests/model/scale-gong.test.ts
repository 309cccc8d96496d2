// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the twelve-note scale stands: sharps and flats of the melody get the fifths they are spelled by.
import { expect, test } from "vitest";
import { type Pitch, parsePitch } from "../../src/model/pitch.js";
import { scaleGong } from "../../src/model/scale-gong.js";
import { findTuning } from "../../src/model/tuning.js";

const pitches = (names: string): Pitch[] => names.split(" ").map((name) => parsePitch(name) as Pitch);
const standard = findTuning("zhengdiao");

test.each([
  ["naturals and flats stay on the tuning's gong F", "C3 D3 Bb3 Eb3 Gb3", 5],
  ["F# asks for a scale on C", "D3 F#3 A3", 0],
  ["C# and F# ask for one on G", "D3 F#3 C#3", 7],
  ["more flats than sharps stay", "Gb3 Db3 F#3", 5],
])("%s", (_, names, gong) => {
  expect(scaleGong(standard, "pythagorean", pitches(names))).toBe(gong);
});

test("pure thirds and equal steps stay on the tuning's gong", () => {
  expect(scaleGong(standard, "just", pitches("F#3"))).toBe(5);
  expect(scaleGong(standard, "equal", pitches("F#3"))).toBe(5);
});
