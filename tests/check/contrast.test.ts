// SPDX-License-Identifier: AGPL-3.0-or-later
// Two lines taken apart: nothing is lost between the notes, the rules, the runs and the whole.
import { describe, expect, test } from "vitest";
import {
  type Contrast,
  contrast,
  contrastOf,
  type Difference,
  decidingPassage,
  differenceOf,
  weightOf,
} from "../../src/check/contrast.js";
import { runWords } from "../../src/check/contrast-words.js";
import { inScale } from "../../src/model/moments.js";
import { parseTransposition } from "../../src/model/pitch.js";
import { PLAIN_WEIGHTING } from "../../src/rule/weighting.js";
import type { Played } from "../../src/search/charges.js";
import { inWords, type Language } from "../../src/words.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { bookFor, play, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";
import { scatter } from "../support/small-lines.js";
import { strayLine } from "../support/stray.js";

const sum = (list: readonly Difference[]): Difference =>
  list.reduce((a, b) => ({ blocked: a.blocked + b.blocked, effort: a.effort + b.effort }), { blocked: 0, effort: 0 });

function expectToAddUp(found: Contrast, played: Played): void {
  const barOf = (at: number): number => played.moments[at]?.notes[0]?.source.bar ?? -1;
  const { difference, rules, notes, runs, deciding } = found;
  expect(difference).toEqual(differenceOf(found.a, found.b));
  for (const { effort } of [difference, ...notes.map((note) => note.difference)])
    expect(Number.isSafeInteger(effort)).toBe(true);
  expect(sum(rules.map((rule) => rule.difference))).toEqual(difference);
  expect(sum(notes.map((note) => note.difference))).toEqual(difference);
  expect(sum(runs.map((run) => run.difference))).toEqual(difference);
  for (const run of runs)
    expect(sum([...run.saves, ...run.costs].map((share) => share.difference))).toEqual(run.difference);
  for (const [i, run] of runs.entries()) expect(run.from).toBeGreaterThan(runs[i - 1]?.until ?? -1);
  expect(deciding === null).toBe(weightOf(difference) === 0);
  if (deciding === null) return;
  const within = notes.filter(({ at }) => barOf(at) >= deciding.fromBar && barOf(at) <= deciding.toBar);
  expect(sum(within.map((note) => note.difference))).toEqual(deciding.difference);
  expect(sum(deciding.shares.map((share) => share.difference))).toEqual(deciding.difference);
  expect(weightOf(deciding.difference) / weightOf(difference)).toBeGreaterThanOrEqual(0.75);
}

describe.each(MELODIES)("%s", (name) => {
  const setting = settingOf();
  const best = play(readMelody(name), setting);

  test("against stray fingerings in the same setting the sums are exact", () => {
    for (const salt of [1, 2]) {
      const stray = strayLine(name, setting, { salt, most: 3000, every: 1 });
      const there = contrastOf(stray, best.played, best.rules, PLAIN_WEIGHTING);
      expectToAddUp(there, stray);
      expect(there.b).toEqual(best.verdicts.total);
      expect(weightOf(there.difference)).toBeLessThanOrEqual(0);
      const back = contrastOf(best.played, stray, best.rules, PLAIN_WEIGHTING);
      expect(sum([there.difference, back.difference])).toEqual({ blocked: 0, effort: 0 });
      expect(back.notes.length).toBe(there.notes.length);
    }
  });

  test("against other settings, too", () => {
    const score = readMelody(name);
    for (const [tuning, hand, steps] of [
      ["zhengdiao", "small", "-2"],
      ["ruibin", "large", "5"],
    ] as const) {
      const transpose = parseTransposition(steps, 0);
      if (transpose === null) throw new Error("no such transposition");
      const other = play(score, inScale({ ...settingOf({ tuning, hand }), transpose }, score));
      const found = contrast(
        { played: best.played, charges: best.verdicts.bill },
        { played: other.played, charges: other.verdicts.bill },
      );
      expectToAddUp(found, best.played);
      expect(found.b).toEqual(other.verdicts.total);
    }
  });

  test("a line beside itself differs in nothing", () => {
    const found = contrastOf(best.played, best.played, best.rules, PLAIN_WEIGHTING);
    expect(found).toMatchObject({ difference: { blocked: 0, effort: 0 }, notes: [], runs: [], deciding: null });
    expect(found.a).toEqual(best.verdicts.total);
  });
});

describe("the passage that decides", () => {
  const decide = (...efforts: readonly number[]) =>
    decidingPassage(
      efforts.map((effort, at) => ({ at, difference: { blocked: 0, effort } })),
      (at) => at,
    );

  test.each<[shows: string, efforts: readonly number[], fromBar: number, toBar: number, effort: number]>([
    ["one bar that outweighs the rest", [-10, 0, 300, 0, -20], 2, 2, 300],
    ["the fewest bars that hold three quarters", [240, 0, 100], 0, 2, 340],
    ["no more bars than that takes", [240, 0, 80], 0, 0, 240],
    ["a passage that the others only take from", [100, -50, 100, -100, 60], 0, 0, 100],
    ["the larger of two as short", [50, -60, 60], 2, 2, 60],
    ["the first of two alike", [70, -70, 70], 0, 0, 70],
    ["in the direction of the whole", [40, -300, 20], 1, 1, -300],
  ])("is %s", (_, efforts, fromBar, toBar, effort) => {
    expect(decide(...efforts)).toEqual({ fromBar, toBar, difference: { blocked: 0, effort } });
  });

  test("is none where the lines cost the same", () => {
    expect(decide(100, -100)).toBeNull();
    expect(decide()).toBeNull();
  });

  test("looks at what cannot be played before effort", () => {
    const differences = [
      { at: 0, difference: { blocked: 0, effort: -900 } },
      { at: 1, difference: { blocked: 1, effort: 0 } },
    ];
    expect(decidingPassage(differences, (at) => at)).toEqual({
      fromBar: 1,
      toBar: 1,
      difference: { blocked: 1, effort: 0 },
    });
  });

  test("is as short as any, by trying all of them", () => {
    for (let salt = 0; salt < 200; salt++) {
      const efforts = Array.from({ length: 9 }, (_, i) => (scatter(salt, i) % 7) - 3);
      const whole = efforts.reduce((a, b) => a + b, 0);
      const carries = (from: number, to: number): boolean =>
        Math.sign(whole) * efforts.slice(from, to + 1).reduce((a, b) => a + b, 0) >= 0.75 * Math.abs(whole);
      const spans = efforts.flatMap((_, from) =>
        efforts.slice(from).flatMap((__, more) => (carries(from, from + more) ? [more] : [])),
      );
      const found = decide(...efforts);
      if (whole === 0) expect(found).toBeNull();
      else {
        expect((found?.toBar ?? 0) - (found?.fromBar ?? 0)).toBe(Math.min(...spans));
        expect(carries(found?.fromBar ?? 0, found?.toBar ?? 0)).toBe(true);
      }
    }
  });
});

describe("a run", () => {
  const setting = settingOf();
  const rules = bookFor(setting);

  /** The runs from one fingering of a melody to another, as sentences. */
  function told(
    melody: string,
    before: readonly string[],
    after: readonly string[],
    language: Language = "en",
  ): readonly string[] {
    const score = shortScore(melody, before, 80);
    const a = play(score, setting).played;
    const b = { ...play(shortScore(melody, after, 80), setting).played, moments: a.moments };
    const { runs } = contrastOf(a, b, rules, PLAIN_WEIGHTING);
    return runs.map((run) => inWords(runWords(run, { a, b, score }).sentence, language));
  }

  const OPEN = ["san gou 1", "san gou 2", "san gou 3", "san gou 4"];

  test("says what it saves and costs, and where", () => {
    expect(told("C2 D2 F2 G2", OPEN, ["san gou 1", "san ti 2", "san gou 3", "san gou 4"])).toEqual([
      "Bar 1, beat 2: san ti 2 instead of san gou 2 saves 0.18 in strokes of one kind in a row (bar 1, beats 2 and 3), and costs 0.4 in the choice of stroke: 0.22 more in all.",
    ]);
  });

  test("of a longer one counts the notes", () => {
    expect(told("C2 D2 F2 G2", OPEN, ["san tiao 1", "san mo 2", "san tiao 3", "san mo 4"])).toEqual([
      "Bar 1, beats 1 to 4: 4 notes played another way save 0.28 in strokes of one kind in a row (bar 1, beats 2, 3 and 4), and cost 2.65 in the choice of stroke (4 places, bar 1): 2.37 more in all.",
    ]);
  });

  test("in Chinese, too", () => {
    const oneOther = ["san gou 1", "san ti 2", "san gou 3", "san gou 4"];
    const allOther = ["san tiao 1", "san mo 2", "san tiao 3", "san mo 4"];
    expect(told("C2 D2 F2 G2", OPEN, oneOther, "zh")).toEqual([
      "第1小节第2拍：“散勾二”改为“散剔二”，同类弹法连用省0.18（第1小节第2、3拍），弹法的选择费0.4：合计多费0.22。",
    ]);
    expect(told("C2 D2 F2 G2", OPEN, allOther, "zh")).toEqual([
      "第1小节第1至4拍：4个音换了弹法，同类弹法连用省0.28（第1小节第2、3、4拍），弹法的选择费2.65（第1小节共4处）：合计多费2.37。",
    ]);
  });
});
