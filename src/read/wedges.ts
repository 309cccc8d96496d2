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
  const staves = new Set(melody.map((note) => note.head.staff));
  const sounding = melody.filter((note) => !note.grace);
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

function wedgeOver(melody: readonly MelodyNote[], { kind, start }: Opened, end: Quarters): Wedge | null {
  const under = melody.filter(
    ({ head, duration }) => head.onset.compare(end) < 0 && head.onset.add(duration).compare(start) > 0,
  );
  const [first] = under;
  const last = under.at(-1);
  if (first === undefined || last === undefined) return null;
  const id = (note: MelodyNote): string => note.chord ?? note.head.id;
  return { from: id(first), to: id(last), kind };
}
