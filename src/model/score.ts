// SPDX-License-Identifier: AGPL-3.0-or-later
// One melody as it stands in a score: one part, one voice, exact time.

import type { Said } from "../words.js";
import type { GivenFingering } from "./fingering.js";
import type { LeftOutLine, LineChoice } from "./line-choice.js";
import type { Pitch } from "./pitch.js";
import type { Quarters } from "./time.js";

/** A key signature. */
export interface Key {
  /** sharps (+) or flats (-) */
  readonly fifths: number;
  /** "major", "minor" or a church mode as printed; null where the score is silent */
  readonly mode: string | null;
}

/** A time signature; compound numerators are summed. */
export interface Meter {
  readonly beats: number;
  readonly beatType: number;
}

/** One bar in order of the file. */
export interface Bar {
  /** 0 for the first */
  readonly index: number;
  /** as printed; the number in order, from 1, where the score gives none */
  readonly label: string;
  readonly onset: Quarters;
  readonly length: Quarters;
  /** first beat that sounds, from 1: above 1 in a pickup bar that is shorter than its meter */
  readonly firstBeat: Quarters;
  readonly meter: Meter | null;
  readonly key: Key;
  readonly repeatStart: boolean;
  /** how often the section before the closing repeat sign is played; null without one */
  readonly repeatTimes: number | null;
  /** numbers of the volta brackets over this bar */
  readonly endings: readonly number[];
}

/** A tempo from its moment on. */
export interface Tempo {
  readonly onset: Quarters;
  readonly quartersPerMinute: number;
}

/** A slur: the first and the last note's ids, and how many of the melody's notes (ties joined, rests none) it spans. */
export interface Slur {
  readonly from: string;
  readonly to: string;
  readonly count: number;
}

/** A hairpin: the first and the last note that begins under it, the same where it stands over one note. */
export interface Wedge {
  readonly from: string;
  readonly to: string;
  readonly kind: "crescendo" | "diminuendo";
}

/** Marks of a note that bear on its fingering. */
export interface NoteMarks {
  /** a printed harmonic sign */
  readonly harmonic: boolean;
  /** let-ring: it must go on sounding under the next note */
  readonly letRing: boolean;
  /** a slide or glissando leads to this note */
  readonly slideTo: boolean;
  /** vibrato: a trill or wavy line, or the words yin, nao, vibrato */
  readonly vibrato: boolean;
  readonly fermata: boolean;
  readonly staccato: boolean;
  /** names of other ornaments and articulations as MusicXML spells them */
  readonly others: readonly string[];
}

/** Of a note that nothing is written at, as most are. */
export const NO_MARKS: NoteMarks = {
  harmonic: false,
  letRing: false,
  slideTo: false,
  vibrato: false,
  fermata: false,
  staccato: false,
  others: [],
};

/** One lyric of a note. */
export interface Lyric {
  /** the verse: its number or name as printed */
  readonly verse: string;
  readonly text: string;
}

/** One sounding note of the melody; notes that are tied are one. */
export interface ScoreNote {
  /** the file's own id where it is unique, else `p1b3n2` */
  readonly id: string;
  /** ids of tied continuations, in order; for engraving and writing */
  readonly tiedIds: readonly string[];
  /** index into {@link Score.bars} */
  readonly bar: number;
  /** in units of the meter's lower number, from 1 */
  readonly beat: string;
  /** printed moment; a grace note has that of its main note */
  readonly onset: Quarters;
  /** with its ties; 0 for a grace note */
  readonly duration: Quarters;
  readonly written: Pitch;
  /** with the part's transposition and octave shifts, without the setting's */
  readonly sounding: Pitch;
  readonly grace: boolean;
  /** id of the chord's lowest note where several notes sound at once, else null; chord notes stand lowest first */
  readonly chord: string | null;
  readonly marks: NoteMarks;
  /** nearest dynamic mark in force, such as "p"; null before the first */
  readonly dynamic: string | null;
  readonly lyrics: readonly Lyric[];
  /** words above or below the staff at this note */
  readonly words: readonly string[];
  /** what the score says of its fingering */
  readonly given: GivenFingering;
}

/** Something in the file that was not taken into the melody, in the user's words. */
export interface Unread {
  /** printed label; null for the whole score */
  readonly bar: string | null;
  readonly what: Said;
}

/**
 * Techniques that are known by name and not judged: the handbooks differ on the notes of jian gou; fen kai does not say
 * which notes are plucked; xu yan is a tap that sounds without a pluck.
 */
export const UNJUDGED_TECHNIQUES = ["jian-gou", "fen-kai", "xu-yan"] as const;
/** One of {@link UNJUDGED_TECHNIQUES}. */
export type UnjudgedTechnique = (typeof UNJUDGED_TECHNIQUES)[number];

/** A fingering mark that could not be understood, or that another mark of the note contradicts. */
export interface OddMark {
  readonly note: string;
  readonly text: string;
  /**
   * `direction`: a slide that goes the other way than the notes; `misfit`: meant for more or fewer notes than stand here;
   * or a technique that it names, known and not judged
   */
  readonly trouble: "unreadable" | "contradicted" | "direction" | "misfit" | UnjudgedTechnique;
  /**
   * the nearest form that would be understood; of a contradicted mark the one that counts; of a technique that is not
   * judged what was read beside it, empty for nothing
   */
  readonly nearest: string;
}

/** How `<string>` counts: from the highest string, as MusicXML says, or from the lowest, as players do. */
export type StringNumbers = "musicxml" | "guqin";

/** What a note's fingering comes to in one way of counting the strings. */
export interface CountedFingering {
  readonly given: GivenFingering;
  /** another text of the note contradicts its marks */
  readonly contradicted: boolean;
}

/** A note whose string the writer marked with a number. */
export interface StringMark {
  readonly note: string;
  /** as the score was read */
  readonly here: CountedFingering;
  /** as it would be read with the strings counted from the other side */
  readonly otherwise: CountedFingering;
}

/** One voice of one part. */
export interface Score {
  /** the file's name without folders, `-` for standard input */
  readonly file: string;
  readonly title: string | null;
  readonly creator: string | null;
  readonly part: { readonly id: string; readonly name: string | null };
  /** the voice's name in the file; null where the file names none */
  readonly voice: string | null;
  readonly bars: readonly Bar[];
  /** in order of time; grace notes before their main note; chords lowest first */
  readonly notes: readonly ScoreNote[];
  /** in order of time; empty where the file gives none */
  readonly tempos: readonly Tempo[];
  readonly slurs: readonly Slur[];
  /** in order of their ends */
  readonly wedges: readonly Wedge[];
  /** how this line came to be read; null where there was nothing to choose, or the call chose */
  readonly choice: LineChoice | null;
  readonly leftOut: readonly LeftOutLine[];
  readonly oddMarks: readonly OddMark[];
  /** how `<string>` was counted */
  readonly stringNumbers: StringNumbers;
  /** the writer's own string numbers under technical marks; huipath's are not among them */
  readonly stringMarks: readonly StringMark[];
  readonly unread: readonly Unread[];
}
