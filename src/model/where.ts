// SPDX-License-Identifier: AGPL-3.0-or-later
// What `huipath where` is asked, and the answer: places of a note, or the sounds of a place.
import { InputProblem } from "../problem.js";
import { NUT_POSITION } from "./board.js";
import type { Sound } from "./fingering.js";
import { type Pitch, parsePitch, pitchName, semitoneOf, spell } from "./pitch.js";
import { placesOfPitch, type Strung, soundingsAt } from "./places.js";

/** A question: where a note lies, or what a place sounds. */
export type Question =
  | { readonly about: "note"; readonly name: string; readonly semitone: number }
  | { readonly about: "place"; readonly string: number; readonly position: number };

/** One place with its sound. */
export interface Spot {
  /** 1 (lowest, farthest) to 7 */
  readonly string: number;
  readonly sound: Sound;
  /** written hui and tenths, the hui of a harmonic, null for the open string */
  readonly position: number | null;
  /** cents above the open string */
  readonly cents: number;
  /** the asked note, or the semitone nearest to what sounds */
  readonly pitch: string;
  /** cents by which the place sounds above that pitch */
  readonly offCents: number;
}

const CURE = "ask for a note, such as where D4, or for a string and a place, such as where 4 7.9";

/**
 * Reads the words after `where`: a note (`D4`), a string and a place (`4 7.9`), or a string alone (`4`, `4 open`).
 *
 * @throws InputProblem naming the word that cannot be used
 */
export function parseQuestion(words: readonly string[]): Question {
  const [first = "", second, ...more] = words.flatMap((word) => word.trim().split(/\s+/)).filter((word) => word !== "");
  const isString = /^[+-]?\d/.test(first);
  const surplus = isString ? more[0] : second;
  if (surplus !== undefined) throw unusable(`"${surplus}" is one word too many`, CURE);
  if (!isString) return noteQuestion(first);
  if (!/^[1-7]$/.test(first))
    throw unusable(`there is no string "${first}"`, "strings run from 1 (the lowest) to 7, such as where 4 7.9");
  return { about: "place", string: Number(first), position: second === undefined ? NUT_POSITION : positionOf(second) };
}

function noteQuestion(word: string): Question {
  const pitch = parsePitch(word);
  if (pitch !== null) return { about: "note", name: pitchName(pitch), semitone: semitoneOf(pitch) };
  const withOctave = parsePitch(`${word}3`);
  if (withOctave !== null)
    throw unusable(`"${word}" has no octave`, `say which one, such as ${pitchName(withOctave)} (C4 is middle C)`);
  throw unusable(`"${word}" is no note`, CURE);
}

function positionOf(word: string): number {
  if (/^(open|san)$/i.test(word)) return NUT_POSITION;
  const position = /^\d{1,2}(\.\d{1,3})?$/.test(word) ? Number(word) : Number.NaN;
  if (position >= 1 && position <= NUT_POSITION) return position;
  throw unusable(
    `there is no place "${word}"`,
    "places run from hui 1 to 13 and on in tenths to 14, the open string, such as 7.9",
  );
}

function unusable(what: string, cure: string): InputProblem {
  return new InputProblem("bad-question", "where", what, cure);
}

/** Answers a question: every place string by string, then open, stopped, harmonic. Empty where no string sounds the note. */
export function spotsOf(question: Question, strung: Strung): readonly Spot[] {
  if (question.about === "note")
    return placesOfPitch(question.semitone, strung).map(({ string, sound, position, cents, offCents }) => ({
      string,
      sound,
      position,
      cents,
      pitch: question.name,
      offCents,
    }));
  const { string, position } = question;
  return soundingsAt(string, position, strung).map(({ sound, cents, semitone, offCents }) => ({
    string,
    sound,
    position: sound === "open" ? null : position,
    cents,
    pitch: spell(semitone, hasFlats(strung)),
    offCents,
  }));
}

/** The lowest and the highest note of a tuning; stops and harmonics both end three octaves above their string. */
export function compass(strung: Strung): { readonly lowest: string; readonly highest: string } {
  const { semitones, strings } = strung.tuning;
  const lowest = strings[semitones.indexOf(Math.min(...semitones))] as string;
  const top = parsePitch(strings[semitones.indexOf(Math.max(...semitones))] as string) as Pitch;
  return { lowest, highest: pitchName({ ...top, octave: top.octave + 3 }) };
}

/** Whether the scale on gong is spelled with flats: F, Bb, Eb, Ab, Db. */
export function hasFlats(strung: Strung): boolean {
  return [5, 10, 3, 8, 1].includes(strung.tuning.gong);
}
