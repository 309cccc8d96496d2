// SPDX-License-Identifier: AGPL-3.0-or-later
// The search of a line that is of interest only while it stays cheap: it is given up as soon as it cannot.
import type { Choice } from "../candidates/candidates.js";
import type { Setting } from "../model/setting.js";
import type { Rule } from "../rule/types.js";
import { advance, begin } from "./forward.js";
import type { Moves } from "./moves.js";
import { cheapest, Pass } from "./pass.js";
import { movesOf, type SearchOptions, type Solution } from "./solve.js";
import { handsAlong, layOut, type Step } from "./steps.js";
import { fullPath } from "./trace.js";

/** A line of which at least so much is known. */
export interface Bounded {
  /** no fingering weighs less; the exact weight where there is a solution */
  readonly floor: number;
  /** null where every fingering weighs more than the limit */
  readonly solution: Solution | null;
}

/**
 * The cheapest fingering of a line if it weighs no more than the limit.
 *
 * At every moment what the cheapest line up to it weighs, and for each later moment its cheapest place and stroke without
 * any move, is a floor under the whole: when the floor passes the limit, the rest need not be looked at.
 *
 * @param limit a weight, see `weigh`; Infinity to search in any case
 */
export function searchWithin(
  choices: readonly Choice[],
  setting: Setting,
  rules: readonly Rule[],
  options: SearchOptions,
  limit: number,
): Bounded {
  const moves = movesOf(choices, setting, rules, options);
  const steps = layOut(choices);
  const rest = floors(moves, steps, limit);
  let floor = rest[0] as number;
  const values: Float64Array[] = [];
  for (const [i, step] of steps.entries()) {
    if (floor > limit) return { floor, solution: null };
    const reached = i === 0 ? begin(moves, step) : advance(moves, steps, i, values[i - 1] as Float64Array);
    values.push(reached);
    floor = (reached[cheapest(reached)] as number) + (rest[i + 1] as number);
  }
  if (floor > limit) return { floor, solution: null };
  const path = fullPath(moves, steps, new Pass(values, new Float64Array(steps.length)));
  return { floor, solution: { ...handsAlong(steps, path), weight: floor } };
}

/**
 * For each moment, and behind the last, what it and all later ones weigh at least: their own charges without moves. When
 * they pass the limit, what comes before them is taken to weigh nothing.
 */
function floors(moves: Moves, steps: readonly Step[], limit: number): Float64Array {
  const rest = new Float64Array(steps.length + 1);
  for (let i = steps.length - 1; i >= 0; i--) {
    const later = rest[i + 1] as number;
    rest[i] = later > limit ? later : later + cheapestAlone(moves, i, steps[i] as Step);
  }
  return rest;
}

function cheapestAlone(moves: Moves, index: number, step: Step): number {
  const places = moves.places(index, step);
  const strikes = moves.strikes(index);
  const known = new Map<Int32Array, number>();
  let least = Number.POSITIVE_INFINITY;
  for (let l = 0; l < step.lefts.length; l++) {
    const ids = step.ids[l] as Int32Array;
    let struck = l < step.plucked ? known.get(ids) : 0;
    if (struck === undefined) {
      struck = ids.reduce((a, id) => Math.min(a, strikes[id] as number), Number.POSITIVE_INFINITY);
      known.set(ids, struck);
    }
    least = Math.min(least, (places[l] as number) + struck);
  }
  return least;
}
