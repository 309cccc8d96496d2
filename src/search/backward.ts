// SPDX-License-Identifier: AGPL-3.0-or-later
// The backward pass: the same two minimisations the other way round.
//   B[L', r]    = min over L of  handMove(L', L) + place(L) + rest[L, r]  + strike(r)
//   rest'[L', r'] = min over r of  strokeMove(r', r) + B[L', r]
import { follows } from "../candidates/lefts.js";
import type { Left } from "../model/playing.js";
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
  carry(moves, index, { before, step, values, place, rest });
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

function carry(moves: Moves, index: number, { before, step, values, place, rest }: Passage): void {
  const { setting } = moves.terms;
  for (let l = step.plucked; l < step.lefts.length; l++) {
    const left = step.lefts[l] as Left;
    const at = step.from[l] as number;
    const count = (step.ids[l] as Int32Array).length;
    for (let p = 0; p < before.lefts.length; p++) {
      const from = before.lefts[p] as Left;
      if (!follows(from, left, setting)) continue;
      const move = moves.hand(index, from, left) + (place[l] as number);
      const start = before.from[p] as number;
      for (let j = 0; j < count; j++) {
        const value = (values[at + j] as number) + move;
        if (value < (rest[start + j] as number)) rest[start + j] = value;
      }
    }
  }
}
