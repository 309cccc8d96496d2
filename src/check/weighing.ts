// SPDX-License-Identifier: AGPL-3.0-or-later
// One line under other weights of its rules: what it would cost, and which fingering would be the best then.
import type { Choice } from "../candidates/candidates.js";
import { openedUp } from "../candidates/opened.js";
import { effortOf } from "../rule/cost.js";
import { type Weighting, weightingOf } from "../rule/weighting.js";
import { type Charge, chargesOf, type Played, playedBy } from "../search/charges.js";
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

/** A charge is rounded by at most so much, in spare moves. */
const ROUNDING = 0.001;

/** A line whose rules can be weighed anew. */
export class Weighable {
  /** rules that charge and that the brief does not switch off, in the order of the book */
  readonly rules: readonly string[];

  /** @param opened what there is to choose from in all freedom; all that can be done where left out */
  constructor(
    private readonly line: WrittenLine,
    private opened: readonly Choice[] | null = null,
  ) {
    const { rules } = line;
    this.rules = rules.filter((one) => one.reach !== "passage" && this.weight(one.id) > 0).map(({ id }) => id);
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
    return solve(this.line.choices, this.line.setting, this.line.rules, { weighting });
  }

  /**
   * The best line of all, but where the writer's way is meant to struggle.
   *
   * @param worth thousandths that each hand and stroke must save that leaves the writer's way
   */
  free(weighting: Weighting, worth = 0): Solution {
    const { setting, rules, choices } = this.line;
    this.opened ??= openedUp(choices, setting, rules).choices;
    return solve(this.opened, setting, rules, { weighting, tolls: tollsOfLeaving(this.line, worth) });
  }

  /** A solution as a line. */
  played(solution: Solution): Played {
    return playedBy(this.line.played.moments, solution);
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
