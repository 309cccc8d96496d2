// SPDX-License-Identifier: AGPL-3.0-or-later
// The order of settings against searches of every one of them by the ordinary search, which shares no bound with it.
import { describe, expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { type Brief, NO_BRIEF } from "../../src/model/brief.js";
import { NOTHING_GIVEN } from "../../src/model/fingering.js";
import { inScale, momentsOf } from "../../src/model/moments.js";
import { parseTransposition, type Transposition } from "../../src/model/pitch.js";
import type { Score } from "../../src/model/score.js";
import { countRetuned, STANDARD, TUNINGS } from "../../src/model/tuning.js";
import { InputProblem } from "../../src/problem.js";
import { weigh } from "../../src/rule/cost.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { type Contest, rankSettings } from "../../src/search/ranking.js";
import { solve } from "../../src/search/solve.js";
import { readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const spelled = (semitones: number): Transposition => parseTransposition(String(semitones), 0) as Transposition;
const RANGE = Array.from({ length: 49 }, (_, i) => spelled(i - 24));
const FEW = [-24, -17, -12, -5, 0, 7, 12].map(spelled);

function contest(score: Score, wish: Partial<Contest> = {}): Contest {
  return {
    score,
    brief: NO_BRIEF,
    own: inScale(settingOf(), score),
    tunings: TUNINGS,
    transpositions: FEW,
    octaves: false,
    top: 10,
    bookFor,
    ...wish,
  };
}

interface Plain {
  readonly name: string;
  readonly weight: number;
  readonly order: readonly number[];
}

const byOrder = (a: Plain, b: Plain): number =>
  [a.weight - b.weight, ...a.order.map((value, i) => value - (b.order[i] as number))].find((apart) => apart !== 0) ?? 0;

/** Every setting searched to the end by itself, sorted as the contract says. */
function searchedAll({ score, brief, own, tunings, transpositions }: Contest): readonly Plain[] {
  const all = tunings.flatMap((tuning, at) =>
    transpositions.map((transpose) => {
      const setting = inScale({ ...own, tuning, transpose }, score);
      const rules = bookFor(setting);
      const moments = momentsOf(score, setting, brief);
      const weighting = weightingOf(brief, moments, rules);
      const { weight } = solve(choicesOf(moments, setting, rules), setting, rules, { weighting });
      const { semitones } = transpose;
      return {
        name: `${tuning.name} ${semitones}`,
        weight,
        order: [countRetuned(tuning, STANDARD), Math.abs(semitones), at, semitones],
      };
    }),
  );
  return all.sort(byOrder);
}

const named = ({ best }: ReturnType<typeof rankSettings>): readonly string[] =>
  best.map(({ setting }) => `${setting.tuning.name} ${setting.transpose.semitones}`);
const weights = ({ best }: ReturnType<typeof rankSettings>): readonly number[] => best.map(({ total }) => weigh(total));

const FLOWING: Brief = {
  ...NO_BRIEF,
  passages: [{ fromBar: 0, toBar: 0, text: "1", character: "flowing", reason: null, harmonics: false }],
  weights: { "hand-shift": 2 },
};

describe.each<[string, Contest]>([
  ["a chromatic line", contest(shortScore("C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4"))],
  [
    "a pentatonic line, all transpositions of four tunings",
    contest(shortScore("F3 G3 A3 C4 D4 C4 A3 G3 F3"), { tunings: TUNINGS.slice(0, 4), transpositions: RANGE }),
  ],
  ["a line too high for most", contest(shortScore("G6 A6 B6 C7 D7 B6 G6"))],
  ["chords", contest(shortScore("C3+C4 D3+A3 F3+C4 D4"))],
  ["slurs and repeated notes", contest(shortScore("(A3 C4) D4 D4 D4 (E4 D4) C4"))],
  ["a brief that weighs", contest(shortScore("A3 C4 D4 G4 E4 C4"), { brief: FLOWING })],
])("%s", (_, asked) => {
  const all = searchedAll(asked);
  const ranking = rankSettings(asked);

  test("what is shown is the exact order, whatever was skipped", () => {
    expect(named(ranking)).toEqual(all.slice(0, 10).map(({ name }) => name));
    expect(weights(ranking)).toEqual(all.slice(0, 10).map(({ weight }) => weight));
    expect(ranking.best.map(({ rank }) => rank)).toEqual(all.slice(0, 10).map((__, i) => i + 1));
  });

  test("with everything shown nothing is skipped and the whole order is the same", () => {
    const whole = rankSettings({ ...asked, top: all.length });
    expect(named(whole)).toEqual(all.map(({ name }) => name));
    expect(whole.searched).toEqual({ settings: all.length, exact: all.length, skipped: 0 });
  });

  test("the first alone is the same", () => {
    expect(named(rankSettings({ ...asked, top: 1 }))).toEqual([all[0]?.name]);
  });

  test("the rank of the call's own setting is true or not given", () => {
    const { own } = ranking;
    if (own instanceof InputProblem) throw own;
    const true_ = 1 + all.findIndex(({ name }) => name === "zhengdiao 0");
    expect([true_, null]).toContain(own.rank);
    expect(weigh(own.total)).toBe(all[true_ - 1]?.weight);
  });
});

test("most of a real melody's settings are skipped", () => {
  const score = readMelody("auld-lang-syne");
  const { searched } = rankSettings(contest(score, { transpositions: RANGE }));
  expect(searched.settings).toBe(13 * 49);
  expect(searched.exact + searched.skipped).toBe(searched.settings);
  expect(searched.skipped).toBeGreaterThan(500);
});

test("tunings that differ by one shift of everything cost the same a semitone apart", () => {
  const score = shortScore("G3 A3 B3 D4 E4 D4 B3 A3 G3");
  // In equal temperament, where no spelling moves a comma.
  const own = settingOf({ temperament: "equal" });
  const tunings = TUNINGS.filter(({ name }) => name === "mangong" || name === "yizejun");
  const { best } = rankSettings(contest(score, { own, tunings, transpositions: RANGE, top: 98 }));
  const weightOf = (tuning: string, semitones: number): number =>
    weigh(
      (
        best.find(
          ({ setting }) => setting.tuning.name === tuning && setting.transpose.semitones === semitones,
        ) as (typeof best)[number]
      ).total,
    );
  for (let semitones = -24; semitones < 24; semitones++)
    expect(weightOf("yizejun", semitones + 1)).toBe(weightOf("mangong", semitones));
});

test("a fingering that the score gives is kept in every setting", () => {
  const score = shortScore("G2 C3 D3", ["san gou 4", "-", "-"]);
  const asked = contest(score);
  const all = searchedAll(asked);
  expect(named(rankSettings(asked))).toEqual(all.slice(0, 10).map(({ name }) => name));
});

test("a setting in which a pin cannot sound its note is none", () => {
  const score = shortScore("D3 A3");
  const pin = { ...NOTHING_GIVEN, string: 7, sound: "open" as const };
  const brief = {
    ...NO_BRIEF,
    pins: [{ note: score.notes[0]?.id as string, given: pin, place: "brief line 1", text: "" }],
  };
  const { best, own } = rankSettings(contest(score, { brief, top: 100 }));
  expect(best.length).toBeGreaterThan(0);
  expect(best.every(({ setting }) => setting.tuning.strings[6] === "D3" && setting.transpose.semitones === 0)).toBe(
    true,
  );
  expect(own).not.toBeInstanceOf(InputProblem);
  const away = rankSettings(contest(score, { brief, transpositions: [spelled(-1)] }));
  expect(away.best.map(({ setting }) => setting.tuning.strings[6])).not.toContain("D3");
});

test("phrases move by an octave where that costs less, and only where they leave the range", () => {
  const score = shortScore("D3 A3 G3 F3 r A5 G5 F5 D5 r D3 F3 A3 D3");
  const asked = contest(score, { tunings: TUNINGS.slice(0, 1), transpositions: [spelled(0)], octaves: true });
  const [moved] = rankSettings(asked).best;
  const [still] = rankSettings({ ...asked, octaves: false }).best;
  expect(moved?.moves.map(({ octaves }) => octaves)).toEqual([-1]);
  expect(weigh((moved as NonNullable<typeof moved>).total)).toBeLessThan(
    weigh((still as NonNullable<typeof still>).total),
  );
  const inRange = rankSettings({ ...asked, score: shortScore("D3 A3 G3 F3 r D4 C4 A3") }).best[0];
  expect(inRange?.moves).toEqual([]);
  const allHigh = rankSettings({ ...asked, score: shortScore("A5 G5 F5 r D6 C6 A5") }).best[0];
  expect(allHigh?.moves).toEqual([]);
});
