// SPDX-License-Identifier: AGPL-3.0-or-later
// What the rules charge, as exact numbers: the only place where the search asks them.
import { type Moment, type MomentNote, secondsBetween } from "../model/moments.js";
import {
  entering,
  type HandGap,
  type Left,
  leaving,
  NO_STRINGS,
  RIGHTS,
  type Right,
  type StrokeGap,
} from "../model/playing.js";
import { BLOCK, effortOf } from "../rule/cost.js";
import type { HandMoveRule, PlaceRule, Rule, RuleProse, StrikeRule, StrokeMoveRule } from "../rule/types.js";
import type { Factors } from "../rule/weighting.js";

/** The rules that may charge, by how far they see. */
export interface Charging {
  readonly place: readonly (PlaceRule & RuleProse)[];
  readonly strike: readonly (StrikeRule & RuleProse)[];
  readonly handMove: readonly (HandMoveRule & RuleProse)[];
  readonly strokeMove: readonly (StrokeMoveRule & RuleProse)[];
  /** a charge above so many thousandths bars the way; Infinity where none does */
  readonly ceiling: number;
  /** what a thousandth weighs where lines of equal cost are told apart by what rules charge by themselves; 0 where not */
  readonly ties: number;
}

/** Sorts a rule book by reach. */
export function chargingRules(
  rules: readonly Rule[],
  { ceiling, ties }: Pick<Charging, "ceiling" | "ties"> = { ceiling: Number.POSITIVE_INFINITY, ties: 0 },
): Charging {
  return {
    place: rules.filter((rule) => rule.reach === "place"),
    strike: rules.filter((rule) => rule.reach === "strike"),
    handMove: rules.filter((rule) => rule.reach === "hand-move"),
    strokeMove: rules.filter((rule) => rule.reach === "stroke-move"),
    ceiling,
    ties,
  };
}

/** The hand before the first note: anywhere. */
export const START: Left = {
  placed: [],
  first: null,
  second: null,
  missing: [],
  strings: NO_STRINGS,
  arrival: "plucked",
  chain: 0,
  handFromCm: 0,
  handToCm: Number.MAX_VALUE,
};

/** The right hand before the first note. */
export const NO_STROKE: Right = RIGHTS[RIGHTS.length - 1] as Right;

function priced(blocked: boolean, charge: number, factor: number, { ceiling, ties }: Charging): number {
  const effort = effortOf(charge, factor);
  const weight = blocked || effort > ceiling ? BLOCK + effort : effort;
  return ties === 0 ? weight : weight * ties + effortOf(charge);
}

/** What the place rules charge for a left hand at a moment. */
export function placeWeight(rules: Charging, moment: Moment, left: Left, factors: Factors): number {
  let sum = 0;
  for (const rule of rules.place) {
    const factor = factors.of(rule.id);
    for (const placed of left.placed) {
      const note = moment.notes[placed.note] as MomentNote;
      const measured = rule.measure(placed, null, note, moment, left);
      if (Number.isNaN(measured)) continue;
      const charge = rule.charge(measured, placed, note, moment, left);
      sum += priced(rule.blocks?.(measured) ?? false, charge, factor, rules);
    }
    for (const missing of left.missing) {
      const measured = rule.measure(null, missing, moment.notes[missing.note] as MomentNote, moment, left);
      if (!Number.isNaN(measured)) sum += priced(true, 0, 1, rules);
    }
  }
  return sum;
}

/** What the strike rules charge for a stroke. */
export function strikeWeight(rules: Charging, right: Right, factors: Factors): number {
  let sum = 0;
  for (const rule of rules.strike) {
    const measured = rule.measure(right);
    if (!Number.isNaN(measured))
      sum += priced(rule.blocks?.(measured) ?? false, rule.charge(measured, right), factors.of(rule.id), rules);
  }
  return sum;
}

/** What the hand-move rules charge from one left hand to the next. */
export function handWeight(rules: Charging, from: Left, to: Left, gap: HandGap, factors: Factors): number {
  return handWeights(rules, [from], [to], 1, gap, factors)[0] as number;
}

/**
 * What the hand-move rules charge between two lists of left hands: row by row for each of the first `count` hands
 * arrived at. Rule by rule, since one rule asked many times in a row is quicker than many rules by turns.
 */
export function handWeights(
  rules: Charging,
  before: readonly Left[],
  after: readonly Left[],
  count: number,
  gap: HandGap,
  factors: Factors,
): Float64Array {
  const weights = new Float64Array(count * before.length);
  for (const { id, measure, charge, blocks } of rules.handMove) {
    const factor = factors.of(id);
    let at = 0;
    for (let l = 0; l < count; l++) {
      const to = after[l] as Left;
      for (let p = 0; p < before.length; p++, at++) {
        const from = before[p] as Left;
        const measured = measure(from, to, gap);
        if (Number.isNaN(measured)) continue;
        const blocked = blocks?.(measured, from, to, gap) ?? false;
        weights[at] = (weights[at] as number) + priced(blocked, charge(measured, from, to, gap), factor, rules);
      }
    }
  }
  return weights;
}

/** What the stroke-move rules charge from one stroke to the next: from the last attack of a figure to the first of one. */
export function strokeWeight(rules: Charging, from: Right, to: Right, gap: StrokeGap, factors: Factors): number {
  if (from.stroke === null || to.stroke === null) return 0;
  const before = leaving(from);
  const right = entering(to);
  let sum = 0;
  for (const rule of rules.strokeMove) {
    const measured = rule.measure(before, right, gap);
    if (Number.isNaN(measured)) continue;
    const charge = rule.charge(measured, before, right, gap);
    sum += priced(rule.blocks?.(measured) ?? false, charge, factors.of(rule.id), rules);
  }
  return sum;
}

/** The time before a moment as the left hand sees it; `chain` counts the notes without a pluck up to this one. */
export function handGapAt(moments: readonly Moment[], index: number, chain: number): HandGap {
  const moment = moments[index] as Moment;
  const pluck = moments[index - chain];
  return {
    seconds: moment.gapSeconds,
    rested: moment.rested || index === 0,
    silent: moment.silent || index === 0,
    asked: moment.asks === "slide",
    ornament: moment.afterGrace,
    sincePluckSeconds:
      chain === 0 || pluck === undefined ? moment.gapSeconds : secondsBetween(pluck.onsetSeconds, moment.onsetSeconds),
  };
}

/** The time before a pluck as the right hand sees it; `chainBefore` counts the notes without a pluck just before. */
export function strokeGapAt(moments: readonly Moment[], index: number, chainBefore: number): StrokeGap {
  const moment = moments[index] as Moment;
  const pluck = moments[index - 1 - chainBefore];
  return {
    seconds: pluck === undefined ? Number.POSITIVE_INFINITY : secondsBetween(pluck.onsetSeconds, moment.onsetSeconds),
    rested: moment.rested,
    ornament: moment.afterGrace,
    ringsOn: moments[index - 1]?.ringsOn ?? false,
  };
}
