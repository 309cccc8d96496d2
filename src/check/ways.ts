// SPDX-License-Identifier: AGPL-3.0-or-later
// A few fingerings of one line that really differ. The many lines that cost nearly as little differ in a stroke or a
// waiting finger; these lie in other places, which one sees and hears.
import type { Left } from "../model/playing.js";
import { type Cost, weigh } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import type { Weighting } from "../rule/weighting.js";
import { chargesOf, type Played, playedBy, totalOf } from "../search/charges.js";
import type { Toll } from "../search/moves.js";
import type { Searched } from "../search/solve.js";
import type { Said } from "../words.js";
import { contrastOf, type Run } from "./contrast.js";
import { placeName } from "./place-name.js";
import { traitsOf } from "./traits.js";

/** One fingering among several. */
export interface Way {
  readonly played: Played;
  readonly total: Cost;
  /** moments that lie elsewhere than in the first way, as a share of all */
  readonly elsewhere: number;
  /** what sets it apart from the first way, in words; empty for the first */
  readonly traits: readonly Said[];
  /** where it parts from the first way, with what each place saves and costs */
  readonly runs: readonly Run[];
}

/** Every two ways place at least this share of the notes differently (our judgement). */
export const LEAST_SHARE = 0.25;

/** What a note may cost more so that it lies elsewhere, in thousandths, from a little to more than any place is worth. */
const BONUSES = [50, 100, 200, 400, 800, 1600, 3200, 6400] as const;

/** A line of which other ways are wanted. */
export interface Varied {
  readonly rules: readonly Rule[];
  readonly weighting: Weighting;
  readonly played: Played;
  /** the search that found it; what it forbids stays forbidden */
  readonly searched: Searched;
}

/**
 * So many different fingerings, the line itself first. Each next one is the cheapest when every note that lies where an
 * earlier way has it costs a bonus more, with the least bonus that makes it differ enough; they are listed cheapest first.
 * Fewer where there are no more.
 */
export function waysOf(line: Varied, count: number): readonly Way[] {
  const ways: Way[] = [wayOf(line.played, line, line.played)];
  while (ways.length < count) {
    const next = nextWay(line, ways);
    if (next === null) break;
    ways.push(next);
  }
  const [first, ...others] = ways;
  return [first as Way, ...others.sort((a, b) => weigh(a.total) - weigh(b.total))];
}

function nextWay(line: Varied, ways: readonly Way[]): Way | null {
  for (const bonus of BONUSES) {
    const tolls = line.played.moments.map((_, at): Toll => {
      const taken = ways.map((way) => placeName(way.played.lefts[at] as Left));
      return {
        left: (left) => {
          const place = placeName(left);
          return bonus * taken.filter((one) => one === place).length;
        },
        right: () => 0,
      };
    });
    const played = playedBy(line.played.moments, line.searched.retolled(tolls).solution);
    if (ways.every((way) => shareElsewhere(way.played, played) >= LEAST_SHARE)) return wayOf(played, line, line.played);
  }
  return null;
}

function wayOf(played: Played, { rules, weighting }: Varied, first: Played): Way {
  return {
    played,
    total: totalOf(chargesOf(played, rules, weighting)),
    elsewhere: shareElsewhere(first, played),
    traits: traitsOf(first, played),
    runs: played === first ? [] : contrastOf(first, played, rules, weighting).runs,
  };
}

/** The share of moments that lie in other places. */
function shareElsewhere(a: Played, b: Played): number {
  const differ = a.lefts.filter((left, at) => placeName(left) !== placeName(b.lefts[at] as Left)).length;
  return differ / Math.max(1, a.lefts.length);
}
