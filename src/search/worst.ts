// SPDX-License-Identifier: AGPL-3.0-or-later
// The line whose worst moment is the easiest. A moment is one charge of one rule at one place: for the sum of both hands
// the split of the search would not hold.
import { unweigh } from "../rule/cost.js";
import type { Searched } from "./solve.js";

/** A search under a ceiling, and the largest single charge of its best line in thousandths. */
export interface Bounded {
  readonly searched: Searched;
  readonly worst: number;
}

/**
 * Lowers the ceiling below the worst charge of the best line again and again, until more would be blocked than must be.
 * The last line is exact in both: no line has a smaller largest charge, and of those that have it none costs less, since
 * it was the cheapest under a ceiling that lies not below its own.
 *
 * @param free    the line without a ceiling
 * @param under   the same search under a ceiling, in thousandths
 * @param worstOf the largest charge of a line in thousandths, counting those that block nothing
 */
export function easiestWorst(
  free: Searched,
  under: (ceiling: number) => Searched,
  worstOf: (searched: Searched) => number,
): Bounded {
  const { blocked } = unweigh(free.solution.weight);
  let best: Bounded = { searched: free, worst: worstOf(free) };
  while (best.worst > 0) {
    const searched = under(best.worst - 1);
    if (unweigh(searched.solution.weight).blocked > blocked) break;
    best = { searched, worst: worstOf(searched) };
  }
  return best;
}
