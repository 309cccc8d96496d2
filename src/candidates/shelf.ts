// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Left, Placed } from "../model/playing.js";

/** A list of plucked hands; equal lists are one. */
export interface NumberedLefts {
  readonly id: number;
  readonly lefts: readonly Left[];
}

/**
 * Ways to hold notes, kept for further lines. What lies how far above an open string is held in one way in every tuning,
 * so that many settings of one melody share most of them. Lines that share a shelf have the same hand and length of
 * strings.
 */
export class Shelf {
  private readonly placements = new Map<string, readonly Placed[]>();
  private readonly plucked = new Map<Placed, readonly Left[]>();
  private readonly numbers = new Map<Left, number>();
  private readonly lists = new Map<string, NumberedLefts>();

  /** The ways to hold a note on a string. @param key all that they depend on */
  placed(key: string, make: () => readonly Placed[]): readonly Placed[] {
    let known = this.placements.get(key);
    if (known === undefined) {
      known = make();
      this.placements.set(key, known);
    }
    return known;
  }

  /** The plucked hands of one way to hold a note. */
  lefts(placed: Placed, make: () => readonly Left[]): readonly Left[] {
    let known = this.plucked.get(placed);
    if (known === undefined) {
      known = make();
      this.plucked.set(placed, known);
    }
    return known;
  }

  /** The list with its number. */
  list(lefts: readonly Left[]): NumberedLefts {
    const key = lefts.map((left) => this.numberOf(left)).join();
    let known = this.lists.get(key);
    if (known === undefined) {
      known = { id: this.lists.size, lefts };
      this.lists.set(key, known);
    }
    return known;
  }

  private numberOf(left: Left): number {
    const known = this.numbers.get(left) ?? this.numbers.size;
    this.numbers.set(left, known);
    return known;
  }
}
