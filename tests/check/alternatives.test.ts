// SPDX-License-Identifier: AGPL-3.0-or-later
// Another way to play a note costs what the melody costs when somebody writes that way down.
import { describe, expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { alternativesOf } from "../../src/check/alternatives.js";
import { readingAt } from "../../src/check/check.js";
import { type Moment, momentsOf } from "../../src/model/moments.js";
import type { Score } from "../../src/model/score.js";
import { weigh } from "../../src/rule/cost.js";
import { PLAIN_WEIGHTING } from "../../src/rule/weighting.js";
import { search } from "../../src/search/solve.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { bookFor, settingOf } from "../support/playing.js";
import { given, shortScore } from "../support/shorthand.js";
import { scatter } from "../support/small-lines.js";

const setting = settingOf();
const rules = bookFor(setting);

function searchedIn(score: Score, change: (moment: Moment) => Moment = (moment) => moment) {
  const moments = momentsOf(score, setting).map(change);
  const choices = choicesOf(moments, setting, rules);
  const searched = search(choices, setting, rules);
  const played = { moments, lefts: searched.solution.lefts, rights: searched.solution.rights };
  return { searched, played, line: { setting, rules, choices, weighting: PLAIN_WEIGHTING, played, searched } };
}

/** The moment's only note as this reading says. */
const wishing = (at: number, reading: string) => (moment: Moment) =>
  moment.index !== at
    ? moment
    : { ...moment, notes: moment.notes.map((note) => ({ ...note, given: { ...given(reading), written: false } })) };

/** Writes some of the ways down and compares. */
function compare(score: Score, draws: number): number {
  const { line, searched, played } = searchedIn(score);
  const ways = alternativesOf(line);
  let compared = 0;
  for (let draw = 0; draw < draws; draw++) {
    const at = scatter(draw, 5) % ways.length;
    const [here = [], second] = ways[at] ?? [];
    const way = here[scatter(draw, 6) % Math.max(1, here.length)];
    // A reading of a slide or a chord says less than its hands: shang 7.6 does not name the finger.
    if (way === undefined || second !== undefined || way.left.chain > 0) continue;
    expect(weigh(way.total)).toBeGreaterThanOrEqual(
      played.moments[at]?.notes[0]?.given.text ? 0 : searched.solution.weight,
    );
    const written = searchedIn(score, wishing(at, way.reading));
    expect(written.searched.solution.weight, `moment ${at}: ${way.reading}`).toBe(weigh(way.total));
    compared += 1;
  }
  return compared;
}

describe.each(MELODIES)("%s", (name) => {
  test("a way costs what it costs when it is written down", () => {
    expect(compare(readMelody(name), 8)).toBeGreaterThan(2);
  });
});

const WRITTEN = shortScore(
  "C3 D3 F3 G3 (A3 G3) F3 D3 C3",
  ["ming 10 gou 4", "san tiao 7", "-", "ming 9 mo 6", "da 9 mo 7", "xia 10", "gou 5", "ming 9 gou 4", "fan 5 gou 1"],
  80,
);

test("in a written line only the note itself is set free", () => {
  expect(compare(WRITTEN, 60)).toBeGreaterThan(15);
});

test("each place is listed once, and at the place that is played every other finger and stroke", () => {
  const { line, played } = searchedIn(WRITTEN);
  const ways = alternativesOf(line);
  for (const [at, [here = []]] of ways.entries()) {
    const readings = here.map((way) => way.reading);
    expect(new Set(readings).size, readings.join()).toBe(readings.length);
    expect(readings).not.toContain(readingAt(played, at));
    const costs = here.map((way) => weigh(way.total));
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
  }
  expect(ways[1]?.[0]?.map((way) => way.reading)).toContain("san mo 7");
});
