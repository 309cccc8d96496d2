// SPDX-License-Identifier: AGPL-3.0-or-later
// What the handbook's sections are made of: words and tables of plain text.
import { inWords, phrase, type Said } from "../../src/words.js";

/** A cell of a table. */
export interface Cell {
  readonly text: Said;
  /** traditional characters after an English text; empty for none */
  readonly characters: Said;
  /** the one to watch: a string that differs from the others */
  readonly odd: boolean;
}

/** A row with its heading. */
export interface Row {
  readonly head: Cell;
  readonly cells: readonly Cell[];
  /** whether the heading is to stand out */
  readonly strong: boolean;
  /** set where a new group of rows begins */
  readonly starts?: true;
}

/** A table. `wide` holds sentences, `places` is narrow columns of places, `numbers` is figures. */
export interface Table {
  readonly caption: Said;
  readonly layout: "wide" | "places" | "numbers";
  readonly head: readonly Said[];
  readonly rows: readonly Row[];
}

/** A part of a section; without a title its tables belong to the section as a whole. */
export interface Part {
  readonly id: string | null;
  readonly title: Said | null;
  readonly words: readonly Said[];
  readonly tables: readonly Table[];
}

/** A section of the handbook. */
export interface Section {
  readonly id: string;
  readonly title: Said;
  readonly words: readonly Said[];
  readonly parts: readonly Part[];
}

/** A plain cell. */
export function text(words: Said): Cell {
  return { text: words, characters: "", odd: false };
}

/** A term: pinyin with its characters in English, in Chinese the characters alone. */
export function term(pinyin: Said, characters: Said): Cell {
  return {
    text: phrase(inWords(pinyin, "en"), inWords(characters, "zh")),
    characters: phrase(inWords(characters, "en"), ""),
    odd: false,
  };
}

/** A difference in cents with its sign, "0" where there is none. @example signed(-21.5) // "−21.5" */
export function signed(cents: number): string {
  return cents === 0 ? "0" : `${cents > 0 ? "+" : "−"}${Math.abs(cents).toFixed(1)}`;
}
