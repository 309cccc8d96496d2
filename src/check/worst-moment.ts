// SPDX-License-Identifier: AGPL-3.0-or-later
// The dearest single charge of a line: its worst moment.
import type { Rule } from "../rule/types.js";
import type { Weighting } from "../rule/weighting.js";
import { type Charge, chargesOf, type Played } from "../search/charges.js";

/** The largest charge, the first among equals; null where nothing is charged. What is blocked is another matter. */
export function worstMoment(played: Played, rules: readonly Rule[], weighting: Weighting): Charge | null {
  return chargesOf(played, rules, weighting)
    .filter(({ cost }) => cost.blocked === 0 && cost.effort > 0)
    .reduce<Charge | null>((worst, one) => (worst === null || one.cost.effort > worst.cost.effort ? one : worst), null);
}
