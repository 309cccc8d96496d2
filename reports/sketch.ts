// SPDX-License-Identifier: AGPL-3.0-or-later
// Lines and words of a picture as a template prints them: all marks of one kind are one path, so that pictures stay small.
import type { Said } from "../src/words.js";

/** A word in a picture. */
export interface SketchText {
  readonly x: number;
  readonly y: number;
  readonly text: Said;
}

/** What a template draws, from the back to the front. */
export interface Drawing {
  readonly paths: readonly { readonly kind: string; readonly d: string }[];
  readonly texts: readonly { readonly kind: string; readonly words: readonly SketchText[] }[];
}

/** Units to a tenth: finer is not seen and only makes the page larger. */
export function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/** Collects the marks of one picture; a kind that came first lies at the back. */
export class Sketch {
  readonly #paths = new Map<string, string>();
  readonly #texts = new Map<string, SketchText[]>();
  /** where the last line of a kind ends, as path data */
  readonly #ends = new Map<string, string>();

  /** Adds to the path of a kind, from a point on. @param then what follows in path data, relative or absolute */
  draw(kind: string, x: number, y: number, then: string): void {
    this.#ends.delete(kind);
    this.#paths.set(kind, `${this.#paths.get(kind) ?? ""}M${tenth(x)} ${tenth(y)}${then}`);
  }

  /** A straight line; one that begins where the last of its kind ended goes on from there. */
  line(kind: string, x1: number, y1: number, x2: number, y2: number): void {
    const then = tenth(y1) === tenth(y2) ? `H${tenth(x2)}` : `L${tenth(x2)} ${tenth(y2)}`;
    if (this.#ends.get(kind) === `${tenth(x1)} ${tenth(y1)}`) this.#paths.set(kind, `${this.#paths.get(kind)}${then}`);
    else this.draw(kind, x1, y1, then);
    this.#ends.set(kind, `${tenth(x2)} ${tenth(y2)}`);
  }

  /** A point that the kind's round line end and width make a dot. (Paper draws no square ends of nothing.) */
  dot(kind: string, x: number, y: number): void {
    this.draw(kind, x, y, "h0");
  }

  /** A word; where its point lies in it is said by the style of its kind. */
  write(kind: string, x: number, y: number, text: Said): void {
    const words = this.#texts.get(kind) ?? [];
    this.#texts.set(kind, [...words, { x: tenth(x), y: tenth(y), text }]);
  }

  /** @param order kinds that lie at the back, in this order, wherever they came; the others follow as they came */
  drawing(order: readonly string[] = []): Drawing {
    const kinds = [...new Set([...order, ...this.#paths.keys()])];
    return {
      paths: kinds.flatMap((kind) => {
        const d = this.#paths.get(kind);
        return d === undefined ? [] : [{ kind, d }];
      }),
      texts: [...this.#texts].map(([kind, words]) => ({ kind, words })),
    };
  }
}
