// SPDX-License-Identifier: AGPL-3.0-or-later
import { Interval, Note } from "tonal";

/** The letters of the staff. */
export type Step = "A" | "B" | "C" | "D" | "E" | "F" | "G";

/** A pitch by spelling. `alter` is in semitones and may be a fraction (microtones); octave 4 starts at middle C. */
export interface Pitch {
  readonly step: Step;
  readonly alter: number;
  readonly octave: number;
}

const STEP_SEMITONE: Readonly<Record<Step, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/**
 * Reads scientific pitch notation in ASCII (C4 = middle C). Null when it is no pitch.
 *
 * @example parsePitch("Bb2") // { step: "B", alter: -1, octave: 2 }
 */
export function parsePitch(name: string): Pitch | null {
  const note = Note.get(name.trim().replaceAll("♯", "#").replaceAll("♭", "b"));
  if (note.empty || note.oct === undefined) return null;
  return { step: note.letter as Step, alter: note.alt, octave: note.oct };
}

/** The whole-semitone spelling of a pitch: microtones are named by the nearest semitone. @example "F##3" */
export function pitchName(pitch: Pitch): string {
  const alter = Math.round(pitch.alter);
  return pitch.step + (alter < 0 ? "b".repeat(-alter) : "#".repeat(alter)) + pitch.octave;
}

/** The nearest semitone as a MIDI note number (60 = C4 = middle C). */
export function semitoneOf(pitch: Pitch): number {
  return 12 * (pitch.octave + 1) + STEP_SEMITONE[pitch.step] + Math.round(pitch.alter);
}

/** The pitch so many octaves higher, lower for a negative number. */
export function octavesUp(pitch: Pitch, octaves: number): Pitch {
  return { ...pitch, octave: pitch.octave + octaves };
}

/** Cents by which a microtonal pitch lies above its nearest semitone, -50 to 50. */
export function microtoneCents(pitch: Pitch): number {
  return (pitch.alter - Math.round(pitch.alter)) * 100;
}

/** A plain spelling of a MIDI note number, with sharps or with flats. @example spell(46, true) // "Bb2" */
export function spell(semitone: number, flats = false): string {
  return flats ? Note.fromMidi(semitone) : Note.fromMidiSharps(semitone);
}

/**
 * Transposes by an interval of tonal's spelling (`-4P`, `2m`), keeping a microtone.
 *
 * @throws RangeError when the interval is none
 */
export function transposePitch(pitch: Pitch, interval: string): Pitch {
  if (interval === "1P") return pitch;
  const micro = pitch.alter - Math.round(pitch.alter);
  const moved = parsePitch(Note.transpose(pitchName(pitch), interval));
  if (moved === null) throw new RangeError(`cannot transpose ${pitchName(pitch)} by ${interval}`);
  return { ...moved, alter: moved.alter + micro };
}

/** A transposition: whole semitones and the interval that spells them. */
export interface Transposition {
  readonly semitones: number;
  /** tonal's spelling, such as `-5P` for a fifth down */
  readonly interval: string;
}

/** No transposition. */
export const UNTRANSPOSED: Transposition = { semitones: 0, interval: "1P" };

/**
 * Reads semitones (`-12`, `+5`) or an interval name, in either order of quality and number (`-P5`, `5P`, `-8P`).
 * Semitones get the interval that leads from the written key to the key with the fewest accidentals.
 *
 * @param text   what the user typed
 * @param fifths sharps (+) or flats (-) of the written key
 * @returns null when it is neither
 */
export function parseTransposition(text: string, fifths: number): Transposition | null {
  const trimmed = text.trim();
  if (/^[+-]?\d+$/.test(trimmed)) return spellTransposition(Number(trimmed), fifths);
  const parts = /^([+-]?)(?:([PMmdA]+)(\d+)|(\d+)([PMmdA]+))$/.exec(trimmed);
  if (parts === null) return null;
  const [, sign, q1, n1, n2, q2] = parts;
  const interval = Interval.get(`${sign === "-" ? "-" : ""}${n1 ?? n2}${q1 ?? q2}`);
  return isInterval(interval) ? { semitones: interval.semitones, interval: interval.name } : null;
}

/** Fourths, fifths and octaves are never major or minor, and nothing is smaller than a prime; tonal lets both pass. */
function isInterval({ empty, num, type, q }: ReturnType<typeof Interval.get>): boolean {
  return !empty && num !== 0 && !(type === "perfectable" && (q === "M" || q === "m"));
}

function spellTransposition(semitones: number, fifths: number): Transposition {
  const size = Math.abs(semitones);
  const octaves = Math.floor(size / 12);
  const names = SPELLINGS[size % 12] as readonly string[];
  const options = names.map((name) => {
    const up = Interval.add(name, octaves === 0 ? "1P" : `${7 * octaves + 1}P`) as string;
    const interval = semitones < 0 ? `-${up}` : up;
    const onC = Note.transpose("C4", interval);
    return { interval, accidentals: Math.abs(fifths + fifthsOf(onC)) };
  });
  const best = options.reduce((a, b) => (b.accidentals < a.accidentals ? b : a));
  return { semitones, interval: size === 0 ? "1P" : best.interval };
}

const SPELLINGS: readonly (readonly string[])[] = [
  ["1P"],
  ["2m", "1A"],
  ["2M"],
  ["3m", "2A"],
  ["3M", "4d"],
  ["4P"],
  ["4A", "5d"],
  ["5P"],
  ["6m", "5A"],
  ["6M"],
  ["7m", "6A"],
  ["7M", "8d"],
];

/** Sharps (+) or flats (-) of the major key on a pitch class. */
function fifthsOf(note: string): number {
  const pitch = parsePitch(note) as Pitch;
  return "FCGDAEB".indexOf(pitch.step) - 1 + 7 * pitch.alter;
}
