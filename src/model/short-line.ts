// SPDX-License-Identifier: AGPL-3.0-or-later
// A line of quarter notes in 4/4, made to be played rather than read from a file.
import { type GivenFingering, NOTHING_GIVEN } from "./fingering.js";
import { type Pitch, parsePitch, spell } from "./pitch.js";
import { type Bar, NO_MARKS, type Score, type ScoreNote } from "./score.js";
import { quarters, ZERO } from "./time.js";

/** One quarter note. */
export interface ShortNote {
  /** MIDI note number */
  readonly semitone: number;
  /** what is asked of its fingering */
  readonly given: Partial<GivenFingering>;
  /** slurred to from the note before */
  readonly slurred: boolean;
}

const BEATS = 4;
/**
 * The line as a score, written as it sounds.
 *
 * @param flats whether black keys are spelled with flats
 * @param tempo quarter notes a minute
 */
export function shortLine(notes: readonly ShortNote[], flats: boolean, tempo: number): Score {
  const id = (index: number): string => `n${index + 1}`;
  return {
    ...{ file: "study", title: null, creator: null, part: { id: "P1", name: null }, voice: null },
    bars: Array.from({ length: Math.ceil(notes.length / BEATS) }, (_, index) => barAt(index)),
    notes: notes.map(({ semitone, given }, index): ScoreNote => {
      const pitch = parsePitch(spell(semitone, flats)) as Pitch;
      return {
        ...{ id: id(index), tiedIds: [], bar: Math.floor(index / BEATS), beat: String((index % BEATS) + 1) },
        ...{ onset: quarters(index), duration: quarters(1), written: pitch, sounding: pitch },
        ...{ grace: false, chord: null, marks: NO_MARKS, dynamic: null, lyrics: [], words: [] },
        given: { ...NOTHING_GIVEN, ...given },
      };
    }),
    tempos: [{ onset: ZERO, quartersPerMinute: tempo }],
    slurs: notes.flatMap(({ slurred }, index) =>
      slurred && index > 0 ? [{ from: id(index - 1), to: id(index), count: 2 }] : [],
    ),
    ...{ wedges: [], choice: null, leftOut: [], oddMarks: [], stringNumbers: "guqin", stringMarks: [], unread: [] },
  };
}

function barAt(index: number): Bar {
  return {
    ...{
      index,
      label: String(index + 1),
      onset: quarters(BEATS * index),
      length: quarters(BEATS),
      firstBeat: quarters(1),
    },
    ...{ meter: { beats: BEATS, beatType: 4 }, key: { fifths: 0, mode: null } },
    ...{ repeatStart: false, repeatTimes: null, endings: [] },
  };
}
