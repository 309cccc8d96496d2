// SPDX-License-Identifier: AGPL-3.0-or-later
// On whole melodies: the search, its bill and the slow evaluator name one cost, and no other line is cheaper.
import { describe, expect, test } from "vitest";
import { type Choice, choicesOf } from "../../src/candidates/candidates.js";
import { readingOf } from "../../src/check/check.js";
import { type Brief, NO_BRIEF, type Passage, type Pin, type Span } from "../../src/model/brief.js";
import { momentsOf } from "../../src/model/moments.js";
import { type Left, type Right, rightAt } from "../../src/model/playing.js";
import type { Score } from "../../src/model/score.js";
import type { Setting } from "../../src/model/setting.js";
import { unweigh, weigh } from "../../src/rule/cost.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { chargesOf, totalOf } from "../../src/search/charges.js";
import { solve } from "../../src/search/solve.js";
import { evaluate, faultsAt, faultsOf } from "../support/evaluator.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { given, shortScore } from "../support/shorthand.js";
import { scatter } from "../support/small-lines.js";

/** A legal line taken blindly; null where the dice lead into a note that only another hand could reach. */
function blindLine(choices: readonly Choice[], setting: Setting, salt: number) {
  const moments = choices.map((choice) => choice.moment);
  const lefts: Left[] = [];
  const rights: Right[] = [];
  for (const [at, choice] of choices.entries()) {
    const standing = rights[at - 1];
    const legal = choice.lefts.flatMap((left) => {
      const strokes = left.chain > 0 ? (standing === undefined ? [] : [standing]) : offered(left, choice);
      return strokes
        .map((right) => ({ left, right }))
        .filter(({ right }) => {
          const line = { moments, lefts: [...lefts, left], rights: [...rights, right] };
          return left.chain === 0 || faultsAt(line, at, setting).length === 0;
        });
    });
    const taken = legal[scatter(salt, at) % legal.length];
    if (taken === undefined) return null;
    lefts.push(taken.left);
    rights.push(taken.right);
  }
  return { moments, lefts, rights };
}

function offered(left: Left, choice: Choice): readonly Right[] {
  const offered = [...choice.rights.keys()].filter((id) => choice.rights[id] === 1).map(rightAt);
  return offered.filter((right) => right.strings === left.strings);
}

const SETTINGS = [settingOf(), settingOf({ tuning: "manjue", temperament: "equal", hand: "small" })];

describe.each(MELODIES)("%s", (name) => {
  const score = readMelody(name);

  test.each(SETTINGS)("search, bill and evaluator agree ($tuning.name)", (setting) => {
    const rules = bookFor(setting);
    const moments = momentsOf(score, setting);
    const { lefts, rights, weight } = solve(choicesOf(moments, setting, rules), setting, rules);
    const line = { moments, lefts, rights };
    expect(faultsOf(line, setting)).toEqual([]);
    expect(evaluate(line, rules)).toEqual(unweigh(weight));
    expect(totalOf(chargesOf(line, rules))).toEqual(unweigh(weight));
  });

  test("no line taken blindly is cheaper", () => {
    const setting = settingOf();
    const rules = bookFor(setting);
    const choices = choicesOf(momentsOf(score, setting), setting, rules).slice(0, 24);
    const best = solve(choices, setting, rules).weight;
    const lines = Array.from({ length: 12 }, (_, salt) => blindLine(choices, setting, salt)).filter(
      (line) => line !== null,
    );
    expect(lines.length).toBeGreaterThan(0);
    for (const line of lines) {
      expect(faultsOf(line, setting)).toEqual([]);
      expect(weigh(evaluate(line, rules))).toBeGreaterThanOrEqual(best);
      expect(totalOf(chargesOf(line, rules))).toEqual(evaluate(line, rules));
    }
  });
});

/** Bars as a brief counts them, from the first. */
const bars = (from: number, to: number): Span => ({ fromBar: from - 1, toBar: to - 1, text: `${from}-${to}` });

/** Hands pinned as another search found them, on every other note. */
function pinsOf(score: Score, setting: Setting): readonly Pin[] {
  const rules = bookFor(setting);
  const moments = momentsOf(score, setting);
  const { lefts, rights } = solve(choicesOf(moments, setting, rules), setting, rules);
  const played = { moments, lefts, rights };
  return lefts.flatMap((left, at) => {
    const { first, second } = left;
    const note = moments[at]?.notes[0]?.source.id;
    if (at % 2 > 0 || first === null || second !== null || note === undefined) return [];
    return [{ note, given: given(readingOf(played, at, first)), place: "test", text: "" }];
  });
}

/** Briefs that weigh, let flow, struggle, accept and pin, over spans that overlap. */
function briefsFor(score: Score): readonly Brief[] {
  const weights = { "hand-shift": 2.4, "string-leap": 0, "alternate-strokes": 0.35, "few-open-strings": 3 };
  const flowing: Passage = { ...bars(2, 5), character: "flowing", reason: null, harmonics: false };
  const struggling: Passage = { ...bars(4, 8), character: "struggling", reason: "a climb", harmonics: false };
  const accept = ["string-leap", "hand-shift", "retained-finger"].map((rule) => ({ ...bars(3, 6), rule, reason: "x" }));
  return [
    { ...NO_BRIEF, weights },
    { ...NO_BRIEF, passages: [flowing], accept },
    { ...NO_BRIEF, weights, passages: [flowing, struggling], accept, pins: pinsOf(score, settingOf()) },
  ];
}

describe.each(MELODIES)("%s under briefs", (name) => {
  const score = readMelody(name);
  const setting = settingOf();
  const rules = bookFor(setting);

  test("search, bill and evaluator agree, and no line taken blindly is cheaper", () => {
    let tried = 0;
    for (const brief of briefsFor(score)) {
      const moments = momentsOf(score, setting, brief);
      const weighting = weightingOf(brief, moments, rules);
      const choices = choicesOf(moments, setting, rules);
      const { lefts, rights, weight } = solve(choices, setting, rules, { weighting });
      const line = { moments, lefts, rights };
      expect(faultsOf(line, setting)).toEqual([]);
      expect(weigh(evaluate(line, rules, brief))).toBe(weight);
      expect(totalOf(chargesOf(line, rules, weighting))).toEqual(unweigh(weight));
      const blind = [0, 1, 2, 3].flatMap((salt) => blindLine(choices.slice(0, 24), setting, salt) ?? []);
      const best = solve(choices.slice(0, 24), setting, rules, { weighting }).weight;
      for (const other of blind) expect(weigh(evaluate(other, rules, brief))).toBeGreaterThanOrEqual(best);
      tried += blind.length;
    }
    expect(tried).toBeGreaterThan(3);
  });
});

test("briefs change what the cheapest line costs", () => {
  const score = readMelody("four-walks-round-the-pond");
  const setting = settingOf();
  const rules = bookFor(setting);
  const costs = [NO_BRIEF, ...briefsFor(score)].map((brief) => {
    const moments = momentsOf(score, setting, brief);
    const weighting = weightingOf(brief, moments, rules);
    return solve(choicesOf(moments, setting, rules), setting, rules, { weighting }).weight;
  });
  expect(new Set(costs).size).toBe(costs.length);
});

/** What chance seldom brings together: the same hands twice over one length of time, once across a rest; long chains. */
const RARE: readonly (readonly [string, string, readonly string[]])[] = [
  ["a held note and a rest of one length", "F#2:2 C#4 F#2 r C#4", []],
  ["a rest first, then a held note", "F#2 r C#4 F#2:2 C#4", []],
  ["a short silence and none", "F#2 C#4 F#2:1/2 r:1/2 C#4 F#2 C#4", []],
  [
    "the second slide comes too late after its pluck",
    "(D2:3/2 F2:3/2 G2:3/2)",
    ["ming 13.1 gou 1", "shang 10", "shang 9"],
  ],
  [
    "a stroke after two notes without a pluck",
    "C3 D2 F2 G2 G2",
    ["san gou 6", "ming 13.1 gou 1", "shang 10", "shang 9", "san gou 4"],
  ],
];

test.each(RARE)("search and evaluator agree: %s", (_, melody, fingering) => {
  const setting = settingOf();
  const rules = bookFor(setting);
  const moments = momentsOf(shortScore(melody, fingering), setting);
  const { lefts, rights, weight } = solve(choicesOf(moments, setting, rules), setting, rules);
  const line = { moments, lefts, rights };
  expect(faultsOf(line, setting)).toEqual([]);
  expect(evaluate(line, rules)).toEqual(unweigh(weight));
});
