// SPDX-License-Identifier: AGPL-3.0-or-later
// What every rule measured and charged along one chosen line: the bill, and what the check turns into findings.
import type { Moment, MomentNote } from "../model/moments.js";
import { entering, type Left, leaving, type Placed, type Right } from "../model/playing.js";
import { addCost, type Cost, effortOf, FREE } from "../rule/cost.js";
import type { LocalRuleBody, Rule, RuleProse } from "../rule/types.js";
import { PLAIN_WEIGHTING, type Weighting } from "../rule/weighting.js";
import { type Charging, chargingRules, handGapAt, NO_STROKE, START, strokeGapAt } from "./pricing.js";

/** One rule at one place. */
export interface Charge {
  readonly rule: LocalRuleBody & RuleProse;
  /** moment before for a move, else null */
  readonly from: number | null;
  /** the moment that the charge belongs to */
  readonly at: number;
  /** ids of the notes, the owner last */
  readonly notes: readonly string[];
  readonly measured: number;
  readonly limit: number | null;
  /** spare moves, not rounded */
  readonly charge: number;
  readonly cost: Cost;
}

/** A line to be charged: a left and a right hand for each moment. */
export interface Played {
  readonly moments: readonly Moment[];
  readonly lefts: readonly Left[];
  readonly rights: readonly Right[];
}

/** The moments as a solution plays them. */
export function playedBy(moments: readonly Moment[], { lefts, rights }: Pick<Played, "lefts" | "rights">): Played {
  return { moments, lefts, rights };
}

/**
 * Everything that the charging rules measured along a line, free places included, in order of time and of the book; of
 * the moments from `from` to `to` alone where these are given.
 */
export function chargesOf(
  played: Played,
  rules: readonly Rule[],
  weighting: Weighting = PLAIN_WEIGHTING,
  from = 0,
  to = played.moments.length - 1,
): readonly Charge[] {
  const charging = chargingRules(rules);
  const weighed = (charge: Charge): Charge => {
    const factor = weighting.between(charge.from ?? charge.at, charge.at).of(charge.rule.id);
    // What weighs more is also reported as more; what is set aside keeps its own size.
    const cost = { ...charge.cost, effort: effortOf(charge.charge, factor) };
    return { ...charge, charge: charge.charge * Math.max(1, factor), cost };
  };
  return played.moments
    .slice(from, to + 1)
    .flatMap(({ index: at }) =>
      [
        ...placeCharges(played, at, charging),
        ...strikeCharges(played, at, charging),
        ...handCharges(played, at, charging),
        ...strokeCharges(played, at, charging),
      ].map(weighed),
    );
}

/** The sum of all charges. */
export function totalOf(charges: readonly Charge[]): Cost {
  return charges.reduce((sum, charge) => addCost(sum, charge.cost), FREE);
}

/** A rule's number, what it charges for it, and whether it bars the way. */
interface Found {
  readonly measured: number;
  readonly charge: number;
  readonly blocked: boolean | undefined;
}

type Where = Pick<Charge, "from" | "at" | "notes">;

function entry(rule: LocalRuleBody & RuleProse, where: Where, found: Found, limit = rule.limit): Charge {
  const { measured, charge, blocked } = found;
  return { rule, ...where, measured, limit, charge, cost: { blocked: blocked ? 1 : 0, effort: effortOf(charge) } };
}

function placeCharges(played: Played, at: number, charging: Charging): Charge[] {
  const moment = played.moments[at] as Moment;
  const left = played.lefts[at] as Left;
  const noteAt = (index: number): MomentNote => moment.notes[index] as MomentNote;
  const held = (rule: Charging["place"][number], placed: Placed): Charge[] => {
    const note = noteAt(placed.note);
    const measured = rule.measure(placed, null, note, moment, left);
    if (Number.isNaN(measured)) return [];
    const limit = rule.limitAt?.(placed, note, moment, left) ?? rule.limit;
    const where = { from: null, at, notes: [note.source.id] };
    const charge = rule.charge(measured, placed, note, moment, left);
    return [entry(rule, where, { measured, charge, blocked: rule.blocks?.(measured) }, limit)];
  };
  return charging.place.flatMap((rule) => [
    ...left.placed.flatMap((placed) => held(rule, placed)),
    ...left.missing.flatMap((missing) => {
      const note = noteAt(missing.note);
      const measured = rule.measure(null, missing, note, moment, left);
      const where = { from: null, at, notes: [note.source.id] };
      return Number.isNaN(measured) ? [] : [entry(rule, where, { measured, charge: 0, blocked: true })];
    }),
  ]);
}

function strikeCharges(played: Played, at: number, charging: Charging): Charge[] {
  const right = played.rights[at] as Right;
  if ((played.lefts[at] as Left).chain > 0 || right.stroke === null) return [];
  const where = { from: null, at, notes: [ownerId(played, at)] };
  return charging.strike.flatMap((rule) => {
    const measured = rule.measure(right);
    if (Number.isNaN(measured)) return [];
    return [entry(rule, where, { measured, charge: rule.charge(measured, right), blocked: rule.blocks?.(measured) })];
  });
}

function handCharges(played: Played, at: number, charging: Charging): Charge[] {
  const to = played.lefts[at] as Left;
  const from = at === 0 ? START : (played.lefts[at - 1] as Left);
  const gap = handGapAt(played.moments, at, to.chain);
  const before = at === 0 ? [] : [ownerId(played, at - 1)];
  const where = { from: at === 0 ? null : at - 1, at, notes: [...before, ownerId(played, at)] };
  return charging.handMove.flatMap((rule) => {
    const measured = rule.measure(from, to, gap);
    if (Number.isNaN(measured)) return [];
    const blocked = rule.blocks?.(measured, from, to, gap);
    return [entry(rule, where, { measured, charge: rule.charge(measured, from, to, gap), blocked })];
  });
}

function strokeCharges(played: Played, at: number, charging: Charging): Charge[] {
  const right = entering(played.rights[at] as Right);
  const left = played.lefts[at] as Left;
  const last = at === 0 ? null : (played.lefts[at - 1] as Left);
  const before = at === 0 ? NO_STROKE : leaving(played.rights[at - 1] as Right);
  if (last === null || left.chain > 0 || right.stroke === null || before.stroke === null) return [];
  const gap = strokeGapAt(played.moments, at, last.chain);
  const pluck = at - 1 - last.chain;
  const where = { from: pluck, at, notes: [ownerId(played, pluck), ownerId(played, at)] };
  return charging.strokeMove.flatMap((rule) => {
    const measured = rule.measure(before, right, gap);
    if (Number.isNaN(measured)) return [];
    const charge = rule.charge(measured, before, right, gap);
    const limit = rule.limitAt?.(before, right) ?? rule.limit;
    return [entry(rule, where, { measured, charge, blocked: rule.blocks?.(measured) }, limit)];
  });
}

/** The note that a moment's moves belong to: the lowest placed one, else the lowest. */
function ownerId(played: Played, at: number): string {
  const index = Math.min(...(played.lefts[at] as Left).placed.map((placed) => placed.note));
  const notes = (played.moments[at] as Moment).notes;
  return ((notes[index] ?? notes[0]) as MomentNote).source.id;
}
