// SPDX-License-Identifier: AGPL-3.0-or-later
// Whole phrases moved by an octave where they leave the part of the board in which strings sound full.
import { ORDINARY_STOP_SEMITONES } from "../model/board.js";
import { type Phrase, phrasesOf } from "../model/phrases.js";
import { octavesUp, semitoneOf } from "../model/pitch.js";
import type { Score, ScoreNote } from "../model/score.js";
import type { Setting } from "../model/setting.js";

/** A phrase that is played an octave from where it stands. */
export interface OctaveMove {
  /** indexes into the score's bars, both ends included */
  readonly fromBar: number;
  readonly toBar: number;
  /** 1 up, -1 down */
  readonly octaves: 1 | -1;
}

/** The melody with phrases moved. */
export interface Moved {
  readonly score: Score;
  readonly moves: readonly OctaveMove[];
}

/**
 * Moves each phrase with notes outside the ordinary range, from the lowest open string to hui 4 of the highest, by one
 * octave towards it, if fewer of its notes are then outside. Null where no phrase gains.
 */
export function movedByOctaves(score: Score, setting: Setting): Moved | null {
  const low = Math.min(...setting.tuning.semitones);
  const high = Math.max(...setting.tuning.semitones) + ORDINARY_STOP_SEMITONES;
  const notes = [...score.notes];
  const moves: OctaveMove[] = [];
  const phrases = phrasesOf(score);
  for (const phrase of phrases) {
    const own = score.notes.slice(phrase.from, phrase.to + 1);
    const pitches = own.map((note) => semitoneOf(note.sounding) + setting.transpose.semitones);
    const octaves = gainingOctave(pitches, low, high);
    if (octaves === 0) continue;
    for (const [k, note] of own.entries()) notes[phrase.from + k] = shifted(note, octaves);
    moves.push({ ...barsOf(phrase, score), octaves });
  }
  const alike = moves.length === phrases.length && moves.every(({ octaves }) => octaves === moves[0]?.octaves);
  return moves.length === 0 || alike ? null : { score: { ...score, notes }, moves };
}

function gainingOctave(pitches: readonly number[], low: number, high: number): OctaveMove["octaves"] | 0 {
  const outside = (by: number): number => pitches.filter((pitch) => pitch + by < low || pitch + by > high).length;
  const above = pitches.filter((pitch) => pitch > high).length;
  const towards = 2 * above > outside(0) ? -1 : 1;
  return outside(12 * towards) < outside(0) ? towards : 0;
}

function shifted(note: ScoreNote, octaves: number): ScoreNote {
  return { ...note, written: octavesUp(note.written, octaves), sounding: octavesUp(note.sounding, octaves) };
}

const barsOf = ({ from, to }: Phrase, { notes }: Score): Pick<OctaveMove, "fromBar" | "toBar"> => ({
  fromBar: (notes[from] as ScoreNote).bar,
  toBar: (notes[to] as ScoreNote).bar,
});
