// SPDX-License-Identifier: AGPL-3.0-or-later
// What everything costs along one line: both passes and the walks along the cheapest lines ask here and nowhere else.
import type { Choice } from "../candidates/candidates.js";
import type { Moment } from "../model/moments.js";
import { type Left, type Right, rightAt } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import type { Rule } from "../rule/types.js";
import type { Weighting } from "../rule/weighting.js";
import { type Charging, chargingRules, handGapAt, placeWeight, START, strokeGapAt } from "./pricing.js";
import type { Step } from "./steps.js";
import { type HandTable, type Memory, type StrokeMoves, Tables } from "./tables.js";

/** What leaving a given way costs at one moment, in thousandths, beside what the rules charge. */
export interface Toll {
  readonly left: (left: Left) => number;
  /** asked where something is struck: a note without a pluck pays for its hand alone */
  readonly right: (right: Right) => number;
}

/** All that costs are made from. */
export interface Terms {
  readonly choices: readonly Choice[];
  readonly setting: Setting;
  readonly weighting: Weighting;
  /** one a moment; a line without tolls has none */
  readonly tolls: readonly (Toll | null)[];
  /** a charge above so many thousandths bars the way; Infinity where none does */
  readonly ceiling: number;
  /** see `Charging`; 0 where equal lines stay equal */
  readonly ties: number;
}

/** The rules of a step with what they charged so far. */
interface Book {
  readonly rules: Charging;
  readonly tables: Tables;
}

const bookOf = (rules: readonly Rule[], terms: Terms, memory?: Memory): Book => {
  const charging = chargingRules(rules, terms);
  return { rules: charging, tables: new Tables(charging, memory) };
};

/** What hands cost by themselves; asked once for hands in a row that differ only in where they wait. */
function placedAlike(lefts: readonly Left[], place: (left: Left) => number): Float64Array {
  const weights = new Float64Array(lefts.length);
  for (const [l, left] of lefts.entries()) {
    const before = lefts[l - 1];
    weights[l] = before !== undefined && holdsAlike(before, left) ? (weights[l - 1] as number) : place(left);
  }
  return weights;
}

const holdsAlike = (a: Left, b: Left): boolean =>
  a.first !== null &&
  a.first === b.first &&
  a.second === b.second &&
  a.placed.length === b.placed.length &&
  a.arrival === b.arrival &&
  a.chain === b.chain &&
  a.missing.length + b.missing.length === 0;

/** The costs of a line. */
export class Moves {
  private readonly moments: readonly Moment[];

  private constructor(
    readonly terms: Terms,
    private readonly book: Book,
    /** rules that hold at one moment only, in place of the book */
    private readonly exception: { readonly index: number; readonly book: Book } | null,
    /** what the rules charge for the hands of a step by themselves, by moment: every pass and every line with other tolls asks again */
    private readonly placed: Map<number, Float64Array>,
  ) {
    this.moments = terms.choices.map((choice) => choice.moment);
  }

  /** The costs under a rule book. @param memory what the rules charged in like lines */
  static under(rules: readonly Rule[], terms: Terms, memory?: Memory): Moves {
    return new Moves(terms, bookOf(rules, terms, memory), null, new Map());
  }

  /** The same costs but at one moment, for the moves into it and the note itself, where other rules hold. */
  excepting(index: number, rules: readonly Rule[]): Moves {
    const placed = new Map(this.placed);
    placed.delete(index);
    return new Moves(this.terms, this.book, { index, book: bookOf(rules, this.terms) }, placed);
  }

  /** The same costs with another toll at one moment. */
  tolling(index: number, toll: Toll | null): Moves {
    return this.retolled(this.terms.choices.map((_, i) => (i === index ? toll : (this.terms.tolls[i] ?? null))));
  }

  /** The same costs with other tolls. */
  retolled(tolls: readonly (Toll | null)[]): Moves {
    return new Moves({ ...this.terms, tolls }, this.book, this.exception, this.placed);
  }

  /** Charges that one moment can have at most. */
  get chargesPerMoment(): number {
    const { place, strike, handMove, strokeMove } = this.book.rules;
    // A chord's two notes are both asked by the place rules.
    return 2 * place.length + strike.length + handMove.length + strokeMove.length;
  }

  /** What each left hand of a step costs by itself. */
  places(index: number, step: Step): Float64Array {
    let known = this.placed.get(index);
    if (known === undefined) {
      known = placedAlike(step.lefts, this.placing(index));
      this.placed.set(index, known);
    }
    const toll = this.terms.tolls[index];
    return toll ? known.map((weight, l) => weight + toll.left(step.lefts[l] as Left)) : known;
  }

  /** What a left hand costs by itself at a moment. */
  place(index: number, left: Left): number {
    return this.placing(index)(left) + (this.terms.tolls[index]?.left(left) ?? 0);
  }

  /** What the rules charge for a left hand by itself. */
  private placing(index: number): (left: Left) => number {
    const { moment } = this.terms.choices[index] as Choice;
    const { rules } = this.bookAt(index);
    const factors = this.terms.weighting.between(index, index);
    return (left) => placeWeight(rules, moment, left, factors);
  }

  /** What each stroke costs by itself at a moment, by ids. */
  strikes(index: number): Float64Array {
    const strikes = this.bookAt(index).tables.strikes(this.terms.weighting.between(index, index));
    const toll = this.terms.tolls[index];
    return toll ? strikes.map((weight, id) => weight + toll.right(rightAt(id))) : strikes;
  }

  /** What the first hand costs to be there. */
  start(left: Left): number {
    const { weighting } = this.terms;
    return this.bookAt(0).tables.hand(START, left, handGapAt(this.moments, 0, 0), weighting.between(0, 0));
  }

  /** What one move of the left hand costs into a moment. */
  hand(index: number, from: Left, to: Left): number {
    const gap = handGapAt(this.moments, index, to.chain);
    return this.bookAt(index).tables.hand(from, to, gap, this.terms.weighting.between(index - 1, index));
  }

  /** What moves into all plucked hands of a moment cost, row by row from each group of hands before. */
  handTable(index: number, before: Step, step: Step): HandTable {
    return this.bookAt(index).tables.handTable(
      this.tableKey(index, before),
      before.groups,
      step.lefts,
      step.plucked,
      handGapAt(this.moments, index, 0),
      this.terms.weighting.between(index - 1, index),
    );
  }

  /** Whether a moment's hand table is remembered, so that asking for it again is free. */
  remembers(index: number, before: Step): boolean {
    return this.tableKey(index, before) !== null;
  }

  /** What the right hand's moves cost into a moment, after so many notes without a pluck. */
  strokesInto(index: number, chainBefore: number): StrokeMoves {
    const pluck = Math.max(0, index - 1 - chainBefore);
    return this.bookAt(index).tables.strokesOver(
      strokeGapAt(this.moments, index, chainBefore),
      this.terms.weighting.between(pluck, index),
    );
  }

  /** The same for each number of notes without a pluck that the hands before may have. */
  strokesAfter(index: number, before: Step): readonly StrokeMoves[] {
    const longest = before.lefts.reduce((most, left) => Math.max(most, left.chain), 0);
    return Array.from({ length: longest + 1 }, (_, chain) => this.strokesInto(index, chain));
  }

  /** Names the two lists of hands that meet at a moment; null where they are not shared with other moments. */
  private tableKey(index: number, before: Step): string | null {
    const { pluckedList } = this.terms.choices[index] as Choice;
    return before.groupsKey !== null && pluckedList >= 0 ? `${before.groupsKey}>${pluckedList}` : null;
  }

  private bookAt(index: number): Book {
    return this.exception?.index === index ? this.exception.book : this.book;
  }
}
