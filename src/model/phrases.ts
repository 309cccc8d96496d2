// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a melody may be cut into phrases: whatever a singer would take a breath at.
import type { Score, ScoreNote } from "./score.js";

/** Notes of a phrase by index into the score's notes, both ends included. */
export interface Phrase {
  readonly from: number;
  readonly to: number;
}

/** A slur over more notes than this is a phrase, a shorter one a slide. */
const LONGEST_SLIDE_NOTES = 3;
/** Where nothing marks an end, a phrase has so many bars (common practice, no source). */
const USUAL_BARS = 4;

/**
 * The phrases of a melody. One ends before a rest, at a fermata and with a slur over four notes or more. What then goes on
 * for more than four bars is cut every four bars, at the place in the bar where the melody begins, so that an upbeat stays
 * with what it leads to. No cut goes through a chord, a slur or an ornament.
 */
export function phrasesOf(score: Score): readonly Phrase[] {
  const { notes } = score;
  const bound = boundNotes(score);
  const ends = markedEnds(score);
  const phrases: Phrase[] = [];
  let from = 0;
  for (let i = 1; i <= notes.length; i++) {
    const end = i === notes.length || (!bound.has(i) && (ends.has(i) || isFull(score, from, i)));
    if (!end) continue;
    phrases.push({ from, to: i - 1 });
    from = i;
  }
  return phrases;
}

/** Notes that stay with the one before them. */
function boundNotes({ notes, slurs }: Score): ReadonlySet<number> {
  const at = new Map(notes.map((note, i) => [note.id, i]));
  const bound = new Set<number>();
  for (const { from, to } of slurs) for (let i = (at.get(from) ?? 0) + 1; i <= (at.get(to) ?? 0); i++) bound.add(i);
  for (const [i, note] of notes.entries()) {
    const before = notes[i - 1];
    if (before === undefined) continue;
    if (before.grace || (note.chord !== null && note.chord === before.chord)) bound.add(i);
  }
  return bound;
}

/** Notes before which the score marks an end. */
function markedEnds({ notes, slurs }: Score): ReadonlySet<number> {
  const at = new Map(notes.map((note, i) => [note.id, i]));
  const ends = new Set<number>();
  for (const { to, count } of slurs) if (count > LONGEST_SLIDE_NOTES) ends.add((at.get(to) ?? 0) + 1);
  for (const [i, note] of notes.entries()) {
    const before = notes[i - 1];
    if (before === undefined) continue;
    const rest = before.onset.add(before.duration).compare(note.onset) < 0;
    if (rest || before.marks.fermata) ends.add(i);
  }
  return ends;
}

/** Whether the phrase from one note on has its bars before another. */
function isFull({ bars, notes }: Score, from: number, to: number): boolean {
  const first = notes[from] as ScoreNote;
  const start = bars[first.bar];
  const full = bars[first.bar + USUAL_BARS];
  const note = notes[to] as ScoreNote;
  if (start === undefined || full === undefined) return false;
  const within = first.onset.sub(start.onset).add(
    start.firstBeat
      .sub(1)
      .mul(4)
      .div(start.meter?.beatType ?? 4),
  );
  return note.onset.compare(full.onset.add(within)) >= 0;
}
