// SPDX-License-Identifier: AGPL-3.0-or-later
// Figures that return, kept on their places wherever that costs no more than somebody is ready to pay.
import type { Left } from "../model/playing.js";
import { unweigh } from "../rule/cost.js";
import type { Played } from "../search/charges.js";
import type { Searched } from "../search/solve.js";
import { firstTime, placesOf } from "./remedies/first-way.js";

/** A line in which figures were made alike. */
export interface Alike {
  readonly searched: Searched;
  /** figures that now lie as the first time */
  readonly made: number;
  /** figures for which that would have cost too much */
  readonly left: number;
}

/** The line to begin with. */
export interface Wandering {
  readonly played: Pick<Played, "moments">;
  readonly searched: Searched;
  /** the moments, in a row, of each figure that returns in other places, in order of time */
  readonly wanderers: (searched: Searched) => readonly (readonly number[])[];
}

/** New figures can begin to wander when others are moved, so it is looked again at most so often. */
const ROUNDS = 4;

/**
 * Takes each figure that returns elsewhere and searches again with both times on the places of the first, and on those
 * of the return; the cheaper is kept if it costs at most so much more than the line before it.
 *
 * @param price thousandths of a spare move for one figure
 */
export function sameFigures({ played, searched, wanderers }: Wandering, price: number): Alike {
  let line = { searched, pinned: new Map<number, string>() as ReadonlyMap<number, string> };
  let made = 0;
  const refused = new Set<string>();
  for (let round = 0; round < ROUNDS; round++) {
    const before = made;
    for (const now of wanderers(line.searched)) {
      const next = alike(line, now, played);
      if (next === null || !isWorth(next.searched, line.searched, price)) {
        refused.add(now.join());
        continue;
      }
      line = next;
      made += 1;
    }
    if (made === before) break;
  }
  const left = wanderers(line.searched).filter((now) => refused.has(now.join())).length;
  return { searched: line.searched, made, left };
}

interface Pinned {
  readonly searched: Searched;
  /** places that figures were put on, by moment */
  readonly pinned: ReadonlyMap<number, string>;
}

function isWorth(next: Searched, before: Searched, price: number): boolean {
  const more = next.solution.weight - before.solution.weight;
  return unweigh(next.solution.weight).blocked <= unweigh(before.solution.weight).blocked && more <= price;
}

/** The cheaper of the two ways to make a figure and its first time alike; null where there is none. */
function alike(line: Pinned, now: readonly number[], { moments }: Wandering["played"]): Pinned | null {
  const earlier = firstTime(now, moments);
  if (earlier === null) return null;
  const then = now.map((_, i) => earlier + i);
  const { lefts } = line.searched.solution;
  const ways = [then, now].flatMap((models) => put(line, [then, now], models, lefts));
  return ways.sort((a, b) => a.searched.solution.weight - b.searched.solution.weight)[0] ?? null;
}

/** The line with all of these moments on the places of the models; none where one of them was put elsewhere before. */
function put(
  line: Pinned,
  times: readonly (readonly number[])[],
  models: readonly number[],
  lefts: readonly Left[],
): readonly Pinned[] {
  let { searched } = line;
  const pinned = new Map(line.pinned);
  for (const [i, model] of models.entries()) {
    const place = placesOf(lefts[model] as Left);
    for (const moments of times) {
      const at = moments[i] as number;
      if ((pinned.get(at) ?? place) !== place) return [];
      if (pinned.has(at)) continue;
      pinned.set(at, place);
      searched = searched.tolling(at, {
        left: (left) => (placesOf(left) === place ? 0 : Number.POSITIVE_INFINITY),
        right: () => 0,
      });
      if (!Number.isFinite(searched.solution.weight)) return [];
    }
  }
  return [{ searched, pinned }];
}
