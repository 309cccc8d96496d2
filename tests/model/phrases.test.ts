// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import { phrasesOf } from "../../src/model/phrases.js";
import type { Score } from "../../src/model/score.js";
import { readMelody } from "../support/melodies.js";
import { shortScore } from "../support/shorthand.js";

const spans = (score: Score): readonly string[] => phrasesOf(score).map(({ from, to }) => `${from}-${to}`);

describe("a phrase ends", () => {
  test.each([
    ["before a rest", "C4 D4 r E4 F4", ["0-1", "2-3"]],
    ["with a slur over four notes", "(C4 D4 E4 F4) G4 A4", ["0-3", "4-5"]],
    ["not with a slur that is a slide", "(C4 D4) E4 F4", ["0-3"]],
    ["before an ornament, not after it", "C4 r ,D4 E4", ["0-0", "1-2"]],
    ["nowhere in a chord", "C4+G4 r D4+A4", ["0-1", "2-3"]],
  ])("%s", (_, melody, expected) => expect(spans(shortScore(melody))).toEqual(expected));

  test("at a fermata", () => {
    const score = shortScore("C4 D4 E4");
    const notes = score.notes.map((note, i) => (i === 1 ? { ...note, marks: { ...note.marks, fermata: true } } : note));
    expect(spans({ ...score, notes })).toEqual(["0-1", "2-2"]);
  });
});

test("without a mark a melody is cut every four bars, with its upbeat", () => {
  const score = readMelody("amazing-grace");
  const phrases = phrasesOf(score);
  expect(phrases.length).toBeGreaterThan(2);
  for (const { from, to } of phrases) {
    const bars = (score.notes[to]?.bar ?? 0) - (score.notes[from]?.bar ?? 0);
    expect(bars).toBeLessThanOrEqual(4);
  }
});

test("phrases hold every note once", () => {
  const score = readMelody("four-walks-round-the-pond");
  const indexes = phrasesOf(score).flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
  expect(indexes).toEqual(score.notes.map((_, i) => i));
});
