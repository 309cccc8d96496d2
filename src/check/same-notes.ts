// SPDX-License-Identifier: AGPL-3.0-or-later
// Whether two scores hold the same melody, so that their fingerings can be laid side by side.
import { pitchName } from "../model/pitch.js";
import type { Score, ScoreNote } from "../model/score.js";
import type { Quarters } from "../model/time.js";

/** Where two melodies part first. */
export interface Parting {
  /** printed label, that of B where both have the place */
  readonly bar: string;
  /** how, in words that speak of A and B */
  readonly what: string;
}

/**
 * The first place where two melodies differ in a written pitch, an onset or a duration; null where they are the same
 * notes. Ids, marks, lyrics, tempos and fingerings may differ.
 */
export function firstParting(a: Score, b: Score): Parting | null {
  for (let i = 0; i < Math.max(a.notes.length, b.notes.length); i++) {
    const what = partingAt(a.notes[i], b.notes[i], a, b);
    if (what !== null) return { bar: barOf(a, b, i), what };
  }
  return null;
}

function partingAt(a: ScoreNote | undefined, b: ScoreNote | undefined, inA: Score, inB: Score): string | null {
  if (a === undefined) return b === undefined ? null : `beat ${b.beat} has ${nameOf(b)} in B, and A has ended`;
  if (b === undefined) return `beat ${a.beat} has ${nameOf(a)} in A, and B has ended`;
  const order = a.onset.compare(b.onset);
  if (order < 0) return `beat ${a.beat} has ${nameOf(a)} in A and no such note in B`;
  if (order > 0) return `beat ${b.beat} has ${nameOf(b)} in B and no such note in A`;
  if (a.grace !== b.grace || pitchName(a.written) !== pitchName(b.written))
    return pitchesApart(`bar ${labelOf(inA, a)}, beat ${a.beat}`, `bar ${labelOf(inB, b)}, beat ${b.beat}`, a, b);
  if (a.duration.compare(b.duration) !== 0)
    return `${nameOf(a)} on beat ${a.beat} lasts ${lengthOf(a.duration)} in A and ${lengthOf(b.duration)} in B`;
  return null;
}

/** Where bars are numbered or begun otherwise, each side's own place is named. */
function pitchesApart(placeA: string, placeB: string, a: ScoreNote, b: ScoreNote): string {
  if (placeA === placeB) return `beat ${a.beat} has ${nameOf(a)} in A and ${nameOf(b)} in B`;
  return `${placeA} has ${nameOf(a)} in A, and ${placeB} has ${nameOf(b)} in B`;
}

const nameOf = (note: ScoreNote): string => `${note.grace ? "the grace note " : ""}${pitchName(note.written)}`;

function lengthOf(duration: Quarters): string {
  const length = duration.toFraction(true);
  return `${length} quarter ${length === "1" ? "note" : "notes"}`;
}

/** The bar of B where it has a note there, else of A. */
function barOf(a: Score, b: Score, index: number): string {
  const [first, second] = [a.notes[index], b.notes[index]];
  if (first === undefined || (second !== undefined && second.onset.compare(first.onset) <= 0))
    return labelOf(b, second);
  return labelOf(a, first);
}

const labelOf = (score: Score, note: ScoreNote | undefined): string =>
  score.bars.find((bar) => bar.index === note?.bar)?.label ?? "";
