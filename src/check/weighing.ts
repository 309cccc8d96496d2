// SPDX-License-Identifier: AGPL-3.0-or-later
// One line under other weights of its rules: what it would cost, and which fingering would be the best then.
import { type Choice, choicesOf } from "../candidates/candidates.js";
import { openedUp } from "../candidates/opened.js";
import { effortOf } from "../rule/cost.js";
import { type Weighting, weightingOf } from "../rule/weighting.js";
import { type Charge, chargesOf, type Played } from "../search/charges.js";
import { type Solution, solve } from "../search/solve.js";
import { tollsOfLeaving, type WrittenLine } from "./comparison.js";

/** What a rule weighs and could weigh. */
export interface ChangedWeight {
  readonly rule: string;
  /** as the brief has it, 1 where it says nothing */
  readonly from: number;
  readonly to: number;
}

/** One charge before it is rounded, in spare moves. */
export interface Amount {
  readonly rule: string;
  readonly at: number;
  readonly amount: number;
  /** it is the highest charge that there is: it is not taken to change with the weight */
  readonly highest: boolean;
}

/** What a line is chosen from: as what is given leaves it, and in all freedom. */
export interface Ways {
  readonly kept: readonly Choice[];
  readonly opened: readonly Choice[];
}

/** A charge is rounded by at most so much, in spare moves. */
const ROUNDING = 0.001;

/** A line whose rules can be weighed anew. */
export class Weighable {
  /** rules that charge and that the brief does not switch off, in the order of the book */
  readonly rules: readonly string[];
  private readonly kept: readonly Choice[];
  private opened: readonly Choice[] | null;

  /** @param ways what there is to choose from; all that can be done where left out */
  constructor(
    private readonly line: WrittenLine,
    ways: Ways | null = null,
  ) {
    const { rules, setting, played } = line;
    this.rules = rules.filter((one) => one.reach !== "passage" && this.weight(one.id) > 0).map(({ id }) => id);
    this.kept = ways?.kept ?? choicesOf(played.moments, setting, rules);
    this.opened = ways?.opened ?? null;
  }

  /** What a rule weighs in the brief. */
  weight(rule: string): number {
    return this.line.brief.weights[rule] ?? 1;
  }

  /** The weighting in which some rules weigh something else. */
  under(changes: readonly ChangedWeight[]): Weighting {
    const { brief, played, rules } = this.line;
    const weights = { ...brief.weights, ...Object.fromEntries(changes.map(({ rule, to }) => [rule, to])) };
    return weightingOf({ ...brief, weights }, played.moments, rules);
  }

  /** The best line that keeps all that is given. */
  keeping(weighting: Weighting): Solution {
    return solve(this.kept, this.line.setting, this.line.rules, { weighting });
  }

  /**
   * The best line of all, but where the writer's way is meant to struggle.
   *
   * @param worth thousandths that each hand and stroke must save that leaves the writer's way
   */
  free(weighting: Weighting, worth = 0): Solution {
    const { setting, rules } = this.line;
    this.opened ??= openedUp(this.kept, setting, rules).choices;
    return solve(this.opened, setting, rules, { weighting, tolls: tollsOfLeaving(this.line, worth) });
  }

  /** A solution as a line. */
  played({ lefts, rights }: Solution): Played {
    return { moments: this.line.played.moments, lefts, rights };
  }

  /** What a line is charged in a weighting, to the thousandth. */
  charges(played: Played, weighting: Weighting): readonly Charge[] {
    return chargesOf(played, this.line.rules, weighting);
  }

  /** What a line is charged as the brief weighs it, not rounded: amounts that grow evenly with the weights. */
  amounts(played: Played): readonly Amount[] {
    return chargesOf(played, this.line.rules).flatMap(({ rule, from, at, charge }) => {
      const factor = this.line.weighting.between(from ?? at, at).of(rule.id);
      const most = effortOf(charge, factor) / 1000;
      const highest = charge * factor > most + ROUNDING;
      const amount = highest ? most : charge * factor;
      return amount > 0 ? [{ rule: rule.id, at, amount, highest }] : [];
    });
  }
}
