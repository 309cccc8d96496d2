// SPDX-License-Identifier: AGPL-3.0-or-later
// What may be played at all (common practice, no source): wrong places stay playable, chords lose as little as can be.
import { expect, test } from "vitest";
import { play } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

/** Findings as "rule severity note", and the notes that are placed. */
function judged(melody: string, fingering: readonly string[] = []) {
  const score = shortScore(melody, fingering);
  const { verdicts, played } = play(score);
  const placed = played.moments.flatMap((moment, at) =>
    (played.lefts[at]?.placed ?? []).map((one) => moment.notes[one.note]?.source.id),
  );
  const found = verdicts.findings.map(({ rule, severity, notes }) => `${rule} ${severity} ${notes.at(-1)}`);
  return { found, placed: placed.sort(), blocked: verdicts.total.blocked };
}

test("a slide to a wrong tenth sounds a wrong note, but can be played", () => {
  const { found, blocked } = judged("C3 D3", ["ming 10 gou 4", "shang 8.5"]);
  expect(found).toContain("written-place-mismatch problem n2");
  expect(blocked).toBe(0);
});

test("a chord with one note out of range keeps the other, though the writer gave strokes for both", () => {
  const { placed, blocked } = judged("A1+C3", ["gou 1", "san tuo 6"]);
  expect(placed).toEqual(["n2"]);
  expect(blocked).toBe(1);
});

test("of three notes the two that fit together are kept", () => {
  const { placed, blocked } = judged("A1+G2+C3");
  expect(placed).toEqual(["n2", "n3"]);
  expect(blocked).toBe(1);
});

test("an open string and a harmonic are one pinch", () => {
  expect(judged("C2+D4", ["san gou 1", "fan 7 tuo 7"]).blocked).toBe(0);
});

test("a rest between two notes ends the slur's wish for a slide", () => {
  const score = shortScore("(C3 r D3)");
  expect(play(score).played.lefts.map((left) => left.first?.sound)).toEqual(["open", "open"]);
});
