// SPDX-License-Identifier: AGPL-3.0-or-later
// The cheapest fingering, exactly. Left and right hand meet only in the string, so a step is two small minimisations:
//   A[L', r]   = min over r' of  best'[L', r'] + strokeMove(r', r)
//   best[L, r] = place(L) + strike(r) + min over L' of  A[L', r] + handMove(L', L)
// A note without a pluck keeps r. Costs are whole numbers in doubles, so equality is exact.
import type { Choice } from "../candidates/candidates.js";
import { follows } from "../candidates/lefts.js";
import type { Moment } from "../model/moments.js";
import { type Left, RIGHTS, RIGHTS_FROM, type Right, rightAt, type Strings } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import { fitsExactly } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import { PLAIN_WEIGHTING, type Weighting } from "../rule/weighting.js";
import { minPlus, strikeFrom } from "./min-plus.js";
import { type Charging, chargingRules, handGapAt, placeWeight, START, strokeGapAt } from "./pricing.js";
import { type HandTable, type StrokeMoves, Tables } from "./tables.js";

/** The best fingering of a line. */
export interface Solution {
  /** one a moment */
  readonly lefts: readonly Left[];
  /** one a moment; of a note without a pluck the stroke that still stands */
  readonly rights: readonly Right[];
  /** the whole cost as one number, see `unweigh` */
  readonly weight: number;
  /** additions compared, for benchmarks */
  readonly relaxations: number;
}

/** One moment of the forward pass. */
interface Step {
  readonly lefts: readonly Left[];
  readonly plucked: number;
  /** for each left, where its strokes begin in `best` */
  readonly from: Int32Array;
  /** for each left, the ids of the strokes that it may have, ascending */
  readonly ids: readonly Int32Array[];
  readonly best: Float64Array;
  /** for each left the row of the hand table that it reads as a predecessor */
  readonly group: Int32Array;
  /** one left of each group */
  readonly groups: readonly Left[];
  /** names the groups for the table's memory; null where they are not shared */
  readonly groupsKey: string | null;
}

/** What leaving the writer's way costs at one moment, in thousandths, beside what the rules charge. */
export interface Toll {
  readonly left: (left: Left) => number;
  readonly right: (right: Right) => number;
}

/** The rules of a step with what they charged so far. */
interface Book {
  readonly rules: Charging;
  readonly tables: Tables;
}

const bookOf = (rules: readonly Rule[]): Book => {
  const charging = chargingRules(rules);
  return { rules: charging, tables: new Tables(charging) };
};

/** The exact dynamic programme over typed arrays. */
class Search {
  private readonly book: Book;
  /** rules that hold at one moment only, in place of the book */
  private exception: { readonly index: number; readonly book: Book } | null = null;
  private readonly steps: Step[] = [];
  /** the state of the cheapest line at each moment */
  private readonly path: number[] = [];
  private readonly moments: readonly Moment[];
  private readonly offers = new Offers();
  relaxations = 0;

  constructor(
    private readonly choices: readonly Choice[],
    private readonly setting: Setting,
    rules: readonly Rule[],
    private readonly weighting: Weighting,
    private readonly tolls: readonly (Toll | null)[],
  ) {
    this.book = bookOf(rules);
    this.moments = choices.map((choice) => choice.moment);
    const { place, strike, handMove, strokeMove } = this.book.rules;
    // A chord's two notes are both asked by the place rules.
    const most = 2 * place.length + strike.length + handMove.length + strokeMove.length;
    if (!fitsExactly(choices.length, most))
      throw new RangeError(`a line of ${choices.length} notes is too long for exact sums`);
  }

  run(): Solution {
    const { steps } = this;
    for (let i = 0; i < this.choices.length; i++) steps.push(this.advance(i, steps));
    const last = steps.at(-1);
    if (last === undefined) return { lefts: [], rights: [], weight: 0, relaxations: 0 };
    const state = cheapest(last.best);
    const weight = last.best[state] as number;
    if (!Number.isSafeInteger(weight)) throw new RangeError("the cheapest line costs more than sums can hold exactly");
    return { ...this.trace(steps, steps.length - 1, state, this.path), weight, relaxations: this.relaxations };
  }

  /**
   * The cheapest line when other rules hold at one moment, that is for the moves into it and the note itself. Only what
   * changes is searched again: as soon as all values differ from the old ones by one constant, the rest is the old line.
   */
  excepting(index: number, rules: readonly Rule[], base: Solution): Solution {
    this.exception = { index, book: bookOf(rules) };
    try {
      const steps = this.steps.slice(0, index);
      for (let i = index; i < this.choices.length; i++) {
        const step = this.advance(i, steps);
        steps.push(step);
        const offset = constantOffset(step.best, (this.steps[i] as Step).best);
        if (offset === null) continue;
        const front = this.trace(steps, i, this.path[i] as number);
        return {
          lefts: [...front.lefts, ...base.lefts.slice(i + 1)],
          rights: [...front.rights, ...base.rights.slice(i + 1)],
          weight: base.weight + offset,
          relaxations: this.relaxations,
        };
      }
      const { best } = steps.at(-1) as Step;
      const state = cheapest(best);
      return {
        ...this.trace(steps, steps.length - 1, state),
        weight: best[state] as number,
        relaxations: this.relaxations,
      };
    } finally {
      this.exception = null;
    }
  }

  private bookAt(index: number): Book {
    return this.exception?.index === index ? this.exception.book : this.book;
  }

  /** Lays out a moment's states and fills them from the moment before. */
  private advance(index: number, steps: readonly Step[]): Step {
    const step = this.layOut(index, steps);
    const place = Float64Array.from(step.lefts, (left) => this.placeAt(index, left));
    const before = steps[index - 1];
    if (before === undefined) this.begin(step, place);
    else {
      this.pluck(index, steps, step, place);
      this.carry(index, before, step, place);
    }
    return step;
  }

  private layOut(index: number, steps: readonly Step[]): Step {
    const choice = this.choices[index] as Choice;
    const offered = this.offers.at(choice);
    const ids = choice.lefts.map((left, l) =>
      l < choice.plucked ? (offered.get(left.strings) as Int32Array) : idsAtPluck(left, steps[index - 1] as Step),
    );
    const from = new Int32Array(ids.length + 1);
    for (const [l, list] of ids.entries()) from[l + 1] = (from[l] as number) + list.length;
    const grouped = groupByPlace(choice);
    const best = new Float64Array(from[ids.length] as number).fill(Number.POSITIVE_INFINITY);
    return { lefts: choice.lefts, plucked: choice.plucked, from, ids, best, ...grouped };
  }

  /** The first moment: the hands may be anywhere. */
  private begin(step: Step, place: Float64Array): void {
    const gap = handGapAt(this.moments, 0, 0);
    const strike = this.strikesAt(0);
    for (let l = 0; l < step.plucked; l++) {
      const left = step.lefts[l] as Left;
      const arrive = (place[l] as number) + this.bookAt(0).tables.hand(START, left, gap, this.weighting.between(0, 0));
      for (const [j, id] of (step.ids[l] as Int32Array).entries())
        step.best[(step.from[l] as number) + j] = arrive + (strike[id] as number);
    }
  }

  /** Plucked (and silent) hands: first the stroke is chosen, then the hand before. */
  private pluck(index: number, steps: readonly Step[], step: Step, place: Float64Array): void {
    if (step.plucked === 0) return;
    const before = steps[index - 1] as Step;
    const table = this.handTable(index, before, step);
    const moves = this.strokeMoves(index, before);
    const strike = this.strikesAt(index);
    const width = before.groups.length;
    const reached = new Map<number, Float64Array>();
    for (let l = 0; l < step.plucked; l++) {
      const ids = step.ids[l] as Int32Array;
      const strings = (step.lefts[l] as Left).strings.id;
      let row = reached.get(strings);
      if (row === undefined) {
        row = this.reach(before, moves, ids);
        reached.set(strings, row);
      }
      minPlus(row, table, l * width, width, ids.length, step.best, step.from[l] as number);
      this.relaxations += width * ids.length;
      for (let j = 0; j < ids.length; j++)
        step.best[(step.from[l] as number) + j] =
          (step.best[(step.from[l] as number) + j] as number) +
          (place[l] as number) +
          (strike[ids[j] as number] as number);
    }
  }

  /** What a left hand costs by itself at a moment. */
  private placeAt(index: number, left: Left): number {
    const { moment } = this.choices[index] as Choice;
    const factors = this.weighting.between(index, index);
    return placeWeight(this.bookAt(index).rules.place, moment, left, factors) + (this.tolls[index]?.left(left) ?? 0);
  }

  /** What each stroke costs by itself at a moment, by ids. */
  private strikesAt(index: number): Float64Array {
    const strikes = this.bookAt(index).tables.strikes(this.weighting.between(index, index));
    const toll = this.tolls[index];
    return toll ? strikes.map((weight, id) => weight + toll.right(rightAt(id))) : strikes;
  }

  /** What the right hand's moves cost into a moment, after so many notes without a pluck. */
  private strokesInto(index: number, chainBefore: number): StrokeMoves {
    const pluck = Math.max(0, index - 1 - chainBefore);
    return this.bookAt(index).tables.strokesOver(
      strokeGapAt(this.moments, index, chainBefore),
      this.weighting.between(pluck, index),
    );
  }

  private handTable(index: number, before: Step, step: Step): HandTable {
    const key = this.tableKey(index, before);
    return this.bookAt(index).tables.handTable(
      key,
      before.groups,
      step.lefts,
      step.plucked,
      handGapAt(this.moments, index, 0),
      this.weighting.between(index - 1, index),
    );
  }

  /** Names the two lists of hands that meet at a moment; null where they are not shared with other moments. */
  private tableKey(index: number, before: Step): string | null {
    const { pluckedList } = this.choices[index] as Choice;
    return before.groupsKey !== null && pluckedList >= 0 ? `${before.groupsKey}>${pluckedList}` : null;
  }

  /** What the right hand's moves cost into this moment, by the number of notes without a pluck just before. */
  private strokeMoves(index: number, before: Step): readonly StrokeMoves[] {
    const longest = before.lefts.reduce((most, left) => Math.max(most, left.chain), 0);
    return Array.from({ length: longest + 1 }, (_, chain) => this.strokesInto(index, chain));
  }

  /** A: for each stroke of `ids` and each group of hands before, the cheapest way to have struck it from there. */
  private reach(before: Step, moves: readonly StrokeMoves[], ids: Int32Array): Float64Array {
    const width = before.groups.length;
    const out = new Float64Array(ids.length * width).fill(Number.POSITIVE_INFINITY);
    for (let l = 0; l < before.lefts.length; l++) {
      const fromIds = before.ids[l] as Int32Array;
      const block = (moves[(before.lefts[l] as Left).chain] as StrokeMoves).block(fromIds, ids);
      strikeFrom(
        before.best,
        before.from[l] as number,
        fromIds.length,
        block,
        ids.length,
        out,
        before.group[l] as number,
        width,
      );
      this.relaxations += fromIds.length * ids.length;
    }
    return out;
  }

  /** Hands without a pluck: the stroke stands, the hand comes from the same string. */
  private carry(index: number, before: Step, step: Step, place: Float64Array): void {
    const factors = this.weighting.between(index - 1, index);
    for (let l = step.plucked; l < step.lefts.length; l++) {
      const left = step.lefts[l] as Left;
      const gap = handGapAt(this.moments, index, left.chain);
      const at = step.from[l] as number;
      const count = (step.ids[l] as Int32Array).length;
      for (let p = 0; p < before.lefts.length; p++) {
        const from = before.lefts[p] as Left;
        if (!follows(from, left, this.setting)) continue;
        const move = this.bookAt(index).tables.hand(from, left, gap, factors) + (place[l] as number);
        for (let j = 0; j < count; j++) {
          const value = (before.best[(before.from[p] as number) + j] as number) + move;
          if (value < (step.best[at + j] as number)) step.best[at + j] = value;
        }
        this.relaxations += count;
      }
    }
  }

  /**
   * Walks back from a state along the cheapest line, looking again for the predecessor that gave each value; first in
   * order wins. `path` receives the states.
   */
  private trace(
    steps: readonly Step[],
    from: number,
    state: number,
    path: number[] = [],
  ): Pick<Solution, "lefts" | "rights"> {
    const lefts: Left[] = [];
    const rights: Right[] = [];
    let at = state;
    for (let i = from; i >= 0; i--) {
      const step = steps[i] as Step;
      const l = ownerOf(step, at);
      path[i] = at;
      lefts.push(step.lefts[l] as Left);
      rights.push(rightAt((step.ids[l] as Int32Array)[at - (step.from[l] as number)] as number));
      if (i > 0) at = this.predecessor(i, steps, l, at);
    }
    return { lefts: lefts.reverse(), rights: rights.reverse() };
  }

  private predecessor(index: number, steps: readonly Step[], l: number, reached: number): number {
    const step = steps[index] as Step;
    const value = step.best[reached] as number;
    const before = steps[index - 1] as Step;
    const left = step.lefts[l] as Left;
    const j = reached - (step.from[l] as number);
    const id = (step.ids[l] as Int32Array)[j] as number;
    const plucked = l < step.plucked;
    const handGap = handGapAt(this.moments, index, left.chain);
    const factors = this.weighting.between(index - 1, index);
    const own = this.placeAt(index, left) + (plucked ? (this.strikesAt(index)[id] as number) : 0);
    const known = plucked && this.tableKey(index, before) !== null ? this.handTable(index, before, step) : null;
    for (let p = 0; p < before.lefts.length; p++) {
      const from = before.lefts[p] as Left;
      if (!plucked && !follows(from, left, this.setting)) continue;
      const at = l * before.groups.length + (before.group[p] as number);
      const move =
        (known === null ? this.bookAt(index).tables.hand(from, left, handGap, factors) : (known[at] as number)) + own;
      const strokes = this.strokesInto(index, from.chain);
      for (const [q, fromId] of (before.ids[p] as Int32Array).entries()) {
        if (!plucked && q !== j) continue;
        const stroke = plucked ? strokes.weight(fromId, id) : 0;
        const state = (before.from[p] as number) + q;
        if ((before.best[state] as number) + stroke + move === value) return state;
      }
    }
    throw new Error(`no predecessor gives the value at moment ${index}`);
  }
}

/** Lists of strokes by content: equal lists are one array, so that tables can be remembered by it. */
class Offers {
  private readonly known = new Map<string, Int32Array>();

  /** The ids of the strokes that may be used at a moment, for all strings that a plucked hand of it has. */
  at({ lefts, plucked, rights }: Choice): ReadonlyMap<Strings, Int32Array> {
    const offered = new Map<Strings, Int32Array>();
    for (let l = 0; l < plucked; l++) {
      const { strings } = lefts[l] as Left;
      if (!offered.has(strings)) offered.set(strings, this.one(strings, rights));
    }
    return offered;
  }

  private one(strings: Strings, rights: Uint8Array): Int32Array {
    const ids: number[] = [];
    for (let id = RIGHTS_FROM[strings.id] as number; id < (RIGHTS_FROM[strings.id + 1] as number); id++)
      if (rights[id] === 1) ids.push(id);
    for (let id = RIGHTS.length; id < rights.length; id++)
      if (rights[id] === 1 && rightAt(id).strings === strings) ids.push(id);
    const key = ids.join();
    const list = this.known.get(key) ?? Int32Array.from(ids);
    this.known.set(key, list);
    return list;
  }
}

/** A note without a pluck keeps the strokes of the pluck it hangs on. */
function idsAtPluck(left: Left, before: Step): Int32Array {
  const from = before.lefts.findIndex(
    (one) => one.strings === left.strings && one.chain + 1 === left.chain && one.first?.sound === "stopped",
  );
  return before.ids[from] as Int32Array;
}

/** Hands at one place are one group, however they got there: what follows costs them the same. */
function groupByPlace(choice: Choice): Pick<Step, "group" | "groups" | "groupsKey"> {
  const { lefts, plucked } = choice;
  const group = Int32Array.from(lefts, (_, l) => l);
  if (plucked === lefts.length)
    return { group, groups: lefts, groupsKey: choice.pluckedList >= 0 ? `${choice.pluckedList}` : null };
  const known = new Map<string, number>();
  const groups: Left[] = [];
  for (const [l, left] of lefts.entries()) {
    const key = `${left.placed.map((p) => [p.string, p.exact, p.finger, p.contact, p.sound].join()).join("+")}@${left.handFromCm}`;
    let at = known.get(key);
    if (at === undefined) {
      at = groups.push(left) - 1;
      known.set(key, at);
    }
    group[l] = at;
  }
  const shared = choice.pluckedList >= 0 && groups.length === plucked;
  return { group, groups, groupsKey: shared ? `${choice.pluckedList}` : null };
}

/** The first of the least values. */
function cheapest(values: Float64Array): number {
  let best = 0;
  for (let k = 1; k < values.length; k++) if ((values[k] as number) < (values[best] as number)) best = k;
  return best;
}

/** The constant by which all values differ from the old ones; null where they differ otherwise. */
function constantOffset(values: Float64Array, old: Float64Array): number | null {
  let offset: number | null = null;
  for (let k = 0; k < values.length; k++) {
    const a = values[k] as number;
    const b = old[k] as number;
    if (a === b && !Number.isFinite(a)) continue;
    if (offset === null) offset = a - b;
    else if (a - b !== offset) return null;
  }
  return offset;
}

/** Which left a state belongs to. */
function ownerOf(step: Step, state: number): number {
  let l = 0;
  while ((step.from[l + 1] as number) <= state) l++;
  return l;
}

/** A searched line, ready to be asked what a change would cost. */
export interface Searched {
  readonly solution: Solution;
  /** the cheapest line when other rules hold for one moment and the moves into it */
  excepting(index: number, rules: readonly Rule[]): Solution;
}

/**
 * Searches a line and keeps what is needed to search again where little changes.
 *
 * @param choices   what may be done, from `choicesOf`
 * @param setting   instrument and hand
 * @param rules     the rule book made for the setting
 * @param weighting what the brief scales
 * @param tolls     for each moment what leaving the writer's way costs beside the rules; none where left out
 */
export function search(
  choices: readonly Choice[],
  setting: Setting,
  rules: readonly Rule[],
  weighting: Weighting = PLAIN_WEIGHTING,
  tolls: readonly (Toll | null)[] = [],
): Searched {
  const searching = new Search(choices, setting, rules, weighting, tolls);
  const solution = searching.run();
  return { solution, excepting: (index, others) => searching.excepting(index, others, solution) };
}

/** The cheapest fingering of a line, see {@link search}; among equals the first in the order of candidates. */
export function solve(
  choices: readonly Choice[],
  setting: Setting,
  rules: readonly Rule[],
  weighting: Weighting = PLAIN_WEIGHTING,
): Solution {
  return search(choices, setting, rules, weighting).solution;
}
