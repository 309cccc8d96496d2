// SPDX-License-Identifier: AGPL-3.0-or-later
// A fingering that somebody wrote beside better ones: with few changes, with more, and the best of all.
import { choicesOf } from "../candidates/candidates.js";
import { openedUp } from "../candidates/opened.js";
import type { Moment } from "../model/moments.js";
import type { Left, Right } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import type { Cost } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import type { Weighting } from "../rule/weighting.js";
import { chargesOf, type Played, totalOf } from "../search/charges.js";
import type { Toll } from "../search/moves.js";
import { search } from "../search/solve.js";
import { readingAt } from "./check.js";

/** One note that is played in another way. */
export interface ChangedNote {
  readonly note: string;
  readonly from: string;
  readonly to: string;
}

/** A line that costs less than the writer's, by some changes of it. */
export interface BetterLine {
  readonly total: Cost;
  readonly changes: readonly ChangedNote[];
}

/**
 * What a change must save to be worth it, in thousandths: each gives the line that is cheapest when every hand and every
 * stroke that leaves the writer's way costs so much. The last is the best line of all.
 */
const WORTH = [1000, 400, 0] as const;

/** A judged line of a writer. */
export interface WrittenLine {
  readonly setting: Setting;
  readonly rules: readonly Rule[];
  readonly weighting: Weighting;
  readonly played: Played;
}

/**
 * Lines that cost less than the writer's, fewest changes first; each costs less than the one before. Empty where the
 * writer's line is the best.
 */
export function betterLines(line: WrittenLine): readonly BetterLine[] {
  const { setting, rules, weighting, played } = line;
  const { choices } = openedUp(choicesOf(played.moments, setting, rules), setting, rules);
  const free = search(choices, setting, rules, { weighting });
  const better: BetterLine[] = [];
  let least = totalOf(chargesOf(played, rules, weighting));
  for (const worth of WORTH) {
    const tolls = played.moments.map((_, at) => tollAt(played, at, worth));
    const { lefts, rights } = free.retolled(tolls).solution;
    const then = { moments: played.moments, lefts, rights };
    const total = totalOf(chargesOf(then, rules, weighting));
    const changes = changesBetween(played, then);
    if (!isLess(total, least) || changes.length === 0) continue;
    least = total;
    better.push({ total, changes });
  }
  return better;
}

const isLess = (a: Cost, b: Cost): boolean => a.blocked < b.blocked || (a.blocked === b.blocked && a.effort < b.effort);

function isSameHand(a: Left, b: Left): boolean {
  if (a.arrival !== b.arrival || a.placed.length !== b.placed.length) return false;
  return a.placed.every((placed, i) => {
    const other = b.placed[i];
    const samePlace =
      placed.string === other?.string && placed.position === other.position && placed.sound === other.sound;
    return samePlace && placed.finger === other.finger && placed.contact === other.contact;
  });
}

function tollAt(played: Played, at: number, worth: number): Toll {
  const own = played.lefts[at] as Left;
  const stroke = played.rights[at] as Right;
  return {
    left: (left) => (isSameHand(left, own) ? 0 : worth),
    right: (right) => (right.stroke === stroke.stroke && right.innerStroke === stroke.innerStroke ? 0 : worth),
  };
}

function changesBetween(played: Played, then: Played): readonly ChangedNote[] {
  return played.moments.flatMap((moment: Moment, at) => {
    const from = readingAt(played, at);
    const to = readingAt(then, at);
    return from === to ? [] : [{ note: moment.notes[0]?.source.id ?? "", from, to }];
  });
}
