// SPDX-License-Identifier: AGPL-3.0-or-later
// Names of keys; tonics of signatures and modes as any primer of the circle of fifths has them (from memory).

import { describe, expect, test } from "vitest";
import { keyName } from "../../src/model/key-name.js";
import { type Pitch, parsePitch, parseTransposition, type Transposition } from "../../src/model/pitch.js";
import type { Score } from "../../src/model/score.js";
import { inWords } from "../../src/words.js";
import { shortScore } from "../support/shorthand.js";

function inKey(fifths: number, mode: string | null, sounding = "C4"): Score {
  const score = shortScore("C4");
  const notes = score.notes.map((note) => ({ ...note, sounding: parsePitch(sounding) as Pitch }));
  return { ...score, notes, bars: score.bars.map((bar) => ({ ...bar, key: { fifths, mode } })) };
}

const named = (score: Score, text: string): string =>
  inWords(
    keyName(score, { transpose: parseTransposition(text, score.bars[0]?.key.fifths ?? 0) as Transposition }),
    "en",
  );

describe("the key as written", () => {
  test.each([
    [0, "major", "C major"],
    [2, "minor", "B minor"],
    [-3, "minor", "C minor"],
    [6, "major", "F# major"],
    [-6, "minor", "Eb minor"],
    [1, "dorian", "A dorian"],
    [-1, "mixolydian", "C mixolydian"],
    [3, "phrygian", "C# phrygian"],
    [0, "lydian", "F lydian"],
    [-2, null, "Bb major or G minor"],
  ])("%i fifths, %s: %s", (fifths, mode, name) => expect(named(inKey(fifths, mode), "0")).toBe(name));
});

describe("transposed", () => {
  test.each([
    [0, "major", "-7", "F major"],
    [0, "major", "-5", "G major"],
    [2, "minor", "3", "D minor"],
    [-1, "minor", "-12", "D minor"],
    [4, "major", "1", "F major"],
    [-3, "major", "-13", "D major"],
    [0, "minor", "-P5", "D minor"],
  ])("%i fifths, %s, by %s: %s", (fifths, mode, by, name) => expect(named(inKey(fifths, mode), by)).toBe(name));
});

test("a transposing part is named as it sounds", () => {
  expect(named(inKey(2, "major", "Bb3"), "0")).toBe("C major");
});
