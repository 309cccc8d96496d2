// SPDX-License-Identifier: AGPL-3.0-or-later
// The one place where a charge becomes a cost.

/** A cost: moves that cannot be played first, then effort in thousandths of a spare move. Both are whole and not negative. */
export interface Cost {
  readonly blocked: number;
  readonly effort: number;
}

/** Nothing. */
export const FREE: Cost = { blocked: 0, effort: 0 };

/** No rule charges more than this for one place, in spare moves: it keeps a block above any effort of a whole line. */
const HIGHEST_CHARGE = 5;

/** What one block weighs inside the search, in thousandths: more than the effort of the longest line. */
export const BLOCK = 2 ** 35;

/**
 * Whether a line of so many notes, each charged at most so often, stays below one block, so that effort never outweighs
 * a block, and below 2^53 with a few blocks a note, so that sums stay exact.
 */
export function fitsExactly(notes: number, chargesPerNote: number): boolean {
  return notes * chargesPerNote * 1000 * HIGHEST_CHARGE < BLOCK;
}

/** A charge in spare moves times its factor as whole thousandths, rounded once and cut off at {@link HIGHEST_CHARGE}. */
export function effortOf(charge: number, factor = 1): number {
  return Math.round(1000 * Math.min(charge * factor, HIGHEST_CHARGE));
}

/** Adds two costs. */
export function addCost(a: Cost, b: Cost): Cost {
  return { blocked: a.blocked + b.blocked, effort: a.effort + b.effort };
}

/** Whether one cost is less than another: what cannot be played counts first. */
export function isLess(a: Cost, b: Cost): boolean {
  return a.blocked < b.blocked || (a.blocked === b.blocked && a.effort < b.effort);
}

/** A cost as one exact number, for the search. */
export function weigh(cost: Cost): number {
  return cost.blocked * BLOCK + cost.effort;
}

/** The cost that {@link weigh} made a number of. */
export function unweigh(weight: number): Cost {
  const blocked = Math.floor(weight / BLOCK);
  return { blocked, effort: weight - blocked * BLOCK };
}
