// SPDX-License-Identifier: AGPL-3.0-or-later
// The notes of one voice as a melody: in order of time, ties joined, chords gathered.
import { microtoneCents, type Pitch, semitoneOf } from "../model/pitch.js";
import type { Quarters } from "../model/time.js";
import type { ReadNote } from "./notes.js";
import type { UnreadList } from "./unread.js";
import { children } from "./xml.js";

/** One sounding note: its first element, and those tied to it. */
export interface MelodyNote {
  readonly head: ReadNote;
  readonly tied: readonly ReadNote[];
  readonly duration: Quarters;
  readonly grace: boolean;
  /** id of the chord's lowest note; null for a single note */
  readonly chord: string | null;
}

/** Height in cents, microtones included. */
export function heightOf(pitch: Pitch): number {
  return 100 * semitoneOf(pitch) + microtoneCents(pitch);
}

/**
 * Joins ties and orders the notes: by time, grace notes before their main note, chords lowest first.
 *
 * @param notes the chosen voice's notes in file order
 */
export function melodyOf(notes: readonly ReadNote[], unread: UnreadList): MelodyNote[] {
  const sorted = [...notes].sort((a, b) => byTime(a, b));
  tellOverlaps(sorted, unread);
  const joined = joinTies(sorted, unread);
  joined.sort((a, b) => byTime(a.head, b.head, a.grace, b.grace));
  joinChords(joined);
  return joined;
}

/** The order of two notes; a grace note tied to its main note is none any more. */
function byTime(a: ReadNote, b: ReadNote, aIsGrace = a.grace, bIsGrace = b.grace): number {
  const moment = a.onset.compare(b.onset) || Number(bIsGrace) - Number(aIsGrace);
  if (moment !== 0) return moment;
  // Grace notes at one moment follow each other; other notes at one moment sound together.
  if (aIsGrace && a.group !== b.group) return a.order - b.order;
  return heightOf(a.sounding) - heightOf(b.sounding) || a.order - b.order;
}

/** A melody note while ties are joined to it. */
interface Joined {
  readonly head: ReadNote;
  readonly tied: ReadNote[];
  duration: Quarters;
  grace: boolean;
  chord: string | null;
}

/** A tie that still waits for its other end. */
interface OpenTie {
  readonly index: number;
  readonly end: Quarters;
}

function joinTies(notes: readonly ReadNote[], unread: UnreadList): Joined[] {
  const joined: Joined[] = [];
  const open = new Map<number, OpenTie[]>();
  for (const note of notes) {
    const { starts, stops } = tiesOf(note);
    const height = heightOf(note.sounding);
    let index = -1;
    if (stops) {
      const tie = takeTie(open.get(height) ?? [], note, joined);
      if (tie === null) unread.add("looseTie", note.bar);
      else index = tie.index;
    }
    if (index < 0)
      index = joined.push({ head: note, tied: [], duration: note.duration, grace: note.grace, chord: null }) - 1;
    else extend(joined[index] as Joined, note);
    if (!starts) continue;
    const tie = { index, end: note.onset.add(note.duration) };
    const same = open.get(height);
    if (same === undefined) open.set(height, [tie]);
    else same.push(tie);
  }
  for (const { index } of [...open.values()].flat()) unread.add("looseTie", (joined[index] as Joined).head.bar);
  return joined;
}

/** More notes of one height do not wait for their ties' ends in any music. */
const MOST_TIES_OF_A_HEIGHT = 16;

/**
 * Takes the tie that ends at a note out of those of its height: a chord may hold one height twice, as a unison or under
 * two names, so that the nearest end and the same name count, then the order of the file. One that meets nothing is
 * taken out too.
 */
function takeTie(open: OpenTie[], note: ReadNote, joined: readonly Joined[]): OpenTie | null {
  const step = (tie: OpenTie): Pitch["step"] => (joined[tie.index] as Joined).head.written.step;
  const apart = (tie: OpenTie): number => Number(step(tie) !== note.written.step);
  const [best = null] = open
    .slice(-MOST_TIES_OF_A_HEIGHT)
    .filter((tie) => meets(tie, note, joined))
    .sort((a, b) => b.end.compare(a.end) || apart(a) - apart(b) || a.index - b.index);
  if (best === null) open.pop();
  else open.splice(open.indexOf(best), 1);
  return best;
}

/**
 * Whether a tie ends at a note: where it stops sounding, or later in the same or the next bar, as in a broken chord
 * whose notes are all held into the full one.
 */
function meets(tie: OpenTie, note: ReadNote, joined: readonly Joined[]): boolean {
  const from = (joined[tie.index] as Joined).head;
  const gap = note.onset.compare(tie.end);
  return gap === 0 || (gap > 0 && note.bar - from.bar <= 1);
}

/** A grace note tied to its main note is the main note, held from the start. */
function extend(before: Joined, note: ReadNote): void {
  before.tied.push(note);
  before.duration = note.onset.add(note.duration).sub(before.head.onset);
  before.grace &&= note.grace;
}

/** Which ends of ties a note has. */
function tiesOf(note: ReadNote): { starts: boolean; stops: boolean } {
  const types = tieTypes(note);
  return { starts: types.includes("start"), stops: types.includes("stop") };
}

/** Whether a note must go on sounding: a tie to nothing. */
export function isLetRing(note: ReadNote): boolean {
  return tieTypes(note).includes("let-ring");
}

/** The types of a note's ties: `<tie>` says how they sound, `<tied>` how they look; files use either or both. */
function tieTypes({ element, marks }: ReadNote): readonly string[] {
  const ties = children(element, "tie");
  if (ties.length === 0 && marks.length === 0) return UNTIED;
  const all = [...ties, ...marks.filter((mark) => mark.nodeName === "tied")];
  return all.map((mark) => (mark.getAttribute("type") ?? "").trim());
}

const UNTIED: readonly string[] = [];

/** Tells notes that begin before the one before them in their voice has ended; tied chord notes do so rightly. */
function tellOverlaps(notes: readonly ReadNote[], unread: UnreadList): void {
  let before: ReadNote | null = null;
  for (const note of notes.filter((one) => !one.grace)) {
    const overlaps =
      before !== null && before.group !== note.group && note.onset.compare(before.onset.add(before.duration)) < 0;
    if (overlaps) unread.add("overlap", note.bar);
    before = note;
  }
}

/** Names the chord that each note belongs to. */
function joinChords(joined: readonly Joined[]): void {
  for (let from = 0; from < joined.length; ) {
    let to = from + 1;
    while (to < joined.length && together(joined[from] as Joined, joined[to] as Joined)) to++;
    if (to - from > 1) for (const note of joined.slice(from, to)) note.chord = (joined[from] as Joined).head.id;
    from = to;
  }
}

function together(a: Joined, b: Joined): boolean {
  if (a.grace || b.grace) return a.grace && b.grace && a.head.group === b.head.group;
  return a.head.onset.equals(b.head.onset);
}
