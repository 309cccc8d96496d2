// SPDX-License-Identifier: AGPL-3.0-or-later
// What a score holds beyond the melody, collected while reading and told once per kind.
import type { Bar, Unread } from "../model/score.js";

/** One of a kind, several of it, and what became of it. */
type Wording = readonly [one: string, several: string, fate: string];

const WORDINGS = {
  jump: ["a repeat or jump is", "repeats or jumps are", "not followed: the music is read once, as printed"],
  cue: ["a cue note is", "cue notes are", "left out"],
  unpitched: ["a note without pitch is", "notes without pitch are", "left out"],
  chordSymbol: ["a chord symbol is", "chord symbols are", "not part of the melody"],
  figuredBass: ["a figured bass is", "figured basses are", "not part of the melody"],
  looseWedge: [
    "a crescendo or diminuendo wedge without both ends at notes of this voice is",
    "crescendo or diminuendo wedges without both ends at notes of this voice are",
    "not read",
  ],
  pedal: ["a pedal mark is", "pedal marks are", "not read"],
  barlineFermata: ["a fermata on a barline is", "fermatas on barlines are", "not read"],
  // The notes that such a sign stands for belong into the file (MusicXML 4.0, measure-repeat), but some editors omit them.
  emptyRepeat: [
    "a bar with a repeat sign in place of its notes is",
    "bars with repeat signs in place of their notes are",
    "read without them: write the notes out to have them fingered",
  ],
  hidden: ["a note that is not printed is", "notes that are not printed are", "read, as editors play what is hidden"],
  slashed: [
    "a note or passage in slashes or crosses is",
    "notes or passages in slashes or crosses are",
    "read with the pitches that the file gives",
  ],
  heldPitch: [
    "a harmonic that is written where the string is held or touched is",
    "harmonics that are written where the string is held or touched are",
    "read as if that pitch sounded",
  ],
  graceTime: ["a grace note that adds time is", "grace notes that add time are", "read as taking no time"],
  restMark: ["a mark on a rest is", "marks on rests are", "not read"],
  otherMark: ["a playing mark is", "playing marks are", "not read"],
  fretted: [
    "a string number beside a fret is",
    "string numbers beside frets are",
    "not read: another instrument is meant",
  ],
  signatureWithin: [
    "a key or time signature within a bar is",
    "key or time signatures within bars are",
    "read from the next bar on",
  ],
  swing: ["a swing rhythm is", "swing rhythms are", "not applied: durations are as written"],
  timeOnly: ["a note for one repeat only is", "notes for one repeat only are", "read as if always played"],
  tempoTimeOnly: ["a tempo for a repeat only is", "tempos for repeats only are", "not read"],
  doubled: [
    "an octave doubling of the part is",
    "octave doublings of the part are",
    "not read: only the written line is",
  ],
  scordatura: [
    "a string tuning in the score is",
    "string tunings in the score are",
    "not read: choose one with --tuning",
  ],
  tempoWithoutNumber: [
    "a metronome mark without a plain number is",
    "metronome marks without a plain number are",
    "not read",
  ],
  keyUnusual: [
    "a key signature that is not in the circle of fifths is",
    "key signatures that are not in the circle of fifths are",
    "read as no sharps or flats",
  ],
  meterUnusual: [
    "a time signature that is no plain number is",
    "time signatures that are no plain number are",
    "read as free time",
  ],
  octaveShiftUnusual: ["an octave sign of an unknown size is", "octave signs of an unknown size are", "not read"],
  looseTie: [
    "a tie that meets no note of its pitch in this voice is",
    "ties that meet no note of their pitch in this voice are",
    "not read",
  ],
  looseSlur: [
    "a slur without its other end in this voice is",
    "slurs without their other end in this voice are",
    "not read",
  ],
  looseSlide: [
    "a slide that leads to no note of this voice is",
    "slides that lead to no note of this voice are",
    "not read",
  ],
  looseWords: ["a text beside no note of this voice is", "texts beside no note of this voice are", "not read"],
  backupBeyond: [
    "a step back before the start of its bar is",
    "steps back before the start of their bar are",
    "read as the bar's start",
  ],
  overlap: [
    "a note that begins while another of its voice sounds is",
    "notes that begin while another of their voice sounds are",
    "read as written",
  ],
  noDivisions: [
    "a bar without divisions is",
    "bars without divisions are",
    "read with one division to the quarter note",
  ],
  otherDirection: ["a playing direction of another kind is", "playing directions of other kinds are", "not read"],
} as const satisfies Readonly<Record<string, Wording>>;

/** A kind of thing that is not read. */
export type UnreadKind = keyof typeof WORDINGS;

const NAMED_AT_MOST = 3;
const BARS_NAMED_AT_MOST = 12;

interface Found {
  readonly bar: number;
  readonly detail: string | null;
}

/** Collects what was not read. Each kind becomes one line, with its count and its bars. */
export class UnreadList {
  readonly #found = new Map<UnreadKind, Found[]>();
  readonly #whole: string[] = [];
  readonly #once = new Set<string>();

  /**
   * @param bar    index of the bar
   * @param detail what exactly: the first few are quoted
   */
  add(kind: UnreadKind, bar: number, detail: string | null = null): void {
    const list = this.#found.get(kind);
    if (list === undefined) this.#found.set(kind, [{ bar, detail }]);
    else list.push({ bar, detail });
  }

  /** The same, if it was not told of that bar before. */
  addOnce(kind: UnreadKind, bar: number, detail: string): void {
    const key = `${kind} ${bar} ${detail}`;
    if (this.#once.has(key)) return;
    this.#once.add(key);
    this.add(kind, bar, detail);
  }

  /** A sentence on the whole score, told once. */
  addWhole(what: string): void {
    if (!this.#whole.includes(what)) this.#whole.push(what);
  }

  /** The lines, in order of their first bar. @param keeps whether a bar, by its index, is among those read */
  lines(bars: readonly Bar[], keeps: (bar: number) => boolean): Unread[] {
    const kept = [...this.#found]
      .map(([kind, all]) => ({ kind, found: all.filter((one) => keeps(one.bar)).sort((a, b) => a.bar - b.bar) }))
      .filter(({ found }) => found.length > 0)
      .sort((a, b) => (a.found[0] as Found).bar - (b.found[0] as Found).bar);
    return [
      ...this.#whole.map((what) => ({ bar: null, what })),
      ...kept.map(({ kind, found }) => ({
        bar: bars[(found[0] as Found).bar]?.label ?? null,
        what: sentence(WORDINGS[kind], found, bars),
      })),
    ];
  }
}

function sentence([one, several, fate]: Wording, found: readonly Found[], bars: readonly Bar[]): string {
  const details = [...new Set(found.flatMap(({ detail }) => (detail === null ? [] : [detail])))];
  const quoted = details.slice(0, NAMED_AT_MOST).map((detail) => `"${detail}"`);
  if (details.length > NAMED_AT_MOST) quoted.push("...");
  const named = quoted.length === 0 ? "" : ` (${quoted.join(", ")})`;
  return found.length === 1
    ? `${one} ${fate}${named}`
    : `${found.length} ${several} ${fate}, ${placesOf(found, bars)}${named}`;
}

/** Where all of a kind are. */
function placesOf(found: readonly Found[], bars: readonly Bar[]): string {
  const all = [...new Set(found.map(({ bar }) => bar))].map((bar) => bars[bar]?.label ?? String(bar + 1));
  const [first] = all;
  if (all.length === 1) return `${found.length === 2 ? "both" : "all"} in bar ${first}`;
  const more = all.length - BARS_NAMED_AT_MOST;
  const labels = all.slice(0, BARS_NAMED_AT_MOST);
  const last = more > 0 ? `${more} more` : labels.pop();
  return `in bars ${labels.join(", ")} and ${last}`;
}
