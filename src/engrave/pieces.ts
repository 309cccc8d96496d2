// SPDX-License-Identifier: AGPL-3.0-or-later
// A melody cut at its bar lines: what stands on the staff, one after the other, with the gaps as rests.
import type { Bar, Score } from "../model/score.js";
import { earlier, type Quarters, ZERO } from "../model/time.js";

/** Notes that begin together, cut at bar lines; or a rest (no notes). */
export interface Piece {
  /** indexes into the score's notes, lowest first; empty for a rest */
  readonly notes: readonly number[];
  /** from the start of the bar */
  readonly from: Quarters;
  readonly length: Quarters;
  /** continues the piece before (a tie) */
  readonly continued: boolean;
  /** goes on in the next bar */
  readonly goesOn: boolean;
  /** grace notes before it, each one note or chord */
  readonly graces: readonly (readonly number[])[];
}

interface Group {
  readonly notes: readonly number[];
  readonly onset: Quarters;
  readonly end: Quarters;
  readonly graces: readonly (readonly number[])[];
}

/** The pieces of every bar, in the order of {@link Score.bars}. */
export function cutAtBars(score: Score): readonly (readonly Piece[])[] {
  const groups = gatherChords(score);
  let next = 0;
  return score.bars.map((bar) => {
    const barEnd = bar.onset.add(bar.length);
    while (next < groups.length && (groups[next] as Group).end.compare(bar.onset) <= 0) next++;
    const pieces: Piece[] = [];
    let at: Quarters = bar.onset;
    for (let i = next; i < groups.length; i++) {
      const group = groups[i] as Group;
      if (group.onset.compare(barEnd) >= 0) break;
      const continued = group.onset.compare(bar.onset) < 0;
      const from = continued ? bar.onset : group.onset;
      if (from.compare(at) > 0) pieces.push(rest(bar, at, from));
      const until = earlier(group.end, barEnd);
      pieces.push({
        notes: group.notes,
        from: from.sub(bar.onset),
        length: until.sub(from),
        continued,
        goesOn: group.end.compare(barEnd) > 0,
        graces: continued ? [] : group.graces,
      });
      at = until;
    }
    if (at.compare(barEnd) < 0) pieces.push(rest(bar, at, barEnd));
    return pieces;
  });
}

function rest(bar: Bar, from: Quarters, until: Quarters): Piece {
  return { notes: [], from: from.sub(bar.onset), length: until.sub(from), continued: false, goesOn: false, graces: [] };
}

/** Chords as one group each; a note that would sound into the next one is cut there, since one staff line holds one voice. */
function gatherChords(score: Score): readonly Group[] {
  const groups: { notes: number[]; onset: Quarters; end: Quarters; graces: number[][] }[] = [];
  let graces: number[][] = [];
  score.notes.forEach((note, i) => {
    const before = i === 0 ? undefined : score.notes[i - 1];
    const joins = note.chord !== null && before?.chord === note.chord;
    if (note.grace) {
      const chord = graces.at(-1);
      if (joins && chord !== undefined) chord.push(i);
      else graces.push([i]);
      return;
    }
    const last = groups.at(-1);
    if (joins && last !== undefined) {
      last.notes.push(i);
      return;
    }
    if (last !== undefined) last.end = earlier(last.end, note.onset);
    groups.push({ notes: [i], onset: note.onset, end: note.onset.add(note.duration), graces });
    graces = [];
  });
  return groups.filter((group) => group.end.sub(group.onset).compare(ZERO) > 0);
}
