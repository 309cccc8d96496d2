// SPDX-License-Identifier: AGPL-3.0-or-later
// A quick look at every line of a part, a line being one voice, before one of them is read exactly. Nothing is refused
// here: a part that is not chosen may hold what it likes.
import { carriedBy, isWholeForm } from "./carried.js";
import type { PartElements } from "./document.js";
import { child, childText, type XmlElement } from "./xml.js";

/** One voice of a part and how it looks. Heights are MIDI note numbers, of the highest note where several sound at once. */
export interface Line {
  readonly part: PartElements;
  /** null where the part names no voices */
  readonly voice: string | null;
  /** on which its first note stands */
  readonly staff: string;
  /** pitched notes that are no cues, grace notes and chord notes among them */
  readonly notes: number;
  /** moments at which notes begin, grace notes aside */
  readonly onsets: number;
  /** those at which several begin */
  readonly chords: number;
  /** by index of the bar: from where to where notes sound, in quarters from its start, in the order of the file */
  readonly sounds: ReadonlyMap<number, readonly (readonly [from: number, to: number])[]>;
  /** the mean height, long notes counting more */
  readonly height: number;
  readonly lowest: number;
  readonly highest: number;
  /** steps from note to note of no more than a major third, of all steps; 0 where there are none */
  readonly smallSteps: number;
  /** onsets with words to sing, of all */
  readonly worded: number;
  /** a stroke, a finger's name or a spoken form stands at one of its notes */
  readonly fingered: boolean;
  /** notes with stems up, of those with stems; 0 where there are none */
  readonly stemsUp: number;
  /** notes under these clefs, not printed, or on a staff that is no staff of the score proper, of all */
  readonly bassClef: number;
  readonly tabClef: number;
  readonly percussionClef: number;
  readonly hidden: number;
  readonly aside: number;
}

/** A part's lines in the order of their first notes, and the voice of every note element. */
export interface SurveyedPart {
  readonly lines: readonly Line[];
  /** of rests and cues too; null where the part names no voices */
  readonly voices: ReadonlyMap<XmlElement, string | null>;
}

/** Whether a note element sounds in a melody: pitched and not a cue. */
export function isMelodic(note: XmlElement): boolean {
  return child(note, "pitch") !== null && child(note, "cue") === null;
}

/** The staff of a note element; "1" where it says nothing. */
export function staffOf(note: XmlElement): string {
  return childText(note, "staff") ?? "1";
}

/** Looks at every voice of a part. */
export function surveyPart(part: PartElements): SurveyedPart {
  const notes = new Surveyor().look(part);
  const voices = voicesOf(notes);
  const sketches = new Map<string | null, Sketch>();
  for (const note of notes) {
    if (!isMelodic(note.element)) continue;
    const voice = voices.get(note.element) ?? null;
    let sketch = sketches.get(voice);
    if (sketch === undefined) {
      sketch = new Sketch(part, voice, note.staff);
      sketches.set(voice, sketch);
    }
    sketch.add(note);
  }
  return { lines: [...sketches.values()].map((sketch) => sketch.line()), voices };
}

/** A note element where it stands, in quarters; good enough to compare, not to read. */
interface SurveyedNote {
  readonly element: XmlElement;
  /** the voice as the file names it; null where it does not */
  readonly named: string | null;
  readonly bar: number;
  readonly at: number;
  readonly duration: number;
  readonly staff: string;
  readonly clef: string | null;
  /** the staff is an ossia or the like */
  readonly aside: boolean;
  /** semitones from print to sound */
  readonly transpose: number;
  /** a fingering stands in the words before it */
  readonly said: boolean;
}

/** Moments closer than this are one: sums of decimals differ by less. */
const SAME_MOMENT = 1e-6;

/** The voices of a part's notes; where one name serves two staves at the same time, they are kept apart by staff. */
function voicesOf(notes: readonly SurveyedNote[]): Map<XmlElement, string | null> {
  const anyNamed = notes.some(({ named }) => named !== null);
  const nameOf = ({ named }: SurveyedNote): string | null => named ?? (anyNamed ? "1" : null);
  const shared = voicesOnTwoStaves(notes, nameOf);
  return new Map(
    notes.map((note) => {
      const name = nameOf(note);
      const home = shared.get(name);
      const apart = home !== undefined && home !== note.staff;
      return [note.element, apart ? `${name ?? "1"} (staff ${note.staff})` : name];
    }),
  );
}

/** Voices whose notes on different staves overlap in time, with the staff that each begins on. */
function voicesOnTwoStaves(
  notes: readonly SurveyedNote[],
  nameOf: (note: SurveyedNote) => string | null,
): Map<string | null, string> {
  const shared = new Map<string | null, string>();
  const home = new Map<string | null, string>();
  const latest = new Map<string | null, SurveyedNote>();
  for (const note of notes) {
    const name = nameOf(note);
    if (!home.has(name)) home.set(name, note.staff);
    const before = latest.get(name);
    if (before !== undefined && before.bar === note.bar && before.staff !== note.staff) {
      const overlaps = note.at < before.at + before.duration - SAME_MOMENT;
      if (overlaps && child(note.element, "chord") === null) shared.set(name, home.get(name) as string);
    }
    latest.set(name, note);
  }
  return shared;
}

/** Kinds of staff that stand beside the score proper, as MusicXML names them. */
const STAVES_ASIDE = new Set(["ossia", "editorial", "cue", "alternate"]);

/** Follows the file's position and signs through a part. */
class Surveyor {
  readonly #notes: SurveyedNote[] = [];
  readonly #clefs = new Map<string, string>();
  readonly #aside = new Map<string, boolean>();
  /** by staff; "" for all staves */
  readonly #transpose = new Map<string, number>();
  #divisions = 1;
  #cursor = 0;
  #lastNoteAt = 0;
  #said = false;

  look(part: PartElements): readonly SurveyedNote[] {
    for (const [bar, { element }] of part.bars.entries()) {
      this.#cursor = 0;
      this.#lastNoteAt = 0;
      for (const inner of element.children) this.#step(inner, bar);
    }
    return this.#notes;
  }

  #step(element: XmlElement, bar: number): void {
    switch (element.nodeName) {
      case "note":
        this.#note(element, bar);
        break;
      case "backup":
        this.#cursor = Math.max(0, this.#cursor - this.#length(element));
        break;
      case "forward":
        this.#cursor += this.#length(element);
        break;
      case "attributes":
        this.#attributes(element);
        break;
      case "direction":
        this.#said ||= element.children.some((type) =>
          type.children.some((words) => words.nodeName === "words" && isWholeForm(words.textContent)),
        );
        break;
    }
  }

  #note(element: XmlElement, bar: number): void {
    const duration = child(element, "grace") === null ? this.#length(element) : 0;
    const inChord = child(element, "chord") !== null;
    if (!inChord) this.#lastNoteAt = this.#cursor;
    const staff = staffOf(element);
    const transpose = this.#transpose.get(staff) ?? this.#transpose.get("") ?? 0;
    const [clef = null, aside = false] = [this.#clefs.get(staff), this.#aside.get(staff)];
    const named = childText(element, "voice");
    const [at, said] = [this.#lastNoteAt, this.#said];
    this.#notes.push({ element, named, bar, at, duration, staff, clef, aside, transpose, said });
    if (!inChord) this.#cursor += duration;
    this.#said = false;
  }

  #attributes(element: XmlElement): void {
    for (const sign of element.children) {
      const number = sign.getAttribute("number");
      if (sign.nodeName === "divisions") this.#divisions = numberIn(sign.textContent) || 1;
      if (sign.nodeName === "clef") this.#clefs.set(number ?? "1", childText(sign, "sign") ?? "");
      if (sign.nodeName === "transpose") {
        const octaves = numberIn(childText(sign, "octave-change"));
        this.#transpose.set(number ?? "", numberIn(childText(sign, "chromatic")) + 12 * octaves);
      }
      const type = sign.nodeName === "staff-details" ? childText(sign, "staff-type") : null;
      if (type !== null) this.#aside.set(number ?? "1", STAVES_ASIDE.has(type));
    }
  }

  #length(element: XmlElement): number {
    return Math.max(0, numberIn(childText(element, "duration"))) / Math.abs(this.#divisions);
  }
}

/** A number as written; 0 for what is none. */
function numberIn(text: string | null): number {
  const value = Number(text ?? 0);
  return Number.isFinite(value) ? value : 0;
}

/** Semitones of the white keys above C. */
const STEPS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
/** A move of at most a major third, in semitones. */
const SMALL_STEP = 4;

/** One line while its notes come in. */
class Sketch {
  readonly #sounds = new Map<number, (readonly [number, number])[]>();
  #counts = {
    notes: 0,
    onsets: 0,
    chords: 0,
    worded: 0,
    up: 0,
    stems: 0,
    bass: 0,
    tab: 0,
    drum: 0,
    hidden: 0,
    aside: 0,
  };
  #fingered = false;
  #lowest = Number.POSITIVE_INFINITY;
  #highest = Number.NEGATIVE_INFINITY;
  #weighed = { sum: 0, time: 0 };
  #moves = { small: 0, all: 0 };
  /** the onset that notes may still join */
  #current: { top: number; chord: boolean; worded: boolean; readonly duration: number } | null = null;
  #previous: number | null = null;

  constructor(
    readonly part: PartElements,
    readonly voice: string | null,
    readonly staff: string,
  ) {}

  add(note: SurveyedNote): void {
    const { element, bar, at, duration, clef } = note;
    const height = heightOf(child(element, "pitch") as XmlElement) + note.transpose;
    const counts = this.#counts;
    const stem = childText(element, "stem");
    counts.notes++;
    if (stem === "up") counts.up++;
    if (stem !== null) counts.stems++;
    if (clef === "F") counts.bass++;
    if (clef === "TAB") counts.tab++;
    if (clef === "percussion") counts.drum++;
    if (element.getAttribute("print-object") === "no") counts.hidden++;
    if (note.aside) counts.aside++;
    this.#lowest = Math.min(this.#lowest, height);
    this.#highest = Math.max(this.#highest, height);
    const carried = carriedBy(element);
    this.#fingered ||= note.said || carried.fingering;
    if (child(element, "grace") !== null) return;
    const worded = carried.words;
    if (child(element, "chord") !== null && this.#current !== null) {
      this.#current.top = Math.max(this.#current.top, height);
      this.#current.chord = true;
      this.#current.worded ||= worded;
      return;
    }
    this.#close();
    this.#current = { top: height, chord: false, worded, duration };
    const sounds = this.#sounds.get(bar);
    if (sounds === undefined) this.#sounds.set(bar, [[at, at + duration]]);
    else sounds.push([at, at + duration]);
  }

  /** Counts the onset that is complete. */
  #close(): void {
    if (this.#current === null) return;
    const { top, chord, worded, duration } = this.#current;
    this.#counts.onsets++;
    if (chord) this.#counts.chords++;
    if (worded) this.#counts.worded++;
    this.#weighed.sum += top * duration;
    this.#weighed.time += duration;
    if (this.#previous !== null) {
      this.#moves.all++;
      if (Math.abs(top - this.#previous) <= SMALL_STEP) this.#moves.small++;
    }
    this.#previous = top;
    this.#current = null;
  }

  line(): Line {
    this.#close();
    const { notes, onsets, chords, worded, up, stems, bass, tab, drum, hidden, aside } = this.#counts;
    const { sum, time } = this.#weighed;
    const { part, voice, staff } = this;
    return {
      ...{ part, voice, staff, notes, onsets, chords, sounds: this.#sounds },
      height: time > 0 ? sum / time : (this.#lowest + this.#highest) / 2,
      lowest: this.#lowest,
      highest: this.#highest,
      smallSteps: this.#moves.small / Math.max(1, this.#moves.all),
      worded: worded / Math.max(1, onsets),
      fingered: this.#fingered,
      stemsUp: up / Math.max(1, stems),
      bassClef: bass / notes,
      tabClef: tab / notes,
      percussionClef: drum / notes,
      hidden: hidden / notes,
      aside: aside / notes,
    };
  }
}

function heightOf(pitch: XmlElement): number {
  const step = STEPS[childText(pitch, "step") ?? ""] ?? 0;
  return 12 * (numberIn(childText(pitch, "octave")) + 1) + step + numberIn(childText(pitch, "alter"));
}
