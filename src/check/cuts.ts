// SPDX-License-Identifier: AGPL-3.0-or-later
// Inequalities between weights: what must hold so that a line is no dearer than a rival over one stretch.
import type { Charge, Played } from "../search/charges.js";
import type { LinearProgramme, ProgrammeSolver } from "./programme.js";
import { chargesIn, type Stretch, stretchesBetween } from "./stretches.js";
import type { Amount } from "./weighing.js";

/** A line with what it is charged before weights change. */
export interface Candidate {
  readonly played: Played;
  readonly amounts: readonly Amount[];
}

/** For factors of the rules' weights: the sum of `differences` times factors must not fall below `atLeast`. */
export interface Cut {
  readonly rival: Played;
  readonly stretch: Stretch;
  /** what the rival is charged more than the line, in spare moves: by rule, then by rule in highest charges, whose factor is 1 */
  readonly differences: readonly number[];
  /** 0, or more where rounding and cut-off charges were seen to ask for it */
  readonly atLeast: number;
}

/** A rule's weight may fall to this part of what it is: each rule goes on to count for something. */
export const LEAST_FACTOR = 0.05;
/** A rule's weight may grow so many times. */
export const GREATEST_FACTOR = 10;

/** Differences below this are noise of the arithmetic, in spare moves. */
const NOISE = 1e-9;

/** What must hold between two lines, stretch by stretch. */
export function cutsBetween(line: Candidate, rival: Candidate, rules: readonly string[]): readonly Cut[] {
  const place = new Map(rules.map((rule, i) => [rule, i]));
  return stretchesBetween(line.played, rival.played).map((stretch) => {
    const sums = Array.from({ length: 2 * rules.length }, () => 0);
    const add = (amounts: readonly Amount[], sign: number): void => {
      for (const { rule, amount, highest } of chargesIn(stretch, amounts)) {
        const i = (place.get(rule) ?? 0) + (highest ? rules.length : 0);
        sums[i] = (sums[i] ?? 0) + sign * amount;
      }
    };
    add(rival.amounts, 1);
    add(line.amounts, -1);
    const differences = sums.map((sum) => (Math.abs(sum) < NOISE ? 0 : sum));
    return { rival: rival.played, stretch, differences, atLeast: 0 };
  });
}

/** Factors differ from what was asked of the solver by less, and what it asked for by as much. */
const TOLERANCE = 1e-6;

/** The left side of a cut. */
const leftSide = ({ differences }: Cut, factors: readonly number[]): number =>
  differences.reduce((sum, difference, i) => sum + difference * (factors[i] ?? 1), 0);

/** How far the left side may lie below the right one for the solver's sake. */
const slackOf = ({ differences }: Cut): number =>
  TOLERANCE * differences.reduce((sum, difference) => sum + Math.abs(difference), 1);

/**
 * The cut as it must be so that factors fail under which the line did cost more than the rival, to the thousandth: charges
 * are rounded one by one and cut off at a ceiling, which the sums do not know.
 *
 * @param line  charges of the line under the factors
 * @param rival charges of the rival under them
 */
export function tightened(
  cut: Cut,
  factors: readonly number[],
  line: readonly Charge[],
  rival: readonly Charge[],
): Cut {
  const effort = (charges: readonly Charge[]): number =>
    chargesIn(cut.stretch, charges).reduce((sum, { cost }) => sum + cost.effort, 0);
  const excess = (effort(line) - effort(rival)) / 1000;
  const side = leftSide(cut, factors);
  const satisfied = side > cut.atLeast - slackOf(cut);
  return excess > 0 && satisfied ? { ...cut, atLeast: Math.max(cut.atLeast, side) + excess } : cut;
}

/** Factors of the weights that satisfy all cuts, and how far they are from 1 together. */
export interface Factors {
  readonly factors: readonly number[];
  readonly distance: number;
}

/**
 * The factors nearest to 1 (least sum of distances) within the bounds that satisfy all cuts; null where none do.
 *
 * @param steps for each rule the step in which its factor may change; null where it may be anything
 */
export function nearestFactors(
  cuts: readonly Cut[],
  solve: ProgrammeSolver,
  rules: number,
  steps: readonly number[] | null,
): Factors | null {
  // Each factor is 1 and a rise less a fall, both counted in steps.
  const sizes = Array.from({ length: 2 * rules }, (_, i) => steps?.[i % rules] ?? 1);
  const bounds = sizes.map((size, i) => {
    const most = (i < rules ? GREATEST_FACTOR - 1 : 1 - LEAST_FACTOR) / size;
    return [0, steps === null ? most : Math.floor(most + TOLERANCE)] as const;
  });
  const rows = cuts.map(({ differences, atLeast }) => ({
    // What has a factor of its own can rise and fall; all the rest is there once.
    multiples: sizes.map((size, i) => (i < rules ? size : -size) * (differences[i % rules] ?? 0)),
    atLeast: atLeast - differences.reduce((sum, difference) => sum + difference, 0),
  }));
  const numbers = solve({ costs: sizes, bounds, rows, whole: steps !== null });
  if (numbers === null) return null;
  const part = (i: number): number => (numbers[i] ?? 0) * (sizes[i] ?? 1);
  const factors = Array.from({ length: rules }, (_, i) => 1 + part(i) - part(rules + i));
  return { factors, distance: factors.reduce((sum, factor) => sum + Math.abs(factor - 1), 0) };
}

/** A rule that weighs less than this part of the average weighs nothing, for {@link admitsAnyFactors}. */
const NOTHING = 1e-4;

/** Whether any factors above zero satisfy the cuts, whatever their size; highest charges have factors of their own here. */
export function admitsAnyFactors(cuts: readonly Cut[], solve: ProgrammeSolver, rules: number): boolean {
  const count = 2 * rules;
  // The last number is the least of all factors; it is to be as great as can be while the factors are 1 on average.
  const atRule = (i: number, value: number): number[] => Array.from({ length: count }, (_, r) => (r === i ? value : 0));
  const programme: LinearProgramme = {
    costs: [...atRule(-1, 0), -1],
    bounds: [...Array.from({ length: count }, () => [0, count] as const), [0, 1]],
    rows: [
      ...cuts.map(({ differences }) => ({ multiples: [...differences, 0], atLeast: 0 })),
      ...Array.from({ length: count }, (_, i) => ({ multiples: [...atRule(i, 1), -1], atLeast: 0 })),
      { multiples: [...Array.from({ length: count }, () => -1), 0], atLeast: -count },
    ],
    whole: false,
  };
  return (solve(programme)?.[count] ?? 0) > NOTHING;
}

/** The rivals that are dearer under no rule and cheaper under some: the shortest stretch first, then what saves most. */
export function dominating(cuts: readonly Cut[]): readonly Cut[] {
  const length = ({ stretch }: Cut): number => stretch.to - stretch.from;
  const sum = ({ differences }: Cut): number => differences.reduce((total, one) => total + one, 0);
  return cuts
    .filter(({ differences }) => differences.every((one) => one <= 0) && differences.some((one) => one < 0))
    .sort((a, b) => length(a) - length(b) || sum(a) - sum(b));
}
