// SPDX-License-Identifier: AGPL-3.0-or-later
// Findings on a fingering that was completed by search say so, where they quote what nobody wrote.
import { expect, test } from "vitest";
import { inWords } from "../../src/words.js";
import { play } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const MELODY = "F3 G3 F3";
const messageOf = (fingering: readonly string[], rule: string): string | undefined =>
  String(play(shortScore(MELODY, fingering, 120)).verdicts.findings.find((finding) => finding.rule === rule)?.message);

test("a whole fingering is the writer's own", () => {
  const said = messageOf(["da 10 tiao 6", "ming 9 gou 6", "da 10 tiao 6"], "crossed-hand");
  expect(said).toMatch(/the fingers cross/);
  expect(said).not.toMatch(/completed/);
});

test("what the search chose is said to be completed", () => {
  const stopped = play(shortScore("F2 G2", ["<string> 7", "<string> 7"], 120)).verdicts.findings;
  const quoted = stopped.filter(
    ({ message }) => String(message).includes("ming 10") || String(message).includes("da 9"),
  );
  expect(quoted.length).toBeGreaterThan(0);
  for (const { message } of quoted) {
    expect(inWords(message, "en")).toMatch(/ (and stroke are|is) as completed here\.$/);
    expect(inWords(message, "zh")).toMatch(/。其中(左手指、弹法|左手指|弹法)是这里补上的。$/);
  }
});

test("a line that is all searched blames nobody", () => {
  const { findings } = play(shortScore("F3 Gb3 G3 Ab3 A3 Bb3", [], 240)).verdicts;
  expect(findings.length).toBeGreaterThan(0);
  for (const { message } of findings) expect(String(message)).not.toMatch(/ as completed here\.$/);
});
