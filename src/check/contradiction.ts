// SPDX-License-Identifier: AGPL-3.0-or-later
// Pins that cannot stand together: the fewest of them that already cannot.
import type { Pin } from "../model/brief.js";

/** So many sets of pins are tried for one smaller than what leaving out one after the other finds. */
const MOST_TRIED = 80;

/**
 * The smallest set of pins that fails. First one pin after the other is left out for as long as the rest still fails; what
 * remains is a set in which no pin can be spared. Then every smaller set is tried, smallest first, up to a bound.
 *
 * @param fails whether a set of pins cannot be played; it fails for all of `pins`, and for more pins wherever for fewer
 */
export function smallestContradiction(pins: readonly Pin[], fails: (pins: readonly Pin[]) => boolean): readonly Pin[] {
  const needed = pins.reduce<readonly Pin[]>((left, pin) => {
    const without = left.filter((one) => one !== pin);
    return fails(without) ? without : left;
  }, pins);
  let tried = 0;
  for (let size = 1; size < needed.length; size++)
    for (const some of subsets(pins, size)) {
      if (++tried > MOST_TRIED) return needed;
      if (fails(some)) return some;
    }
  return needed;
}

/** All sets of so many, those that lie close together first. */
function* subsets(pins: readonly Pin[], size: number): Generator<readonly Pin[]> {
  if (size === 0) yield [];
  if (size === 1) yield* pins.map((pin) => [pin]);
  if (size < 2) return;
  for (let span = size - 1; span < pins.length; span++)
    for (let first = 0; first + span < pins.length; first++)
      for (const between of subsets(pins.slice(first + 1, first + span), size - 2))
        yield [pins[first] as Pin, ...between, pins[first + span] as Pin];
}
