// SPDX-License-Identifier: AGPL-3.0-or-later
// Marks, slurs, lyrics, words and dynamics of the melody's notes.
import { type Bar, type Lyric, NO_MARKS, type NoteMarks, type Slur } from "../model/score.js";
import type { Quarters } from "../model/time.js";
import { type DirectionFacts, dynamicNames } from "./directions.js";
import { isLetRing, type MelodyNote } from "./melody.js";
import type { ReadNote } from "./notes.js";
import { lyricText } from "./own.js";
import type { TechnicalFacts } from "./technical.js";
import type { UnreadList } from "./unread.js";
import { child, children, type XmlElement } from "./xml.js";

/** Notations that sit directly in `<notations>` and count as other marks. */
const PLAIN_NOTATIONS = new Set(["arpeggiate", "non-arpeggiate", "other-notation"]);
/** Articulations and ornaments that have a field of their own or are no mark by themselves. */
const OWN_FIELD = new Set(["staccato", "staccatissimo", "spiccato", "wavy-line", "accidental-mark"]);
const VIBRATO_WORDS = /(^|[^\p{L}])(yin|nao|vibrato|vibr\.)(?=$|[^\p{L}])/iu;

function elementsOf({ head, tied }: MelodyNote): readonly ReadNote[] {
  return [head, ...tied];
}

const NONE: readonly XmlElement[] = [];

/** The notations of that name; most notes have none, and are asked for a dozen. */
function notationsOf(note: ReadNote, name: string): readonly XmlElement[] {
  if (note.marks.length === 0) return NONE;
  return note.marks.filter((mark) => mark.nodeName === name);
}

/** The marks of a note, those of its tied continuations included. */
export function marksOf(
  note: MelodyNote,
  technical: TechnicalFacts,
  words: readonly string[],
  wavy: ReadonlySet<string>,
): NoteMarks {
  const letRing = isLetRing(note.head) || note.tied.some(isLetRing);
  const vibrato = wavy.has(note.head.id) || words.some((text) => VIBRATO_WORDS.test(text));
  const unmarked = note.head.marks.length === 0 && note.tied.every(({ marks }) => marks.length === 0);
  if (unmarked && !letRing && !vibrato && !technical.harmonic && technical.others.length === 0) return NO_MARKS;
  const elements = elementsOf(note);
  const inner = (name: string): string[] =>
    elements.flatMap((one) => notationsOf(one, name).flatMap((holder) => holder.children.map((mark) => mark.nodeName)));
  const articulations = inner("articulations");
  const ornaments = inner("ornaments");
  const plain = elements.flatMap((one) => one.marks.map((mark) => mark.nodeName));
  const others = [...articulations, ...ornaments].filter((name) => !OWN_FIELD.has(name));
  return {
    harmonic: technical.harmonic,
    letRing,
    slideTo: slideStops(note.head),
    vibrato: vibrato || ornaments.includes("trill-mark"),
    fermata: plain.includes("fermata"),
    staccato: articulations.some((name) => ["staccato", "staccatissimo", "spiccato"].includes(name)),
    others: [...new Set([...others, ...plain.filter((name) => PLAIN_NOTATIONS.has(name)), ...technical.others])],
  };
}

function slideMarks(note: ReadNote): readonly XmlElement[] {
  if (note.marks.length === 0) return NONE;
  return [...notationsOf(note, "slide"), ...notationsOf(note, "glissando")];
}

function slideStops(note: ReadNote): boolean {
  return slideMarks(note).some((mark) => mark.getAttribute("type") === "stop");
}

/** A note element that has marks, with its note's place in the melody. */
interface Notated {
  readonly one: ReadNote;
  readonly index: number;
}

/** The elements that have marks, in file order. */
function notated(melody: readonly MelodyNote[]): readonly Notated[] {
  const found: Notated[] = [];
  for (const [index, note] of melody.entries())
    for (const one of elementsOf(note)) if (one.marks.length > 0) found.push({ one, index });
  return found.sort((a, b) => a.one.order - b.one.order);
}

/** Ids of the notes under a trill's or vibrato's wavy line. */
export function underWavyLines(melody: readonly MelodyNote[]): ReadonlySet<string> {
  const under = new Set<string>();
  let from: number | null = null;
  for (const { one, index } of notated(melody))
    for (const line of notationsOf(one, "ornaments").flatMap((ornaments) => children(ornaments, "wavy-line"))) {
      const type = line.getAttribute("type");
      const first = type === "stop" && from !== null ? from : index;
      for (const note of melody.slice(first, index + 1)) under.add(note.head.id);
      if (type === "start") from = index;
      if (type === "stop") from = null;
    }
  return under;
}

/** Slurs with both ends in the melody. One that only spans a tie is none. */
export function slursOf(melody: readonly MelodyNote[], unread: UnreadList): Slur[] {
  const open = new Map<string, { index: number; bar: number }>();
  const slurs: Slur[] = [];
  for (const { one, index } of notated(melody)) {
    for (const number of slurNumbers(one, "stop")) {
      const start = open.get(number);
      if (start === undefined) unread.add("looseSlur", one.bar);
      else if (start.index !== index) slurs.push(slurBetween(melody, start.index, index));
      open.delete(number);
    }
    for (const number of slurNumbers(one, "start")) {
      const lost = open.get(number);
      if (lost !== undefined) unread.add("looseSlur", lost.bar);
      open.set(number, { index, bar: one.bar });
    }
  }
  for (const { bar } of open.values()) unread.add("looseSlur", bar);
  return slurs;
}

function slurNumbers(note: ReadNote, type: "start" | "stop"): string[] {
  return notationsOf(note, "slur")
    .filter((mark) => mark.getAttribute("type") === type)
    .map((mark) => mark.getAttribute("number") ?? "1");
}

function slurBetween(melody: readonly MelodyNote[], a: number, b: number): Slur {
  const [from, to] = a < b ? [a, b] : [b, a];
  const id = (index: number): string => (melody[index] as MelodyNote).head.id;
  return { from: id(from), to: id(to), count: to - from + 1 };
}

/** Tells slides that begin in the melody and end nowhere in it. */
export function tellLooseSlides(melody: readonly MelodyNote[], unread: UnreadList): void {
  const open = new Map<string, number>();
  for (const { head, tied } of melody)
    for (const one of [head, ...tied])
      for (const mark of slideMarks(one)) {
        const key = `${mark.nodeName} ${mark.getAttribute("number") ?? "1"}`;
        if (mark.getAttribute("type") === "start") open.set(key, one.bar);
        else open.delete(key);
      }
  for (const bar of open.values()) unread.add("looseSlide", bar);
}

/** A note's lyrics by verse, without the line that huipath wrote. */
export function lyricsOf(note: MelodyNote): readonly Lyric[] {
  if (note.head.own.otherLyrics.length === 0 && note.tied.length === 0) return NO_LYRICS;
  const lyrics = new Map<string, string>();
  for (const { own } of elementsOf(note))
    for (const lyric of own.otherLyrics) {
      const verse = lyric.getAttribute("number") ?? lyric.getAttribute("name") ?? "1";
      const text = lyricText(lyric);
      if (text !== "" && !lyrics.has(verse)) lyrics.set(verse, text);
    }
  return [...lyrics].map(([verse, text]) => ({ verse, text }));
}

const NO_LYRICS: readonly Lyric[] = [];

/** The words at each note of the melody, by the note's id. What stands at no note is told. */
export function wordsByNote(
  melody: readonly MelodyNote[],
  directions: readonly DirectionFacts[],
  bars: readonly Bar[],
  voice: string | null,
  unread: UnreadList,
): ReadonlyMap<string, readonly string[]> {
  const words = new Map<string, string[]>();
  const worded = directions.filter((one) => one.words.length > 0);
  if (worded.length === 0) return words;
  const moments = notesByMoment(melody);
  const staves = new Set(melody.map((note) => note.head.staff));
  for (const direction of worded) {
    if (direction.staff !== null && !staves.has(direction.staff)) continue;
    if (direction.voice !== null && voice !== null && direction.voice !== voice) continue;
    const here = moments.get(momentKey(direction.bar, momentOf(direction, bars), direction.staff)) ?? [];
    // A direction stands before the note that it belongs to, which may be a grace note.
    const target = firstBehind(here, direction.order) ?? here.findLast((note) => !note.grace);
    if (target === undefined) for (const text of direction.words) unread.add("looseWords", direction.bar, text);
    else {
      const id = target.grace ? target.head.id : (target.chord ?? target.head.id);
      const own = words.get(id) ?? [];
      own.push(...direction.words);
      words.set(id, own);
    }
  }
  return words;
}

function momentKey(bar: number, onset: Quarters, staff: string | null): string {
  return `${bar} ${onset.toFraction()} ${staff ?? "any"}`;
}

/** The notes of each moment in file order, on each staff and on any. */
function notesByMoment(melody: readonly MelodyNote[]): ReadonlyMap<string, readonly MelodyNote[]> {
  const moments = new Map<string, MelodyNote[]>();
  for (const note of [...melody].sort((a, b) => a.head.order - b.head.order))
    for (const staff of [note.head.staff, null]) {
      const key = momentKey(note.head.bar, note.head.onset, staff);
      const here = moments.get(key);
      if (here === undefined) moments.set(key, [note]);
      else here.push(note);
    }
  return moments;
}

/** The first of notes in file order that stands behind a place in the file; by halving, since there may be many. */
function firstBehind(notes: readonly MelodyNote[], order: number): MelodyNote | undefined {
  let low = 0;
  let high = notes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((notes[middle] as MelodyNote).head.order > order) high = middle;
    else low = middle + 1;
  }
  return notes[low];
}

/** The moment of a direction from the start of the piece. */
function momentOf({ bar, at }: DirectionFacts, bars: readonly Bar[]): Quarters {
  return (bars[bar] as Bar).onset.add(at);
}

/** Marks that strike one note only, with the level that holds behind them. */
const MOMENTARY = /^(sf|sfp|sfpp|sfz|sffz|sfzp|fp|fz|pf|rf|rfz)$/;
const LEVEL_BEHIND: Readonly<Record<string, string>> = { fp: "p", sfp: "p", sfpp: "pp", sfzp: "p", pf: "f" };

interface DynamicMark {
  readonly onset: Quarters;
  readonly staff: string | null;
  readonly name: string;
}

/** The dynamic at each note, in the melody's order. */
export function dynamicsOf(
  melody: readonly MelodyNote[],
  directions: readonly DirectionFacts[],
  bars: readonly Bar[],
): (string | null)[] {
  const marks: DynamicMark[] = [
    ...directions.flatMap((one) =>
      one.dynamics.map((name) => ({ onset: momentOf(one, bars), staff: one.staff, name })),
    ),
    ...melody
      .filter(({ head }) => head.marks.length > 0)
      .flatMap(({ head }) =>
        notationsOf(head, "dynamics").flatMap((holder) =>
          dynamicNames(holder).map((name) => ({ onset: head.onset, staff: head.staff, name })),
        ),
      ),
  ].sort((a, b) => a.onset.compare(b.onset));
  if (marks.length === 0) return melody.map(() => null);
  const levels = new Map<string, string>();
  const struck = new Map<string, DynamicMark>();
  let next = 0;
  return melody.map(({ head }) => {
    for (let mark = marks[next]; mark !== undefined && mark.onset.compare(head.onset) <= 0; mark = marks[++next]) {
      const staff = mark.staff ?? "";
      if (MOMENTARY.test(mark.name)) struck.set(staff, mark);
      const level = MOMENTARY.test(mark.name) ? LEVEL_BEHIND[mark.name] : mark.name;
      if (level === undefined) continue;
      if (staff === "") levels.clear();
      levels.set(staff, level);
    }
    const accent = [struck.get(head.staff), struck.get("")].find((mark) => mark?.onset.equals(head.onset));
    return accent?.name ?? levels.get(head.staff) ?? levels.get("") ?? null;
  });
}

/** Tells the elements between the notes that say how the music sounds and are not read. */
export function tellElements(elements: readonly { element: XmlElement; bar: number }[], unread: UnreadList): void {
  for (const { element, bar } of elements) {
    if (element.nodeName === "note") continue;
    if (element.nodeName === "harmony") unread.add("chordSymbol", bar);
    if (element.nodeName === "figured-bass") unread.add("figuredBass", bar);
    for (const style of children(element, "measure-style"))
      if (child(style, "slash")?.getAttribute("type") === "start") unread.add("slashed", bar);
    for (const details of children(element, "staff-details"))
      for (const name of ["staff-tuning", "capo"])
        if (child(details, name) !== null) unread.add("scordatura", bar, name);
  }
}
