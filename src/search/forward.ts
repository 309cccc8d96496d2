// SPDX-License-Identifier: AGPL-3.0-or-later
// The forward pass. Left and right hand meet only in the string, so a step is two small minimisations:
//   A[L', r]   = min over r' of  best'[L', r'] + strokeMove(r', r)
//   best[L, r] = place(L) + strike(r) + min over L' of  A[L', r] + handMove(L', L)
// A note without a pluck keeps r. Costs are whole numbers in doubles, so equality is exact.
import type { Left } from "../model/playing.js";
import { carriesInto } from "./carry.js";
import { minPlus, strikeFrom } from "./min-plus.js";
import type { Moves } from "./moves.js";
import { countStates, type Step } from "./steps.js";
import type { StrokeMoves } from "./tables.js";

/** What the cheapest line up to each state of the first moment costs: the hands may come from anywhere. */
export function begin(moves: Moves, step: Step): Float64Array {
  const best = new Float64Array(countStates(step)).fill(Number.POSITIVE_INFINITY);
  const strike = moves.strikes(0);
  for (let l = 0; l < step.plucked; l++) {
    const left = step.lefts[l] as Left;
    const arrive = moves.place(0, left) + moves.start(left);
    for (const [j, id] of (step.ids[l] as Int32Array).entries())
      best[(step.from[l] as number) + j] = arrive + (strike[id] as number);
  }
  return best;
}

/**
 * What the cheapest line up to each state of a moment costs.
 *
 * @param values the same for the moment before
 */
export function advance(moves: Moves, steps: readonly Step[], index: number, values: Float64Array): Float64Array {
  const before = steps[index - 1] as Step;
  const step = steps[index] as Step;
  const best = new Float64Array(countStates(step)).fill(Number.POSITIVE_INFINITY);
  const place = moves.places(index, step);
  pluck(moves, index, { before, step, values, place, best });
  for (const { from, to, count, cost } of carriesInto(moves, index, before, step, place))
    for (let j = 0; j < count; j++) {
      const value = (values[from + j] as number) + cost;
      if (value < (best[to + j] as number)) best[to + j] = value;
    }
  return best;
}

interface Passage {
  readonly before: Step;
  readonly step: Step;
  readonly values: Float64Array;
  readonly place: Float64Array;
  readonly best: Float64Array;
}

/** Plucked (and silent) hands: first the stroke is chosen, then the hand before. */
function pluck(moves: Moves, index: number, { before, step, values, place, best }: Passage): void {
  if (step.plucked === 0) return;
  const table = moves.handTable(index, before, step);
  const strokes = moves.strokesAfter(index, before);
  const strike = moves.strikes(index);
  const width = before.groups.length;
  const reached = new Map<number, Float64Array>();
  for (let l = 0; l < step.plucked; l++) {
    const ids = step.ids[l] as Int32Array;
    const strings = (step.lefts[l] as Left).strings.id;
    let row = reached.get(strings);
    if (row === undefined) {
      row = reach(before, values, strokes, ids);
      reached.set(strings, row);
    }
    const from = step.from[l] as number;
    minPlus(row, table, l * width, width, ids.length, best, from);
    const own = place[l] as number;
    for (let j = 0; j < ids.length; j++)
      best[from + j] = (best[from + j] as number) + own + (strike[ids[j] as number] as number);
  }
}

/** A: for each stroke of `ids` and each group of hands before, the cheapest way to have struck it from there. */
function reach(before: Step, values: Float64Array, strokes: readonly StrokeMoves[], ids: Int32Array): Float64Array {
  const width = before.groups.length;
  const out = new Float64Array(ids.length * width).fill(Number.POSITIVE_INFINITY);
  for (let l = 0; l < before.lefts.length; l++) {
    const fromIds = before.ids[l] as Int32Array;
    const block = (strokes[(before.lefts[l] as Left).chain] as StrokeMoves).block(fromIds, ids);
    const from = before.from[l] as number;
    strikeFrom(values, from, fromIds.length, block, ids.length, out, before.group[l] as number, width);
  }
  return out;
}
