// SPDX-License-Identifier: AGPL-3.0-or-later
// Where two fingerings of one melody differ: each stretch is a choice of its own.
import { handName } from "../candidates/opened.js";
import type { Left, Right } from "../model/playing.js";
import type { Played } from "../search/charges.js";

/**
 * Moments in a row in which two lines differ. Before and after them the hands are the same, so either line may take the
 * other's way there and stay its own elsewhere.
 */
export interface Stretch {
  readonly from: number;
  /** the last moment that differs */
  readonly to: number;
}

/** The stretches in which two lines over the same moments differ, in order. */
export function stretchesBetween(a: Played, b: Played): readonly Stretch[] {
  const stretches: Stretch[] = [];
  for (const { index } of a.moments) {
    if (isSame(a, b, index)) continue;
    const last = stretches.at(-1);
    if (last !== undefined && last.to === index - 1) stretches[stretches.length - 1] = { from: last.from, to: index };
    else stretches.push({ from: index, to: index });
  }
  return stretches;
}

function isSame(a: Played, b: Played, at: number): boolean {
  const [left, other] = [a.lefts[at] as Left, b.lefts[at] as Left];
  const sameHand = left === other || handName(left) === handName(other);
  return sameHand && (a.rights[at] as Right).id === (b.rights[at] as Right).id;
}

/** Of charges, those that a stretch decides: of its own moments, and of the move out of it. */
export function chargesIn<T extends { readonly at: number }>(stretch: Stretch, charges: readonly T[]): readonly T[] {
  return charges.filter(({ at }) => at >= stretch.from && at <= stretch.to + 1);
}
