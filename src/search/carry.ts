// SPDX-License-Identifier: AGPL-3.0-or-later
import { follows } from "../candidates/lefts.js";
import type { Left } from "../model/playing.js";
import type { Moves } from "./moves.js";
import type { Step } from "./steps.js";

/** One hand without a pluck, after one hand that it can come from: their states lie side by side, stroke by stroke. */
export interface Carry {
  /** first state of the hand before, and of this one */
  readonly from: number;
  readonly to: number;
  /** how many strokes both have */
  readonly count: number;
  /** what the move and the place cost */
  readonly cost: number;
}

/**
 * Every way into the hands of a moment that are not plucked: the stroke stands, the hand comes from the same string.
 *
 * @param place what each left hand costs by itself
 */
export function* carriesInto(
  moves: Moves,
  index: number,
  before: Step,
  step: Step,
  place: Float64Array,
): Generator<Carry> {
  for (let l = step.plucked; l < step.lefts.length; l++) {
    const left = step.lefts[l] as Left;
    const to = step.from[l] as number;
    const count = (step.ids[l] as Int32Array).length;
    for (let p = 0; p < before.lefts.length; p++) {
      const hand = before.lefts[p] as Left;
      if (!follows(hand, left, moves.terms.setting)) continue;
      const cost = moves.hand(index, hand, left) + (place[l] as number);
      yield { from: before.from[p] as number, to, count, cost };
    }
  }
}
