// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a brief sets charges aside, what nobody writes (the waiting finger, the place of an idle hand) costs the same
// whichever way it is; then the rules' own charges decide, so that no hand travels for nothing.
import type { Choice } from "../candidates/candidates.js";
import type { Left, Right } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import type { Rule } from "../rule/types.js";
import { PLAIN_WEIGHTING, type Weighting } from "../rule/weighting.js";
import { chargesOf, type Played, playedBy, totalOf } from "../search/charges.js";
import type { Toll } from "../search/moves.js";
import { solve } from "../search/solve.js";

/** A line of least cost, and what it was searched with. */
export interface Settling {
  readonly choices: readonly Choice[];
  readonly setting: Setting;
  readonly rules: readonly Rule[];
  readonly weighting: Weighting;
  readonly played: Played;
  /** of the line, as the search weighs it */
  readonly weight: number;
}

/** The line of the same cost and the same readings in which the rest is what the rules would have without a brief. */
export function settled({ choices, setting, rules, weighting, played, weight }: Settling): Played {
  const own = totalOf(chargesOf(played, rules)).effort;
  const ties = 2 ** Math.ceil(Math.log2(own + 2));
  if (weighting === PLAIN_WEIGHTING || (weight + 1) * ties > Number.MAX_SAFE_INTEGER) return played;
  const tolls = played.lefts.map((left, at) => onlyAs(left, played.rights[at] as Right));
  return playedBy(played.moments, solve(choices, setting, rules, { weighting, tolls, ties }));
}

/** Lets through what reads the same. */
function onlyAs(own: Left, stroke: Right): Toll {
  return {
    left: (left) => (readsLike(left, own) ? 0 : Number.POSITIVE_INFINITY),
    right: ({ stroke: struck, innerStroke, figure }) =>
      struck === stroke.stroke && innerStroke === stroke.innerStroke && figure?.name === stroke.figure?.name
        ? 0
        : Number.POSITIVE_INFINITY,
  };
}

function readsLike(left: Left, own: Left): boolean {
  if (left.chain !== own.chain || left.arrival !== own.arrival || left.placed.length !== own.placed.length)
    return false;
  return left.placed.every((placed, i) => placed === own.placed[i]);
}
