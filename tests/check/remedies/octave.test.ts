// SPDX-License-Identifier: AGPL-3.0-or-later
// A note in another octave: the same melody written so costs what the remedy says.
import { expect, test } from "vitest";
import { inWords } from "../../../src/words.js";
import { play } from "../../support/playing.js";
import { expectKept, remedied, remedyFor, triedAgainst } from "../../support/remedies.js";
import { shortScore } from "../../support/shorthand.js";

test("a note below the strings goes up", () => {
  const line = remedied(shortScore("C2 A1 C2 D2"));
  const remedy = remedyFor(line, "below-the-strings");
  expect(inWords(remedy.text, "en")).toBe("Take A1 (bar 1, beat 2) an octave higher, as san tiao 5.");
  expect(inWords(remedy.text, "zh")).toBe("把A1（第1小节第2拍）移高八度，弹作“散挑五”。");
  expectKept(remedy, play(shortScore("C2 A2 C2 D2")), "below-the-strings");
  expect(triedAgainst(line, "below-the-strings").unavoidable).toBe(true);
});

test("neighbours that share the finding go together, one that does not stays", () => {
  const line = remedied(shortScore("D4 E6 G6 D4"));
  const remedy = remedyFor(line, "above-the-board", "n3");
  expect(inWords(remedy.text, "en")).toContain(
    "Take the 2 notes from E6 (bar 1, beat 2) to G6 (bar 1, beat 3) an octave lower.",
  );
  expect(remedyFor(line, "above-the-board", "n2")).toEqual(remedy);
  expectKept(remedy, play(shortScore("D4 E5 G5 D4")), "above-the-board");
});

test("a note far below goes up as many octaves as it needs", () => {
  const remedy = remedyFor(remedied(shortScore("C2 A0 C2 D2")), "below-the-strings");
  expect(inWords(remedy.text, "en")).toContain("two octaves higher");
  expectKept(remedy, play(shortScore("C2 A2 C2 D2")), "below-the-strings");
});

test("a submitted place too high on the string is set free when its note goes down", () => {
  const given = ["san tiao 7", "da 4.6 tiao 7", "san tiao 7"];
  const line = remedied(shortScore("D3 B4 D3", given));
  const remedy = remedyFor(line, "thin-register");
  expect(inWords(remedy.text, "en")).toMatch(
    /^Take B4 \(bar 1, beat 2\) an octave lower: .+ instead of da 4\.6 tiao 7\./,
  );
  expectKept(remedy, play(shortScore("D3 B3 D3", ["san tiao 7", "-", "san tiao 7"])), "thin-register");
});

test("a long tone goes where it lasts", () => {
  const remedy = remedyFor(remedied(shortScore("C4:8 D3")), "fading-note");
  expect(inWords(remedy.text, "en")).toBe(
    "Take C4 (bar 1, beat 1) an octave lower: san tiao 6 instead of da 7 tiao 6.",
  );
  expect(inWords(remedy.text, "zh")).toBe("把C4（第1小节第1拍）移低八度：“大七挑六”改为“散挑六”。");
  expectKept(remedy, play(shortScore("C3:8 D3")), "fading-note", "n1");
});

test("a chord keeps its lowest note first when one of its notes moves past the other", () => {
  const line = remedied(shortScore("A1+C2 C3"));
  const remedy = remedyFor(line, "below-the-strings");
  expect(inWords(remedy.text, "en")).toContain("Take A1 (bar 1, beat 1) an octave higher");
  expectKept(remedy, play(shortScore("C2+A2 C3")), "below-the-strings");
});
