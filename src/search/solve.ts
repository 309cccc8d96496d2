// SPDX-License-Identifier: AGPL-3.0-or-later
// The cheapest fingering of a line, exactly, and what any other choice would cost.
import type { Choice } from "../candidates/candidates.js";
import type { Left, Right } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import { fitsExactly } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import { PLAIN_WEIGHTING, type Weighting } from "../rule/weighting.js";
import { advance, begin } from "./forward.js";
import { Moves, type Toll } from "./moves.js";
import { backwardPass, cheapest, forwardPass, type Pass, type Resumed, resumeBackward, resumeForward } from "./pass.js";
import { countStates, handsAlong, handsAt, layOut, type Step } from "./steps.js";
import type { Memory } from "./tables.js";
import { fullPath, traceBack, traceOn } from "./trace.js";

/** A fingering of a line. */
export interface Solution {
  /** one a moment */
  readonly lefts: readonly Left[];
  /** one a moment; of a note without a pluck the stroke that still stands */
  readonly rights: readonly Right[];
  /** the whole cost as one number, see `unweigh`; tolls are in it */
  readonly weight: number;
}

/** What costs are made from beside the rules. */
export interface SearchOptions {
  /** what the brief scales */
  readonly weighting?: Weighting;
  /** for each moment what leaving a given way costs beside the rules */
  readonly tolls?: readonly (Toll | null)[];
  /** a charge above so many thousandths of a spare move bars the way */
  readonly ceiling?: number;
  /** a power of two above what any line of least cost is charged by the rules themselves: such lines are then told apart */
  readonly ties?: number;
  /** what the rules charged in like lines, see there; neither this nor those with a ceiling or ties */
  readonly memory?: Memory;
}

/** A searched line, ready to be asked what a change would cost. */
export interface Searched {
  readonly solution: Solution;
  /** the cheapest line when other rules hold for one moment and the moves into it; only what changes is searched again */
  excepting(index: number, rules: readonly Rule[]): Solution;
  /** how many states a moment has */
  states(index: number): number;
  /** the hands of a state */
  hands(index: number, state: number): { readonly left: Left; readonly right: Right };
  /** what the cheapest whole line through a state costs; the first call of all takes a pass over the line */
  price(index: number, state: number): number;
  /** the cheapest whole line through a state */
  through(index: number, state: number): Solution;
  /** the line with another toll at one moment, Infinity for what is not allowed; only what changes is searched again */
  tolling(index: number, toll: Toll | null): Searched;
  /** the same line with other tolls: what moves cost is not asked again */
  retolled(tolls: readonly (Toll | null)[]): Searched;
  /** the prices of a moment's states if it had no toll */
  released(index: number): Float64Array;
  /** what the cheapest line after each state of a moment costs, without the state's own charges: they prove the optimum */
  potentials(index: number): Float64Array;
}

class Line implements Searched {
  private readonly weight: number;
  private known: readonly number[] | null = null;
  private back: Pass | null = null;

  constructor(
    private readonly moves: Moves,
    private readonly steps: readonly Step[],
    private readonly pass: Pass,
    /** the states of the cheapest line, looked for when they are first asked for */
    private readonly findPath: () => readonly number[],
    /** the backward pass, made when it is first asked for */
    private readonly makeBack: () => Pass,
  ) {
    const last = steps.length - 1;
    this.weight = last < 0 ? 0 : pass.at(last, cheapest(pass.values[last] as Float64Array));
    if (Number.isFinite(this.weight) && !Number.isSafeInteger(this.weight))
      throw new RangeError("the cheapest line costs more than sums can hold exactly");
  }

  get solution(): Solution {
    return this.line(this.path(), this.weight);
  }

  excepting(index: number, rules: readonly Rule[]): Solution {
    const moves = this.moves.excepting(index, rules);
    const resumed = resumeForward(moves, this.steps, this.pass, index);
    const path = this.resumedPath(moves, resumed, index);
    const last = this.steps.length - 1;
    return this.line(path, resumed.pass.at(last, path[last] as number));
  }

  states(index: number): number {
    return countStates(this.steps[index] as Step);
  }

  hands(index: number, state: number): { readonly left: Left; readonly right: Right } {
    return handsAt(this.steps[index] as Step, state);
  }

  price(index: number, state: number): number {
    return this.pass.at(index, state) + this.rest().at(index, state);
  }

  through(index: number, state: number): Solution {
    const front = traceBack(this.moves, this.steps, this.pass, index, state);
    const on = traceOn(this.moves, this.steps, this.rest(), index, state);
    return this.line([...front, ...on], this.price(index, state));
  }

  tolling(index: number, toll: Toll | null): Searched {
    const moves = this.moves.tolling(index, toll);
    const resumed = resumeForward(moves, this.steps, this.pass, index);
    const path = () => this.resumedPath(moves, resumed, index);
    const back = () => resumeBackward(moves, this.steps, this.rest(), index);
    return new Line(moves, this.steps, resumed.pass, path, back);
  }

  retolled(tolls: readonly (Toll | null)[]): Searched {
    const moves = this.moves.retolled(tolls);
    return lineOf(moves, this.steps);
  }

  released(index: number): Float64Array {
    const moves = this.moves.tolling(index, null);
    const values =
      index === 0
        ? begin(moves, this.steps[0] as Step)
        : advance(moves, this.steps, index, this.pass.values[index - 1] as Float64Array);
    const offset = index === 0 ? 0 : (this.pass.offsets[index - 1] as number);
    const rest = this.rest();
    return values.map((value, state) => value + offset + rest.at(index, state));
  }

  potentials(index: number): Float64Array {
    const offset = this.rest().offsets[index] as number;
    return (this.rest().values[index] as Float64Array).map((value) => value + offset);
  }

  private rest(): Pass {
    this.back ??= this.makeBack();
    return this.back;
  }

  private path(): readonly number[] {
    this.known ??= Number.isFinite(this.weight) ? this.findPath() : [];
    return this.known;
  }

  /** The cheapest line of a pass that was taken up again at a moment: from where it joined the old one, the old line. */
  private resumedPath(moves: Moves, { pass, joined }: Resumed, index: number): readonly number[] {
    const old = this.path();
    if (old.length === 0) return fullPath(moves, this.steps, pass);
    const turn = Math.min(joined, old.length - 1);
    const state = joined < old.length ? (old[turn] as number) : cheapest(pass.values[turn] as Float64Array);
    const front = traceBack(moves, this.steps, pass, turn, state, { path: old, before: index });
    return [...front, ...old.slice(turn + 1)];
  }

  private line(path: readonly number[], weight: number): Solution {
    return { ...handsAlong(this.steps, path), weight };
  }
}

/**
 * Searches a line and keeps what is needed to search again where little changes.
 *
 * @param choices what may be done, from `choicesOf`
 * @param setting instrument and hand
 * @param rules   the rule book made for the setting
 * @throws RangeError when the line is too long for exact sums
 */
export function search(
  choices: readonly Choice[],
  setting: Setting,
  rules: readonly Rule[],
  options: SearchOptions = {},
): Searched {
  const moves = movesOf(choices, setting, rules, options);
  return lineOf(moves, layOut(choices));
}

/** What a line costs, see {@link search}. @throws RangeError when the line is too long for exact sums */
export function movesOf(
  choices: readonly Choice[],
  setting: Setting,
  rules: readonly Rule[],
  options: SearchOptions,
): Moves {
  const { weighting = PLAIN_WEIGHTING, tolls = [], ceiling = Number.POSITIVE_INFINITY, ties = 0 } = options;
  const moves = Moves.under(rules, { choices, setting, weighting, tolls, ceiling, ties }, options.memory);
  if (!fitsExactly(choices.length, moves.chargesPerMoment))
    throw new RangeError(`a line of ${choices.length} notes is too long for exact sums`);
  return moves;
}

function lineOf(moves: Moves, steps: readonly Step[]): Line {
  const pass = forwardPass(moves, steps);
  const path = () => fullPath(moves, steps, pass);
  return new Line(moves, steps, pass, path, () => backwardPass(moves, steps));
}

/** The cheapest fingering of a line, see {@link search}; among equals the first in the order of candidates. */
export function solve(
  choices: readonly Choice[],
  setting: Setting,
  rules: readonly Rule[],
  options: SearchOptions = {},
): Solution {
  return search(choices, setting, rules, options).solution;
}
