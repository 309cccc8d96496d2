// SPDX-License-Identifier: AGPL-3.0-or-later
// The backward pass: the same two minimisations the other way round.
//   B[L', r]    = min over L of  handMove(L', L) + place(L) + rest[L, r]  + strike(r)
//   rest'[L', r'] = min over r of  strokeMove(r', r) + B[L', r]
import type { Left } from "../model/playing.js";
import { carriesInto } from "./carry.js";
import { leadInto, strikeOn } from "./min-plus.js";
import type { Moves } from "./moves.js";
import { countStates, type Step } from "./steps.js";
import type { StrokeMoves } from "./tables.js";

/**
 * What the cheapest line after each state of the moment before `index` costs, its own charges not counted.
 *
 * @param values the same for the moment at `index`
 */
export function recede(moves: Moves, steps: readonly Step[], index: number, values: Float64Array): Float64Array {
  const before = steps[index - 1] as Step;
  const step = steps[index] as Step;
  const rest = new Float64Array(countStates(before)).fill(Number.POSITIVE_INFINITY);
  const place = moves.places(index, step);
  pluck(moves, index, { before, step, values, place, rest });
  for (const { from, to, count, cost } of carriesInto(moves, index, before, step, place))
    for (let j = 0; j < count; j++) {
      const value = (values[to + j] as number) + cost;
      if (value < (rest[from + j] as number)) rest[from + j] = value;
    }
  return rest;
}

interface Passage {
  readonly before: Step;
  readonly step: Step;
  readonly values: Float64Array;
  readonly place: Float64Array;
  readonly rest: Float64Array;
}

function pluck(moves: Moves, index: number, { before, step, values, place, rest }: Passage): void {
  if (step.plucked === 0) return;
  const table = moves.handTable(index, before, step);
  const strokes = moves.strokesAfter(index, before);
  const strike = moves.strikes(index);
  const width = before.groups.length;
  /** B, by strings: row by row for each stroke, from each group of hands before */
  const ahead = new Map<number, { readonly ids: Int32Array; readonly row: Float64Array }>();
  for (let l = 0; l < step.plucked; l++) {
    const ids = step.ids[l] as Int32Array;
    const strings = (step.lefts[l] as Left).strings.id;
    let known = ahead.get(strings);
    if (known === undefined) {
      known = { ids, row: new Float64Array(ids.length * width).fill(Number.POSITIVE_INFINITY) };
      ahead.set(strings, known);
    }
    leadInto(table, l * width, width, values, step.from[l] as number, ids.length, place[l] as number, known.row);
  }
  for (const { ids, row } of ahead.values()) {
    for (const [j, id] of ids.entries())
      for (let p = 0; p < width; p++) row[j * width + p] = (row[j * width + p] as number) + (strike[id] as number);
    for (let l = 0; l < before.lefts.length; l++) {
      const fromIds = before.ids[l] as Int32Array;
      const block = (strokes[(before.lefts[l] as Left).chain] as StrokeMoves).block(fromIds, ids);
      const from = before.from[l] as number;
      strikeOn(row, before.group[l] as number, width, block, ids.length, rest, from, fromIds.length);
    }
  }
}
