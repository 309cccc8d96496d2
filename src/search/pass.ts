// SPDX-License-Identifier: AGPL-3.0-or-later
// The values of a whole line in one direction, and how they are taken up again where little changes.
import { recede } from "./backward.js";
import { advance, begin } from "./forward.js";
import type { Moves } from "./moves.js";
import { countStates, type Step } from "./steps.js";

/** Values of every state of every moment. */
export class Pass {
  constructor(
    /** one list a moment, to which its offset is to be added */
    readonly values: readonly Float64Array[],
    /** where a pass was taken up again and all values differ by one constant, the old lists serve, with that constant here */
    readonly offsets: Float64Array,
  ) {}

  /** The value of a state. */
  at(index: number, state: number): number {
    return (this.values[index]?.[state] as number) + (this.offsets[index] as number);
  }
}

/** What the cheapest line up to each state costs. */
export function forwardPass(moves: Moves, steps: readonly Step[]): Pass {
  const values: Float64Array[] = [];
  for (const [i, step] of steps.entries())
    values.push(i === 0 ? begin(moves, step) : advance(moves, steps, i, values[i - 1] as Float64Array));
  return new Pass(values, new Float64Array(steps.length));
}

/** What the cheapest line after each state costs. */
export function backwardPass(moves: Moves, steps: readonly Step[]): Pass {
  const values = new Array<Float64Array>(steps.length);
  const last = steps.length - 1;
  if (last >= 0) values[last] = new Float64Array(countStates(steps[last] as Step));
  for (let i = last; i > 0; i--) values[i - 1] = recede(moves, steps, i, values[i] as Float64Array);
  return new Pass(values, new Float64Array(steps.length));
}

/** A pass taken up again, and the first moment from which it is the old one but for a constant. */
export interface Resumed {
  readonly pass: Pass;
  readonly joined: number;
}

/**
 * The forward pass when something changed at one moment. Only what changes is computed: as soon as all values differ
 * from the old ones by one constant, the rest is the old pass.
 *
 * @param moves the new costs
 * @param old   the pass under the old ones
 */
export function resumeForward(moves: Moves, steps: readonly Step[], old: Pass, index: number): Resumed {
  const values = old.values.slice();
  const offsets = old.offsets.slice();
  for (let i = index; i < steps.length; i++) {
    values[i] = i === 0 ? begin(moves, steps[0] as Step) : advance(moves, steps, i, values[i - 1] as Float64Array);
    offsets[i] = i === 0 ? 0 : (offsets[i - 1] as number);
    const shift = shiftBetween(values[i] as Float64Array, offsets[i] as number, old, i);
    if (shift === null) continue;
    for (let k = i + 1; k < steps.length; k++) offsets[k] = (old.offsets[k] as number) + shift;
    return { pass: new Pass(values, offsets), joined: i };
  }
  return { pass: new Pass(values, offsets), joined: steps.length };
}

/** The backward pass when the costs of one moment, or of the moves into it, changed. */
export function resumeBackward(moves: Moves, steps: readonly Step[], old: Pass, index: number): Pass {
  const values = old.values.slice();
  const offsets = old.offsets.slice();
  for (let i = index - 1; i >= 0; i--) {
    values[i] = recede(moves, steps, i + 1, values[i + 1] as Float64Array);
    offsets[i] = offsets[i + 1] as number;
    const shift = shiftBetween(values[i] as Float64Array, offsets[i] as number, old, i);
    if (shift === null) continue;
    for (let k = i - 1; k >= 0; k--) offsets[k] = (old.offsets[k] as number) + shift;
    break;
  }
  return new Pass(values, offsets);
}

/** The constant by which all values of a moment differ from the old ones; null where they differ otherwise. */
function shiftBetween(values: Float64Array, offset: number, old: Pass, index: number): number | null {
  const before = old.values[index] as Float64Array;
  let shift: number | null = null;
  for (let k = 0; k < values.length; k++) {
    const a = values[k] as number;
    const b = before[k] as number;
    if (a === b && !Number.isFinite(a)) continue;
    if (shift === null) shift = a - b;
    else if (a - b !== shift) return null;
  }
  return shift === null ? null : shift + offset - (old.offsets[index] as number);
}

/** The first of the least values. */
export function cheapest(values: Float64Array): number {
  let best = 0;
  for (let k = 1; k < values.length; k++) if ((values[k] as number) < (values[best] as number)) best = k;
  return best;
}
