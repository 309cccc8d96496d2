// SPDX-License-Identifier: AGPL-3.0-or-later
// Remedies of rules that see the whole line: what they name is pinned or taken away, and the line searched anew.
import { expect, test } from "vitest";
import { choicesOf } from "../../../src/candidates/candidates.js";
import { NOTHING_GIVEN } from "../../../src/model/fingering.js";
import type { Left } from "../../../src/model/playing.js";
import type { Score } from "../../../src/model/score.js";
import { type Cost, unweigh } from "../../../src/rule/cost.js";
import { solve } from "../../../src/search/solve.js";
import { inWords } from "../../../src/words.js";
import { play, settingOf } from "../../support/playing.js";
import { expectKept, type Remedied, remedied, remedyFor } from "../../support/remedies.js";
import { shortScore } from "../../support/shorthand.js";

/** The score with the places of some moments given for others. */
function pinned(score: Score, lefts: readonly Left[], pairs: readonly (readonly [at: number, model: number])[]): Score {
  const model = new Map(pairs);
  const notes = score.notes.map((note, at) => {
    const placed = lefts[model.get(at) ?? -1]?.first ?? null;
    if (placed === null) return note;
    const { sound, string, position } = placed;
    return { ...note, given: { ...NOTHING_GIVEN, sound, string, position } };
  });
  return { ...score, notes };
}

test("a figure that wandered goes back, or the first time goes there: the cheaper way is named", () => {
  const score = shortScore(Array.from({ length: 4 }, () => "D3 F3 E3 A3").join(" "));
  const line = remedied(score);
  const { finding, remedy } = found(line, "wandering-figure");
  const now = finding.notes.map((id) => score.notes.findIndex((note) => note.id === id));
  const back = now[0] as number;
  const { lefts } = line.played;
  const asFirst = play(
    pinned(
      score,
      lefts,
      now.map((at) => [at, at - back]),
    ),
  );
  const asNow = play(
    pinned(
      score,
      lefts,
      now.map((at) => [at - back, at]),
    ),
  );
  const cheaper = asFirst.verdicts.total.effort <= asNow.verdicts.total.effort ? asFirst : asNow;
  expect(inWords(remedy.text, "en")).toMatch(
    cheaper === asFirst ? /^Play it as in bar 1, beat 1: / : /^Play it in bar 1, beat 1 as here: /,
  );
  expectKept(remedy, cheaper, "wandering-figure");
});

test("a figure that was written in other places is set free", () => {
  const first = ["san tiao 7", "da 8.5 tiao 5", "da 9 tiao 6", "da 7.9 tiao 6"];
  const second = ["san tiao 7", "da 10 tiao 6", "da 10 tiao 7", "da 7.9 tiao 6"];
  const melody = "D3 F3 G3 A3 D3 F3 G3 A3";
  const remedy = remedyFor(remedied(shortScore(melody, [...first, ...second])), "wandering-figure");
  expect(inWords(remedy.text, "en")).toContain("Play it as in bar 1, beat 1: ");
  const then = play(shortScore(melody, [...first, "san tiao 7", "-", "-", "-"]));
  expect(then.verdicts.total.effort).toBeGreaterThanOrEqual(remedy.after.effort);
});

/** What the line costs when some hands are not allowed at one moment: a new search over fewer candidates. */
function costWithout(line: Remedied, at: number, barred: (left: Left) => boolean): Cost {
  const setting = settingOf();
  const choices = choicesOf(line.played.moments, setting, line.rules).map((choice, i) => {
    if (i !== at) return choice;
    const lefts = choice.lefts.filter((left) => !barred(left));
    return { ...choice, lefts, plucked: lefts.filter(({ chain }) => chain === 0).length, pluckedList: -1 - i };
  });
  return unweigh(solve(choices, setting, line.rules).weight);
}

test("a lone harmonic sounds otherwise: what a search without harmonics there costs", () => {
  const line = remedied(shortScore("D3 C6 B5 D3 A3"));
  const { finding, remedy } = found(line, "lone-harmonic");
  const at = line.played.moments.findIndex(({ notes }) => notes[0]?.source.id === finding.notes[0]);
  expect(remedy.after).toEqual(costWithout(line, at, ({ first }) => first?.sound === "harmonic"));
});

test("an open string that rings against its neighbour is stopped: what a search without it costs", () => {
  const melody = "A2 Bb2:2";
  const remedy = remedyFor(remedied(shortScore(melody, ["san gou 5", "ming 10 ti 3"])), "clashing-resonance");
  const free = play(shortScore(melody));
  const cost = costWithout(
    { ...free, tried: new Map() },
    0,
    ({ first }) => first?.sound === "open" && first.string === 5,
  );
  // The second note keeps what is written where it does not sound the open string: it can only cost more.
  expect(remedy.after.effort).toBeGreaterThanOrEqual(cost.effort);
  const then = remedied(
    shortScore(melody, [
      /, (\S+ \S+ \S+ \S+) instead of san gou 5/.exec(inWords(remedy.text, "en"))?.[1] ?? "",
      "ming 10 ti 3",
    ]),
  );
  expectKept(remedy, then, "clashing-resonance");
});

test("a chain of plucked semitones is slurred by twos", () => {
  const remedy = remedyFor(remedied(shortScore("F3:1/2 E3:1/2 Eb3:1/2 D3:1/2 C#3:1/2 C3:1/2")), "semitone-chain");
  expect(inWords(remedy.text, "en")).toMatch(/^Slur the notes from F3 \(bar 1, beat 1\) to C3 by twos and slide: /);
  const slurred = shortScore("(F3:1/2 E3:1/2) (Eb3:1/2 D3:1/2) (C#3:1/2 C3:1/2)");
  const asked = { ...NOTHING_GIVEN, arrival: "slid" } as const;
  const notes = slurred.notes.map((note, i) => (i % 2 === 1 ? { ...note, given: asked } : note));
  expectKept(remedy, play({ ...slurred, notes }), "semitone-chain");
});

test("of two chains that meet on one note each is judged by itself", () => {
  const remedy = remedyFor(remedied(shortScore("C3 C#3 D3 D#3 E3 F3 E3 Eb3 D3")), "semitone-chain");
  expect(inWords(remedy.text, "en")).toMatch(/^Slur the notes from C3 \(bar 1, beat 1\) to F3 by twos and slide: /);
});

test("a repeated note that was written with one stroke is set free", () => {
  const written = shortScore(
    "D3 D3 D3 D3 D3",
    Array.from({ length: 5 }, () => "san tiao 7"),
  );
  const remedy = remedyFor(remedied(written), "plain-repetition");
  expectKept(remedy, play(shortScore("D3 D3 D3 D3 D3")), "plain-repetition");
});

function found(line: Remedied, rule: string) {
  const finding = line.verdicts.findings.find((one) => one.rule === rule);
  if (finding === undefined) throw new Error(`no ${rule}`);
  return { finding, remedy: remedyFor(line, rule) };
}
