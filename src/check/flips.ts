// SPDX-License-Identifier: AGPL-3.0-or-later
// Which notes of the best fingering would be played another way by somebody with a slightly different taste.
import { type Cost, weigh } from "../rule/cost.js";
import { type Charge, type Played, totalOf } from "../search/charges.js";
import { type ChangedNote, changesBetween, type WrittenLine } from "./comparison.js";
import { chargesIn, type Stretch, stretchesBetween } from "./stretches.js";
import { type ChangedWeight, Weighable } from "./weighing.js";

/** A rule that weighs a little less or more, and the notes that are then played another way. */
export interface Flip {
  readonly weight: ChangedWeight;
  readonly changes: readonly ChangedNote[];
}

/** How far a weight is moved: a fifth, down and up. */
const SWING = 0.2;

/**
 * What flips in the best line when one weight is a fifth smaller or greater, in the order of the book. A change counts
 * only where it is cheaper then: among equals the line stays as it is.
 */
export function flipsOf(line: WrittenLine): readonly Flip[] {
  const { played } = line;
  const weighable = new Weighable(line);
  const swung = (rule: string, factor: number): ChangedWeight => {
    const from = weighable.weight(rule);
    return { rule, from, to: from * factor };
  };
  const charged = new Set(weighable.amounts(played).map(({ rule }) => rule));
  const silent = weighable.rules.filter((rule) => !charged.has(rule)).map((rule) => swung(rule, 1 - SWING));
  const upsetting = new Set(upsettingOf(silent, totalOf(weighable.charges(played, weighable.under([]))), weighable));
  return weighable.rules.flatMap((rule) => {
    // A rule that charges the best line nothing may grow: every other line only gets dearer.
    const swings = charged.has(rule) ? [1 - SWING, 1 + SWING] : upsetting.has(rule) ? [1 - SWING] : [];
    return swings.flatMap((factor): Flip[] => {
      const weight = swung(rule, factor);
      const changes = changesUnder(weight, played, weighable);
      return changes.length === 0 ? [] : [{ weight, changes }];
    });
  });
}

/**
 * Of rules that charge the best line nothing, those whose smaller weight makes another line the best. Where it stays the
 * best with all of them smaller at once, it does with each: the others can only be dearer then.
 */
function upsettingOf(weights: readonly ChangedWeight[], total: Cost, line: Weighable): readonly string[] {
  if (weights.length === 0 || line.keeping(line.under(weights)).weight >= weigh(total)) return [];
  if (weights.length === 1) return weights.map(({ rule }) => rule);
  const half = Math.ceil(weights.length / 2);
  return [weights.slice(0, half), weights.slice(half)].flatMap((part) => upsettingOf(part, total, line));
}

function changesUnder(weight: ChangedWeight, played: Played, line: Weighable): readonly ChangedNote[] {
  const weighting = line.under([weight]);
  const then = line.played(line.keeping(weighting));
  const stretches = stretchesBetween(played, then);
  if (stretches.length === 0) return [];
  const before = line.charges(played, weighting);
  const after = line.charges(then, weighting);
  const effort = (stretch: Stretch, charges: readonly Charge[]): number => totalOf(chargesIn(stretch, charges)).effort;
  return stretches
    .filter((stretch) => effort(stretch, after) < effort(stretch, before))
    .flatMap(({ from, to }) => changesBetween(played, then, from, to));
}
