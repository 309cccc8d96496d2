// SPDX-License-Identifier: AGPL-3.0-or-later
// What moves cost, remembered: rhythm and pitches repeat, so few tables serve a whole melody.
import { type HandGap, type Left, RIGHTS, type Right, type StrokeGap } from "../model/playing.js";
import { type Charging, handWeight, strokeWeight } from "./pricing.js";

/** Row by row for each hand arrived at, the weight from each hand before. */
export type HandTable = Float64Array;

/** Tables of moves for one rule book. */
export class Tables {
  private readonly handTables = new Map<string, HandTable>();
  private readonly strokeTables = new Map<string, Float64Array>();

  constructor(private readonly rules: Charging) {}

  /** The weight of one move of the left hand. */
  hand(from: Left, to: Left, gap: HandGap): number {
    return handWeight(this.rules.handMove, from, to, gap);
  }

  /** The weights of all moves of the left hand between two moments. `key` names both lists; null is not remembered. */
  handTable(
    key: string | null,
    before: readonly Left[],
    after: readonly Left[],
    count: number,
    gap: HandGap,
  ): HandTable {
    const full = `${key} ${gap.seconds} ${gap.rested} ${gap.silent} ${gap.asked} ${gap.ornament}`;
    const known = key === null ? undefined : this.handTables.get(full);
    if (known !== undefined) return known;
    const table = new Float64Array(count * before.length);
    let at = 0;
    for (let l = 0; l < count; l++)
      for (let p = 0; p < before.length; p++) table[at++] = this.hand(before[p] as Left, after[l] as Left, gap);
    if (key !== null) this.handTables.set(full, table);
    return table;
  }

  /** The weight of one move of the right hand, by ids of RIGHTS. */
  stroke(before: number, after: number, gap: StrokeGap): number {
    const table = this.strokeTable(gap);
    const at = after * RIGHTS.length + before;
    const known = table[at] as number;
    if (!Number.isNaN(known)) return known;
    const weight = strokeWeight(this.rules.strokeMove, RIGHTS[before] as Right, RIGHTS[after] as Right, gap);
    table[at] = weight;
    return weight;
  }

  /** Row by row for each stroke arrived at, the weights from each stroke before. */
  strokeBlock(before: Int32Array, after: Int32Array, gap: StrokeGap): Float64Array {
    const block = new Float64Array(before.length * after.length);
    let at = 0;
    for (const to of after) for (const from of before) block[at++] = this.stroke(from, to, gap);
    return block;
  }

  /** All strokes by all strokes for one gap of time; NaN where not asked yet. */
  private strokeTable(gap: StrokeGap): Float64Array {
    const key = `${gap.seconds} ${gap.rested} ${gap.ringsOn}`;
    let table = this.strokeTables.get(key);
    if (table === undefined) {
      table = new Float64Array(RIGHTS.length * RIGHTS.length).fill(Number.NaN);
      this.strokeTables.set(key, table);
    }
    return table;
  }
}
