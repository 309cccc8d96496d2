// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Charge } from "../search/charges.js";

/** The dearest single charge of a line, the first among equals; null where nothing is charged. What is blocked is another matter. */
export function worstMoment(charges: readonly Charge[]): Charge | null {
  return charges
    .filter(({ cost }) => cost.blocked === 0 && cost.effort > 0)
    .reduce<Charge | null>((worst, one) => (worst === null || one.cost.effort > worst.cost.effort ? one : worst), null);
}
