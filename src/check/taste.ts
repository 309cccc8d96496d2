// SPDX-License-Identifier: AGPL-3.0-or-later
// For whom a written fingering would be the best one: the smallest change of the rules' weights that makes it so.
//
// Cutting planes. A line's cost is a sum over rules of weight times charges, so a rival that costs less is an inequality
// between weights. The weights nearest to the present ones that satisfy all inequalities known so far come from a linear
// programme; the search names the best line under them, which is the next inequality, or proves that there is none.
import type { Choice } from "../candidates/candidates.js";
import { soundsAnotherNote } from "../model/written-place.js";
import { unweigh } from "../rule/cost.js";
import type { Weighting } from "../rule/weighting.js";
import type { Played } from "../search/charges.js";
import { type ChangedNote, changesBetween, type WrittenLine } from "./comparison.js";
import {
  admitsAnyFactors,
  type Candidate,
  type Cut,
  cutsBetween,
  dominating,
  type Factors,
  nearestFactors,
  tightened,
} from "./cuts.js";
import type { ProgrammeSolver } from "./programme.js";
import { stretchesBetween } from "./stretches.js";
import { type ChangedWeight, Weighable } from "./weighing.js";

/** What came of it. */
type Outcome =
  | { readonly outcome: "best" }
  /** the best one with these weights */
  | { readonly outcome: "weighed"; readonly weights: readonly ChangedWeight[] }
  /** so many moves cannot be played that another fingering avoids */
  | { readonly outcome: "blocked"; readonly more: number }
  /** so many notes lie where another note sounds, and need not */
  | { readonly outcome: "wrong-places"; readonly more: number }
  /** with these changes it is dearer under no rule, and cheaper under the ones named */
  | { readonly outcome: "dominated"; readonly changes: readonly ChangedNote[]; readonly rules: readonly string[] }
  /** whatever the rules weigh, if only each weighs something, one of so many lines is cheaper */
  | { readonly outcome: "never"; readonly rivals: number }
  /** not with weights within the bounds */
  | { readonly outcome: "out-of-bounds" }
  | { readonly outcome: "unsettled" };

/** What came of it, and in how many searches. */
export type WrittenTaste = Outcome & { readonly rounds: number };

/** So often a best line is searched before the question is left open. */
const MOST_ROUNDS = 60;

/** Weights are named in these steps where that can be. */
const WEIGHT_STEP = 0.05;
/** So often weights in steps are tried. */
const MOST_STEPPED_ROUNDS = 10;
/** What a change must save in lines that make good examples, in thousandths. */
const FRUGAL_WORTHS = [1000, 400, 100] as const;
/** Weights that are not in steps are whole numbers of these. */
const SMALLEST_STEP = 1e-6;

/**
 * The smallest change of weights under which a written fingering is the best one.
 *
 * What the score leaves open (the waiting finger, the idle hand, in a partial fingering more) is filled in anew under each
 * weighting; that no weights do is said of the ways to fill it in that came up, the one on the page among them.
 *
 * @param opened what there is to choose from in all freedom; all that can be done where left out
 */
export function tasteOf(
  line: WrittenLine,
  solve: ProgrammeSolver,
  opened: readonly Choice[] | null = null,
): WrittenTaste {
  const inquiry = new Inquiry(line, solve, opened);
  let weights: readonly ChangedWeight[] = [];
  for (let rounds = 1; rounds <= MOST_ROUNDS; rounds++) {
    const trial = inquiry.trial(weights);
    if (trial.over === 0 && rounds === 1) return { outcome: "best", rounds };
    if (trial.over === 0) return { outcome: "weighed", weights: inquiry.inSteps(weights), rounds };
    const obstacle = rounds === 1 ? obstacleIn(trial) : null;
    if (obstacle !== null) return { ...obstacle, rounds };
    inquiry.learn(trial);
    const next = inquiry.nearest();
    if (next === null) return { ...inquiry.refusal(), rounds };
    weights = next;
  }
  return { outcome: "unsettled", rounds: MOST_ROUNDS };
}

/** The line as written and the best one under some weights. */
interface Trial {
  readonly weights: readonly ChangedWeight[];
  readonly weighting: Weighting;
  readonly own: Played;
  readonly rival: Played;
  /** what the line costs more than the rival, as one exact number */
  readonly over: number;
}

/** What weights cannot mend. */
function obstacleIn({ own, rival, over }: Trial): Outcome | null {
  const { blocked } = unweigh(over);
  if (blocked > 0) return { outcome: "blocked", more: blocked };
  const wrong = ({ lefts }: Played): number => lefts.flatMap((left) => left.placed).filter(soundsAnotherNote).length;
  const more = wrong(own) - wrong(rival);
  return more > 0 ? { outcome: "wrong-places", more } : null;
}

/** A way to fill in what is written, with all that must hold so that it is the best. */
interface Own extends Candidate {
  readonly cuts: Cut[];
}

class Inquiry {
  private readonly line: Weighable;
  private readonly owns: Own[] = [];
  private readonly rivals: Candidate[] = [];

  constructor(
    written: WrittenLine,
    private readonly solve: ProgrammeSolver,
    opened: readonly Choice[] | null,
  ) {
    this.line = new Weighable(written, opened);
    this.owns.push({ ...this.candidate(written.played), cuts: [] });
  }

  trial(weights: readonly ChangedWeight[]): Trial {
    const weighting = this.line.under(weights);
    const own = this.line.keeping(weighting);
    const rival = this.line.free(weighting);
    const over = Math.max(0, own.weight - rival.weight);
    return { weights, weighting, over, own: this.line.played(own), rival: this.line.played(rival) };
  }

  /** Takes from a trial what must hold so that it would not end like this again. */
  learn({ own, rival, weights, weighting }: Trial): void {
    const known = (all: readonly Candidate[], played: Played): boolean =>
      all.some((one) => stretchesBetween(one.played, played).length === 0);
    if (!known(this.rivals, rival)) {
      const one = this.candidate(rival);
      this.rivals.push(one);
      for (const { cuts, ...known } of this.owns) cuts.push(...this.cutsOf(known, one));
    }
    if (!known(this.owns, own)) {
      const one = this.candidate(own);
      this.owns.push({ ...one, cuts: this.rivals.flatMap((other) => this.cutsOf(one, other)) });
    }
    const factors = this.factorsOf(weights);
    const rivals = new Map(this.rivals.map((one) => [one.played, this.line.charges(one.played, weighting)]));
    for (const { played, cuts } of this.owns) {
      const charges = this.line.charges(played, weighting);
      for (const [i, cut] of cuts.entries()) cuts[i] = tightened(cut, factors, charges, rivals.get(cut.rival) ?? []);
    }
  }

  /** The nearest weights, in steps if so wished, that nothing known speaks against; null where there are none. */
  nearest(steps: readonly number[] | null = null): readonly ChangedWeight[] | null {
    const found = this.owns.flatMap(({ cuts }) => this.nearestFor(cuts, steps) ?? []);
    const best = found.reduce<Factors | null>((a, b) => (a === null || b.distance < a.distance ? b : a), null);
    return best === null ? null : this.weightsOf(best.factors);
  }

  /** Why no weights do. */
  refusal(): Outcome {
    const exact = this.owns.map(({ cuts }) => cuts.map((cut) => ({ ...cut, atLeast: 0 })));
    // Where only rounding speaks against a weighting, nothing is proved.
    if (exact.some((cuts) => this.nearestFor(cuts) !== null)) return { outcome: "unsettled" };
    const written = this.owns[0] as Own;
    const { rules } = this.line;
    for (const { stretch, rival, differences } of dominating([...written.cuts, ...this.frugal(written)])) {
      const changes = changesBetween(written.played, rival, stretch.from, stretch.to);
      const less = (i: number): boolean => (differences[i] ?? 0) < 0;
      if (changes.length > 0)
        return { outcome: "dominated", changes, rules: rules.filter((_, i) => less(i) || less(rules.length + i)) };
    }
    const admitted = exact.some((cuts) => admitsAnyFactors(cuts, this.solve, rules.length));
    return admitted ? { outcome: "out-of-bounds" } : { outcome: "never", rivals: this.rivals.length };
  }

  /** Cuts from rivals that leave the written way at few notes only: they make the plainest examples. */
  private frugal(written: Candidate): readonly Cut[] {
    const weighting = this.line.under([]);
    return FRUGAL_WORTHS.flatMap((worth) => {
      const rival = this.line.played(this.line.free(weighting, worth));
      return this.cutsOf(written, this.candidate(rival));
    });
  }

  /** The weights in round steps, if some are found soon under which the line is the best; else as they are. */
  inSteps(weights: readonly ChangedWeight[]): readonly ChangedWeight[] {
    const steps = this.line.rules.map((rule) => WEIGHT_STEP / this.line.weight(rule));
    for (let round = 0; round < MOST_STEPPED_ROUNDS; round++) {
      const stepped = this.nearest(steps);
      if (stepped === null) return weights;
      const trial = this.trial(stepped);
      if (trial.over === 0) return stepped;
      this.learn(trial);
    }
    return weights;
  }

  private nearestFor(cuts: readonly Cut[], steps: readonly number[] | null = null): Factors | null {
    return nearestFactors(cuts, this.solve, this.line.rules.length, steps);
  }

  private candidate(played: Played): Candidate {
    return { played, amounts: this.line.amounts(played) };
  }

  private cutsOf(own: Candidate, rival: Candidate): readonly Cut[] {
    return cutsBetween(own, rival, this.line.rules);
  }

  private factorsOf(weights: readonly ChangedWeight[]): readonly number[] {
    const factors = new Map(weights.map(({ rule, from, to }) => [rule, to / from]));
    return this.line.rules.map((rule) => factors.get(rule) ?? 1);
  }

  private weightsOf(factors: readonly number[]): readonly ChangedWeight[] {
    return this.line.rules.flatMap((rule, i) => {
      const from = this.line.weight(rule);
      const factor = factors[i] ?? 1;
      const to = Math.round((from * factor) / SMALLEST_STEP) * SMALLEST_STEP;
      return Math.abs(to - from) < SMALLEST_STEP / 2 ? [] : [{ rule, from, to: Number(to.toFixed(6)) }];
    });
  }
}
