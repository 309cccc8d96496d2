// SPDX-License-Identifier: AGPL-3.0-or-later
// What must hold of any exact search, whatever the rule book says.
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { type Choice, choicesOf } from "../../src/candidates/candidates.js";
import { readingOf } from "../../src/check/check.js";
import { momentsOf } from "../../src/model/moments.js";
import type { Left } from "../../src/model/playing.js";
import type { Score } from "../../src/model/score.js";
import type { Rule } from "../../src/rule/types.js";
import type { Played } from "../../src/search/charges.js";
import { solve } from "../../src/search/solve.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { given, shortScore } from "../support/shorthand.js";
import { choicesIn, scatter, smallLine, thin } from "../support/small-lines.js";

const setting = settingOf();
const rules = bookFor(setting);
const WIDE = { plucked: 30, unplucked: 20, strokes: 6 };
const RUNS = { numRuns: 80, seed: 1589 };

const weightOf = (choices: readonly Choice[]): number => solve(choices, setting, rules).weight;

/** The score with the whole found fingering given, as its spoken reading says it, and not as a wish of the writer. */
function pinned(score: Score, played: Played): Score {
  const readings = new Map(
    played.lefts.flatMap((left, at) =>
      left.placed.map((placed) => {
        const id = played.moments[at]?.notes[placed.note]?.source.id ?? "";
        return [id, readingOf(played, at, placed)] as const;
      }),
    ),
  );
  return {
    ...score,
    notes: score.notes.map((note) => {
      const reading = readings.get(note.id);
      return reading === undefined ? note : { ...note, given: { ...given(reading), written: false } };
    }),
  };
}

function costOf(score: Score): { weight: number; played: Played } {
  const moments = momentsOf(score, setting);
  const { lefts, rights, weight } = solve(choicesOf(moments, setting, rules), setting, rules);
  return { weight, played: { moments, lefts, rights } };
}

test.each(MELODIES)("giving the whole fingering that was found changes no cost: %s", (name) => {
  const score = readMelody(name);
  const free = costOf(score);
  expect(costOf(pinned(score, free.played)).weight).toBe(free.weight);
});

test("giving the whole fingering that was found changes no cost: small lines", () => {
  fc.assert(
    fc.property(smallLine(6), ({ melody, tempo }) => {
      const score = shortScore(melody, [], tempo);
      const free = costOf(score);
      expect(costOf(pinned(score, free.played)).weight).toBe(free.weight);
    }),
    RUNS,
  );
});

test("fewer candidates never cost less", () => {
  fc.assert(
    fc.property(smallLine(6), (line) => {
      const choices = choicesIn(line, setting, rules);
      const fewer = thin(choices, WIDE, line.salt, setting);
      const fewest = thin(fewer, { plucked: 12, unplucked: 8, strokes: 3 }, line.salt + 1, setting);
      const least = weightOf(choices.slice(0, fewest.length));
      const less = weightOf(fewer.slice(0, fewest.length));
      expect(less).toBeGreaterThanOrEqual(least);
      expect(weightOf(fewest)).toBeGreaterThanOrEqual(less);
    }),
    RUNS,
  );
});

/** The same hands in another order; plucked ones stay in front. */
function shuffled(choice: Choice, at: number, salt: number): Choice {
  const shuffle = (lefts: readonly Left[]): readonly Left[] =>
    lefts
      .map((left, i) => ({ left, rank: scatter(salt + at, i) }))
      .sort((a, b) => a.rank - b.rank)
      .map(({ left }) => left);
  const plucked = shuffle(choice.lefts.slice(0, choice.plucked));
  return { ...choice, lefts: [...plucked, ...shuffle(choice.lefts.slice(choice.plucked))], pluckedList: -1 - at };
}

test("the order of candidates changes no cost", () => {
  fc.assert(
    fc.property(smallLine(6), (line) => {
      const choices = choicesIn(line, setting, rules);
      const other = choices.map((choice, at) => shuffled(choice, at, line.salt));
      expect(weightOf(other)).toBe(weightOf(choices));
    }),
    RUNS,
  );
});

/** A rule that charges every way to play one moment alike. */
function toll(at: number, spareMoves: number): Rule {
  const [model] = rules.filter((rule) => rule.reach === "place");
  if (model?.reach !== "place") throw new Error("the book holds no rule of places");
  const measure = (...[placed, , , moment]: Parameters<typeof model.measure>): number =>
    placed !== null && moment.index === at && placed.note === 0 ? 1 : Number.NaN;
  const { withholds: _, limitAt: __, blocks: ___, ...plain } = model;
  return { ...plain, id: "toll", measure, charge: () => spareMoves };
}

test("a toll on every way to play one note is paid exactly once, and the line stays", () => {
  fc.assert(
    fc.property(smallLine(5), fc.nat(4), (line, at) => {
      const choices = thin(choicesIn(line, setting, rules), WIDE, line.salt, setting);
      const everyWay = choices[at]?.lefts.every((left) => left.placed.some((placed) => placed.note === 0)) ?? false;
      fc.pre(everyWay);
      const free = solve(choices, setting, rules);
      const taxed = solve(choices, setting, [...rules, toll(at, 1.25)]);
      expect(taxed.weight).toBe(free.weight + 1250);
      expect(taxed.lefts).toEqual(free.lefts);
      expect(taxed.rights).toEqual(free.rights);
    }),
    RUNS,
  );
});

test("a line costs at least as much as its beginning", () => {
  fc.assert(
    fc.property(smallLine(6), fc.integer({ min: 1, max: 5 }), (line, length) => {
      const choices = choicesIn(line, setting, rules);
      expect(weightOf(choices)).toBeGreaterThanOrEqual(weightOf(choices.slice(0, length)));
    }),
    RUNS,
  );
});
