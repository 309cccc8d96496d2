// SPDX-License-Identifier: AGPL-3.0-or-later
// The tempo that a remedy names is the nearest at which the rule is content with the same fingering.
import { expect, test } from "vitest";
import type { Score } from "../../../src/model/score.js";
import { quarters } from "../../../src/model/time.js";
import { inWords } from "../../../src/words.js";
import { readMelody } from "../../support/melodies.js";
import { play } from "../../support/playing.js";
import { expectKept, remedied, remedyFor } from "../../support/remedies.js";
import { given, shortScore } from "../../support/shorthand.js";

const TURNS = ["san gou 1", "san tiao 4", "san gou 1", "san tiao 4"];

/** Whether the rule finds fault with a note of the four open strings at a tempo. */
const fails = (tempo: number, note: string): boolean =>
  play(shortScore("C2 G2 C2 G2", TURNS, tempo)).verdicts.findings.some(
    ({ rule, notes }) => rule === "too-fast" && notes.at(-1) === note,
  );

test("the fastest tempo at which a hand keeps up, and the line searched at it", () => {
  const remedy = remedyFor(remedied(shortScore("C2 G2 C2 G2", TURNS, 480)), "too-fast", "n2");
  // Five plucks a second for strokes by turns, a fifth more before it is worth a word: 6 a second.
  expect(inWords(remedy.text, "en")).toBe("Play the melody no faster than 360 quarter notes a minute (now 480).");
  expect(inWords(remedy.text, "zh")).toBe("全曲不快于每分钟360个四分音符（现为480个）。");
  expectKept(remedy, play(shortScore("C2 G2 C2 G2", TURNS, 360)), "too-fast");
  expect(fails(360, "n2")).toBe(false);
  expect(fails(361, "n2")).toBe(true);
});

test("the slowest tempo at which a tone lasts, with the fingering that it must keep", () => {
  const score = readMelody("still-water");
  const line = remedied(score);
  const note = score.notes.find(({ bar }) => bar === 1)?.id as string;
  const remedy = remedyFor(line, "fading-note", note);
  const words = /^Play the melody no slower than (\d+) quarter notes a minute \(now 50\) with (.+) here\./;
  const [, tempo, spoken = "-"] = words.exec(inWords(remedy.text, "en")) ?? [];
  const at = (quartersPerMinute: number, text: string) =>
    play({
      ...score,
      notes: score.notes.map((one) => (one.id === note ? { ...one, given: given(text) } : one)),
      tempos: [{ onset: quarters(0), quartersPerMinute }],
    });
  expectKept(remedy, at(Number(tempo), spoken), "fading-note", note);
  const slower = at(Number(tempo) - 1, spoken).verdicts.findings;
  expect(slower.some(({ rule, notes }) => rule === "fading-note" && notes.includes(note))).toBe(true);
});

test("of several tempi only the one in force is changed, and its bars are named", () => {
  const two: Score = {
    ...shortScore("C2 G2 C2 G2 C2 G2 C2 G2", [...TURNS, ...TURNS]),
    tempos: [
      { onset: quarters(0), quartersPerMinute: 60 },
      { onset: quarters(4), quartersPerMinute: 480 },
    ],
  };
  const remedy = remedyFor(remedied(two), "too-fast", "n8");
  expect(inWords(remedy.text, "en")).toBe("Play bar 2 no faster than 360 quarter notes a minute (now 480).");
  expect(inWords(remedy.text, "zh")).toBe("第2小节不快于每分钟360个四分音符（现为480个）。");
  const [first, second] = two.tempos as [Score["tempos"][0], Score["tempos"][0]];
  expectKept(remedy, play({ ...two, tempos: [first, { ...second, quartersPerMinute: 360 }] }), "too-fast");
});

test("every tempo that is named for a fast tune holds at its place when the tune is searched anew", () => {
  const score = readMelody("rattling-shutters");
  const line = remedied(score);
  const known = new Map<number, ReturnType<typeof play>>();
  let held = 0;
  for (const [finding, { remedy }] of line.tried) {
    const tempo = Number(/no faster than (\d+) quarter/.exec(inWords(remedy?.text ?? "", "en"))?.[1]);
    if (remedy === null || Number.isNaN(tempo)) continue;
    const [mark] = score.tempos as [Score["tempos"][0]];
    const then = known.get(tempo) ?? play({ ...score, tempos: [{ ...mark, quartersPerMinute: tempo }] });
    known.set(tempo, then);
    const again = then.verdicts.findings.some(({ rule, place }) => rule === finding.rule && place === finding.place);
    // Where the best line at that tempo would break the rule again, the fingering that does not is named and costs more.
    expect(again).toBe(/ with .+ here\./.test(inWords(remedy.text, "en")));
    if (again) expect(remedy.after.effort).toBeGreaterThanOrEqual(then.verdicts.total.effort);
    else expect(then.verdicts.total).toEqual(remedy.after);
    held += 1;
  }
  expect(held).toBeGreaterThan(50);
});
