// SPDX-License-Identifier: AGPL-3.0-or-later
// Hairpins over the melody's notes.
import type { Bar, Wedge } from "../model/score.js";
import type { Quarters } from "../model/time.js";
import type { DirectionFacts } from "./directions.js";
import type { MelodyNote } from "./melody.js";
import type { UnreadList } from "./unread.js";

interface Opened {
  readonly kind: Wedge["kind"];
  readonly start: Quarters;
  readonly bar: number;
}

/**
 * Hairpins with both ends, in order of their ends. One that ends where a note begins is printed up to that note and does
 * not stand over it. One without its other end, or over a rest alone, is told.
 */
export function wedgesOf(
  melody: readonly MelodyNote[],
  directions: readonly DirectionFacts[],
  bars: readonly Bar[],
  unread: UnreadList,
): Wedge[] {
  if (directions.every((direction) => direction.wedges.length === 0)) return [];
  const staves = new Set(melody.map((note) => note.head.staff));
  const sounding = soundingNotes(melody);
  const open = new Map<string, Opened>();
  const wedges: Wedge[] = [];
  for (const { bar, staff, wedges: signs } of directions) {
    if (staff !== null && !staves.has(staff)) continue;
    for (const { type, number, at } of signs) {
      const moment = (bars[bar] as Bar).onset.add(at);
      if (type === "crescendo" || type === "diminuendo") {
        tellLoose(open.get(number), unread);
        open.set(number, { kind: type, start: moment, bar });
      } else if (type === "stop") {
        const opened = open.get(number);
        open.delete(number);
        const wedge = opened === undefined ? null : wedgeOver(sounding, opened, moment);
        if (wedge === null) unread.add("looseWedge", opened?.bar ?? bar);
        else wedges.push(wedge);
      }
    }
  }
  for (const one of open.values()) tellLoose(one, unread);
  return wedges;
}

function tellLoose(opened: Opened | undefined, unread: UnreadList): void {
  if (opened !== undefined) unread.add("looseWedge", opened.bar);
}

/** Notes in order of their beginnings, in quarters from the start of the piece. */
interface Sounding {
  readonly notes: readonly MelodyNote[];
  readonly begins: readonly number[];
  readonly ends: readonly number[];
  /** the latest end of the notes up to each */
  readonly latestEnds: readonly number[];
}

function soundingNotes(melody: readonly MelodyNote[]): Sounding {
  const notes = melody.filter((note) => !note.grace);
  const ends = notes.map(({ head, duration }) => head.onset.add(duration).valueOf());
  let latest = 0;
  const latestEnds = ends.map((end) => {
    latest = Math.max(latest, end);
    return latest;
  });
  return { notes, begins: notes.map(({ head }) => head.onset.valueOf()), ends, latestEnds };
}

/** The first and the last note that sound between two moments; by halving, since a long line may have many hairpins. */
function wedgeOver(
  { notes, begins, ends, latestEnds }: Sounding,
  { kind, start }: Opened,
  end: Quarters,
): Wedge | null {
  const [from, to] = [start.valueOf(), end.valueOf()];
  const first = firstIndex(latestEnds, (latest) => latest > from);
  let last = firstIndex(begins, (begin) => begin >= to) - 1;
  while (last > first && (ends[last] as number) <= from) last--;
  if (first >= notes.length || last < first) return null;
  const id = (index: number): string => {
    const note = notes[index] as MelodyNote;
    return note.chord ?? note.head.id;
  };
  return { from: id(first), to: id(last), kind };
}

/** The index of the first of ascending numbers that fits; their count where none does. */
function firstIndex(numbers: readonly number[], fits: (number: number) => boolean): number {
  let low = 0;
  let high = numbers.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (fits(numbers[middle] as number)) high = middle;
    else low = middle + 1;
  }
  return low;
}
