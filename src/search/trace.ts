// SPDX-License-Identifier: AGPL-3.0-or-later
// From values to lines: at each moment the first state in order that gives the value is looked for again.
import { follows } from "../candidates/lefts.js";
import type { Left } from "../model/playing.js";
import type { Moves } from "./moves.js";
import { cheapest, type Pass } from "./pass.js";
import { ownerOf, type Step } from "./steps.js";
import type { StrokeMoves } from "./tables.js";

/** A line that is the cheapest one wherever it is met before a moment. */
export interface KnownLine {
  readonly path: readonly number[];
  readonly before: number;
}

/** The states of the cheapest line that ends in a state of a moment, from the first moment to this one. */
export function traceBack(
  moves: Moves,
  steps: readonly Step[],
  pass: Pass,
  index: number,
  state: number,
  known: KnownLine | null = null,
): readonly number[] {
  const path = new Array<number>(index + 1);
  path[index] = state;
  for (let i = index; i > 0; i--) {
    if (known !== null && i < known.before && path[i] === known.path[i])
      return [...known.path.slice(0, i), ...path.slice(i)];
    path[i - 1] = predecessor(moves, steps, pass, i, path[i] as number);
  }
  return path;
}

/** The states of the cheapest line of all. */
export function fullPath(moves: Moves, steps: readonly Step[], pass: Pass): readonly number[] {
  const last = steps.length - 1;
  return last < 0 ? [] : traceBack(moves, steps, pass, last, cheapest(pass.values[last] as Float64Array));
}

/** The states of the cheapest line that goes on from a state of a moment, from the moment after it to the last. */
export function traceOn(
  moves: Moves,
  steps: readonly Step[],
  rest: Pass,
  index: number,
  state: number,
): readonly number[] {
  const path: number[] = [];
  let at = state;
  for (let i = index; i < steps.length - 1; i++) {
    at = successor(moves, steps, rest, i, at);
    path.push(at);
  }
  return path;
}

function predecessor(moves: Moves, steps: readonly Step[], pass: Pass, index: number, reached: number): number {
  const step = steps[index] as Step;
  const before = steps[index - 1] as Step;
  const values = pass.values[index - 1] as Float64Array;
  const l = ownerOf(step, reached);
  const left = step.lefts[l] as Left;
  const j = reached - (step.from[l] as number);
  const id = (step.ids[l] as Int32Array)[j] as number;
  const plucked = l < step.plucked;
  const own = moves.place(index, left) + (plucked ? (moves.strikes(index)[id] as number) : 0);
  const wanted = pass.at(index, reached) - (pass.offsets[index - 1] as number) - own;
  const known = plucked && moves.remembers(index, before) ? moves.handTable(index, before, step) : null;
  const strokesAfter = moves.strokesAfter(index, before);
  for (let p = 0; p < before.lefts.length; p++) {
    const from = before.lefts[p] as Left;
    if (!plucked && !follows(from, left, moves.terms.setting)) continue;
    const at = l * before.groups.length + (before.group[p] as number);
    const move = known === null ? moves.hand(index, from, left) : (known[at] as number);
    const strokes = strokesAfter[from.chain] as StrokeMoves;
    const fromIds = before.ids[p] as Int32Array;
    for (let q = plucked ? 0 : j; q < (plucked ? fromIds.length : j + 1); q++) {
      const stroke = plucked ? strokes.weight(fromIds[q] as number, id) : 0;
      const state = (before.from[p] as number) + q;
      if ((values[state] as number) + stroke + move === wanted) return state;
    }
  }
  throw new Error(`no predecessor gives the value at moment ${index}`);
}

function successor(moves: Moves, steps: readonly Step[], rest: Pass, index: number, left: number): number {
  const before = steps[index] as Step;
  const step = steps[index + 1] as Step;
  const values = rest.values[index + 1] as Float64Array;
  const p = ownerOf(before, left);
  const from = before.lefts[p] as Left;
  const q = left - (before.from[p] as number);
  const fromId = (before.ids[p] as Int32Array)[q] as number;
  const wanted = rest.at(index, left) - (rest.offsets[index + 1] as number);
  const strikes = moves.strikes(index + 1);
  const strokes = moves.strokesInto(index + 1, from.chain);
  for (let l = 0; l < step.lefts.length; l++) {
    const to = step.lefts[l] as Left;
    const plucked = l < step.plucked;
    if (!plucked && !follows(from, to, moves.terms.setting)) continue;
    const move = moves.hand(index + 1, from, to) + moves.place(index + 1, to);
    const ids = step.ids[l] as Int32Array;
    for (let j = plucked ? 0 : q; j < (plucked ? ids.length : q + 1); j++) {
      const id = ids[j] as number;
      const stroke = plucked ? strokes.weight(fromId, id) + (strikes[id] as number) : 0;
      const state = (step.from[l] as number) + j;
      if ((values[state] as number) + stroke + move === wanted) return state;
    }
  }
  throw new Error(`no successor gives the value at moment ${index}`);
}
