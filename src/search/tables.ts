// SPDX-License-Identifier: AGPL-3.0-or-later
// What moves cost, remembered: rhythm and pitches repeat, so few tables serve a whole melody.
import { countOfRights, type HandGap, type Left, RIGHTS, rightAt, type StrokeGap } from "../model/playing.js";
import type { Factors } from "../rule/weighting.js";
import { type Charging, handWeight, handWeights, strikeWeight, strokeWeight } from "./pricing.js";

/** Row by row for each hand arrived at, the weight from each hand before. */
export type HandTable = Float64Array;

/** The weight of every stroke after every other, for one length of time between them, asked once. */
class StrokeWeights {
  /** all strokes by all strokes; NaN where not asked yet */
  private readonly weights = new Float64Array(RIGHTS.length * RIGHTS.length).fill(Number.NaN);
  /** the same with figures among them, which are few */
  private readonly figures = new Map<string, number>();

  constructor(
    private readonly rules: Charging,
    private readonly gap: StrokeGap,
    private readonly factors: Factors,
  ) {}

  /** The weight of one move of the right hand, by ids. */
  weight(before: number, after: number): number {
    if (before >= RIGHTS.length || after >= RIGHTS.length) return this.figureWeight(before, after);
    const at = after * RIGHTS.length + before;
    const known = this.weights[at] as number;
    if (!Number.isNaN(known)) return known;
    const weight = this.asked(before, after);
    this.weights[at] = weight;
    return weight;
  }

  private figureWeight(before: number, after: number): number {
    const key = `${before} ${after}`;
    const weight = this.figures.get(key) ?? this.asked(before, after);
    this.figures.set(key, weight);
    return weight;
  }

  private asked(before: number, after: number): number {
    return strokeWeight(this.rules, rightAt(before), rightAt(after), this.gap, this.factors);
  }
}

/** What the right hand's rules charged so far; lines with the same rules for the right hand may share it. */
export class StrokeMemory {
  private readonly known = new Map<string, StrokeWeights>();

  constructor(private readonly rules: Charging) {}

  /** The weights over one length of time. */
  over(key: string, gap: StrokeGap, factors: Factors): StrokeWeights {
    let weights = this.known.get(key);
    if (weights === undefined) {
      weights = new StrokeWeights(this.rules, gap, factors);
      this.known.set(key, weights);
    }
    return weights;
  }
}

/** What every stroke costs after every other, in blocks for the lists of strokes of one line. */
export class StrokeMoves {
  private readonly blocks = new Map<Int32Array, Map<Int32Array, Float64Array>>();

  constructor(private readonly weights: StrokeWeights) {}

  /** The weight of one move of the right hand, by ids. */
  weight(before: number, after: number): number {
    return this.weights.weight(before, after);
  }

  /** Row by row for each stroke arrived at, the weights from each stroke before. Remembered by the very arrays. */
  block(before: Int32Array, after: Int32Array): Float64Array {
    let byAfter = this.blocks.get(before);
    if (byAfter === undefined) {
      byAfter = new Map();
      this.blocks.set(before, byAfter);
    }
    let block = byAfter.get(after);
    if (block === undefined) {
      block = new Float64Array(before.length * after.length);
      let at = 0;
      for (const to of after) for (const from of before) block[at++] = this.weights.weight(from, to);
      byAfter.set(after, block);
    }
    return block;
  }
}

/** More numbers than this are not kept: 128 MB. */
const MOST_KEPT = 16_000_000;

/** What the left hand's rules charged so far; lines with one tuning, one shelf of hands and one brief may share it. */
export class HandMemory {
  private readonly known = new Map<string, HandTable>();
  private kept = 0;

  /** A table by all that it depends on. */
  table(key: string, make: () => HandTable): HandTable {
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const table = make();
    if (this.kept + table.length > MOST_KEPT) {
      this.known.clear();
      this.kept = 0;
    }
    this.known.set(key, table);
    this.kept += table.length;
    return table;
  }
}

/** What lines share that differ in little. */
export interface Memory {
  readonly strokes: StrokeMemory;
  readonly hands: HandMemory;
}

/** Tables of moves for one rule book. */
export class Tables {
  private readonly strokeMoves = new Map<string, StrokeMoves>();
  private readonly strikeTables = new Map<string, Float64Array>();

  constructor(
    private readonly rules: Charging,
    private readonly memory: Memory = { strokes: new StrokeMemory(rules), hands: new HandMemory() },
  ) {}

  /** The weight of each stroke by itself, by ids. */
  strikes(factors: Factors): Float64Array {
    let table = this.strikeTables.get(factors.key);
    if (table === undefined) {
      table = Float64Array.from({ length: countOfRights() }, (_, id) => strikeWeight(this.rules, rightAt(id), factors));
      this.strikeTables.set(factors.key, table);
    }
    return table;
  }

  /** The weight of one move of the left hand. */
  hand(from: Left, to: Left, gap: HandGap, factors: Factors): number {
    return handWeight(this.rules, from, to, gap, factors);
  }

  /** The weights of all moves of the left hand between two moments. `key` names both lists; null is not remembered. */
  handTable(
    key: string | null,
    before: readonly Left[],
    after: readonly Left[],
    count: number,
    gap: HandGap,
    factors: Factors,
  ): HandTable {
    const full = `${key} ${factors.key} ${gap.seconds} ${gap.rested} ${gap.silent} ${gap.asked} ${gap.ornament}`;
    const make = (): HandTable => handWeights(this.rules, before, after, count, gap, factors);
    return key === null ? make() : this.memory.hands.table(full, make);
  }

  /** The moves of the right hand over one length of time. */
  strokesOver(gap: StrokeGap, factors: Factors): StrokeMoves {
    const key = `${factors.key} ${gap.seconds} ${gap.rested} ${gap.ornament} ${gap.ringsOn}`;
    let moves = this.strokeMoves.get(key);
    if (moves === undefined) {
      moves = new StrokeMoves(this.memory.strokes.over(key, gap, factors));
      this.strokeMoves.set(key, moves);
    }
    return moves;
  }
}
