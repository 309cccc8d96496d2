// SPDX-License-Identifier: AGPL-3.0-or-later
// The strings that a writer marked by number, read in both ways of counting: what contradicts itself in one may agree in
// the other.
import type { StringMark, StringNumbers } from "../model/score.js";
import type { GivenLine } from "./given.js";
import type { MelodyNote } from "./melody.js";
import type { TechnicalFacts } from "./technical.js";

/** What a line's fingering comes to in one way of counting. */
export interface CountedLine extends GivenLine {
  readonly technical: readonly TechnicalFacts[];
}

/** A line read in the way that was asked for, and what its string numbers say in both. */
export interface CountedBothWays {
  readonly line: CountedLine;
  readonly stringMarks: readonly StringMark[];
}

/**
 * Reads a line, and again from the other side where its writer marked strings.
 *
 * @param numbers how to count
 * @param read    reads the line's fingering in a way of counting
 */
export function countedBothWays(
  melody: readonly MelodyNote[],
  numbers: StringNumbers,
  read: (numbers: StringNumbers) => CountedLine,
): CountedBothWays {
  const line = read(numbers);
  const marked = melody.flatMap((note, index) =>
    line.technical[index]?.stringMarked === true ? [{ id: note.head.id, index }] : [],
  );
  if (marked.length === 0) return { line, stringMarks: [] };
  const other = read(numbers === "musicxml" ? "guqin" : "musicxml");
  const stringMarks = marked.map(({ id, index }) => ({
    note: id,
    here: countedAt(line, id, index),
    otherwise: countedAt(other, id, index),
  }));
  return { line, stringMarks };
}

function countedAt({ given, oddMarks }: GivenLine, note: string, index: number): StringMark["here"] {
  return {
    given: given[index] as StringMark["here"]["given"],
    contradicted: oddMarks.some((odd) => odd.note === note && odd.trouble === "contradicted"),
  };
}
