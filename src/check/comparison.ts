import type { Brief } from "../model/brief.js";
import type { Moment } from "../model/moments.js";
import type { Left, Right } from "../model/playing.js";
import { type Cost, isLess } from "../rule/cost.js";
import { holds, isGiven } from "../rule/weighting.js";
import { chargesOf, type Played, playedBy, totalOf } from "../search/charges.js";
import type { Toll } from "../search/moves.js";
import { readingAt } from "./check.js";
import { contrastOf, type Run } from "./contrast.js";
import { type LineTerms, type OpenLine, openLine } from "./open-line.js";

/** One note that is played in another way. */
export interface ChangedNote {
  readonly note: string;
  readonly from: string;
  readonly to: string;
}

/** A line that costs less than the writer's, by some changes of it. */
export interface BetterLine {
  readonly played: Played;
  readonly total: Cost;
  readonly changes: readonly ChangedNote[];
  /** what each changed place saves and costs */
  readonly runs: readonly Run[];
}

/**
 * What a change must save to be worth it, in thousandths: each gives the line that is cheapest when every hand and every
 * stroke that leaves the writer's way costs so much. The last is the best line of all.
 */
const WORTH = [1000, 400, 0] as const;

/** A judged line of a writer. */
export interface WrittenLine extends LineTerms {
  readonly brief: Brief;
  readonly played: Played;
}

/**
 * The best line of all with the writer's hands and strokes among the others: it never costs more than the writer's. Only
 * where the writer's own way is meant to struggle is it left as it is.
 */
export function bestLine(line: WrittenLine): Played {
  return leaving(line, openLine(line), 0);
}

/** The cheapest line when every hand and every stroke that leaves the writer's way costs so much. */
function leaving(line: WrittenLine, open: OpenLine, worth: number): Played {
  return playedBy(line.played.moments, open.searched.retolled(tollsOfLeaving(line, worth)).solution);
}

/** For each moment what leaving the writer's way costs; where it is meant to struggle it is not left. */
export function tollsOfLeaving({ played, brief }: WrittenLine, worth: number): readonly Toll[] {
  return played.moments.map((moment, at) => {
    const meant = isGiven(moment) && brief.passages.some((one) => one.character === "struggling" && holds(one, moment));
    return tollAt(played, at, meant ? Number.POSITIVE_INFINITY : worth);
  });
}

/**
 * Lines that cost less than the writer's, fewest changes first; each costs less than the one before. Empty where the
 * writer's line is the best.
 */
export function betterLines(line: WrittenLine, open = openLine(line)): readonly BetterLine[] {
  const { rules, weighting, played } = line;
  const better: BetterLine[] = [];
  let least = totalOf(chargesOf(played, rules, weighting));
  for (const worth of WORTH) {
    const then = leaving(line, open, worth);
    const total = totalOf(chargesOf(then, rules, weighting));
    const changes = changesBetween(played, then);
    if (!isLess(total, least) || changes.length === 0) continue;
    least = total;
    better.push({ played: then, total, changes, runs: contrastOf(played, then, rules, weighting).runs });
  }
  return better;
}

function isSameHand(a: Left, b: Left): boolean {
  if (a.arrival !== b.arrival || a.placed.length !== b.placed.length) return false;
  return a.placed.every((placed, i) => {
    const other = b.placed[i];
    const samePlace =
      placed.string === other?.string && placed.position === other.position && placed.sound === other.sound;
    return samePlace && placed.finger === other.finger && placed.contact === other.contact;
  });
}

/** What it costs to play a moment otherwise than a line does. */
export function tollAt(played: Played, at: number, worth: number): Toll {
  const own = played.lefts[at] as Left;
  const stroke = played.rights[at] as Right;
  return {
    left: (left) => (isSameHand(left, own) ? 0 : worth),
    right: (right) => (right.stroke === stroke.stroke && right.innerStroke === stroke.innerStroke ? 0 : worth),
  };
}

/** The notes of which two lines have other readings, from one moment to another, both included. */
export function changesBetween(
  played: Played,
  then: Played,
  first = 0,
  last = played.moments.length - 1,
): readonly ChangedNote[] {
  return played.moments.slice(first, last + 1).flatMap((moment: Moment) => {
    const from = readingAt(played, moment.index);
    const to = readingAt(then, moment.index);
    return from === to ? [] : [{ note: moment.notes[0]?.source.id ?? "", from, to }];
  });
}
