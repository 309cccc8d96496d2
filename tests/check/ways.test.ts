// SPDX-License-Identifier: AGPL-3.0-or-later
// Fingerings that really differ, and figures kept on their places.
import { describe, expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { firstTime, placesOf } from "../../src/check/remedies/first-way.js";
import { sameFigures } from "../../src/check/same-figures.js";
import { LEAST_SHARE, waysOf } from "../../src/check/ways.js";
import { momentsOf } from "../../src/model/moments.js";
import type { Left } from "../../src/model/playing.js";
import type { Score } from "../../src/model/score.js";
import { weigh } from "../../src/rule/cost.js";
import { PLAIN_WEIGHTING } from "../../src/rule/weighting.js";
import type { Played } from "../../src/search/charges.js";
import { search } from "../../src/search/solve.js";
import { evaluate, faultsOf } from "../support/evaluator.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const setting = settingOf();
const rules = bookFor(setting);

function searchedIn(score: Score) {
  const moments = momentsOf(score, setting);
  const searched = search(choicesOf(moments, setting, rules), setting, rules);
  return { searched, played: { moments, ...searched.solution }, rules, weighting: PLAIN_WEIGHTING };
}

const places = ({ lefts }: Played): readonly string[] => lefts.map((left) => `${left.arrival} ${placesOf(left)}`);

describe.each(MELODIES)("%s", (name) => {
  const line = searchedIn(readMelody(name));
  const ways = waysOf(line, 4);

  test("every two ways lie elsewhere in a quarter of the notes, and none costs less than the first", () => {
    expect(ways[0]?.played).toBe(line.played);
    for (const [i, one] of ways.entries()) {
      expect(faultsOf(one.played, setting)).toEqual([]);
      expect(evaluate(one.played, rules)).toEqual(one.total);
      expect(weigh(one.total)).toBeGreaterThanOrEqual(line.searched.solution.weight);
      for (const other of ways.slice(i + 1)) {
        const theirs = places(other.played);
        const differ = places(one.played).filter((place, at) => place !== theirs[at]).length;
        expect(differ / theirs.length).toBeGreaterThanOrEqual(LEAST_SHARE);
      }
    }
  });
});

test("a line that can be played in one way only has no other", () => {
  expect(waysOf(searchedIn(shortScore("C2 D2 C2", ["san gou 1", "san gou 2", "san gou 1"])), 3)).toHaveLength(1);
});

/** The figure comes twice; what leads into it the second time draws the hand elsewhere. */
const TWICE = shortScore("D3 F3 G3 A3 D4 F4 A4 F4 D3 F3 G3 A3", [], 96);

test("a figure returns on its places when that is worth its price, and not when it costs more", () => {
  const line = searchedIn(TWICE);
  const now = [8, 9, 10, 11];
  expect(firstTime(now, line.played.moments)).toBe(0);
  const alike = ({ lefts }: { readonly lefts: readonly Left[] }): boolean =>
    now.every((at, i) => placesOf(lefts[at] as Left) === placesOf(lefts[i] as Left));
  const wanderers = (one: typeof line.searched) => (alike(one.solution) ? [] : [now]);
  const generous = sameFigures({ ...line, wanderers }, 5000);
  expect(alike(generous.searched.solution)).toBe(true);
  const more = generous.searched.solution.weight - line.searched.solution.weight;
  if (alike(line.searched.solution)) expect([generous.made, more]).toEqual([0, 0]);
  else {
    expect(generous.made).toBe(1);
    const stingy = sameFigures({ ...line, wanderers }, more - 1);
    expect([stingy.made, stingy.left]).toEqual([0, 1]);
    expect(stingy.searched.solution.weight).toBe(line.searched.solution.weight);
  }
  const played = { moments: line.played.moments, ...generous.searched.solution };
  expect(weigh(evaluate(played, rules))).toBe(generous.searched.solution.weight);
});
