// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a pitch lies on the strings, and what a place sounds.
import {
  centsAt,
  fractionAt,
  HIGHEST_STOP_SEMITONES,
  harmonicCents,
  NUT_POSITION,
  stopPosition,
  writtenPlace,
} from "./board.js";
import type { Sound } from "./fingering.js";
import { centsOf, type Temperament } from "./temperament.js";
import type { Tuning } from "./tuning.js";

/** The strings' pitches and the temperament: all that places depend on. */
export interface Strung {
  readonly tuning: Tuning;
  readonly temperament: Temperament;
  /** pitch class on which the twelve-note scale is built; the tuning's own gong where left out */
  readonly gong?: number;
}

const gongOf = (strung: Strung): number => strung.gong ?? strung.tuning.gong;

/** A place on a string. */
export interface Place {
  /** 1 (lowest, farthest) to 7 */
  readonly string: number;
  readonly sound: Sound;
  /** written hui and tenths, the hui of a harmonic, null for the open string */
  readonly position: number | null;
  /** exact hui and tenths; 14 for the open string */
  readonly exact: number;
  /** what it sounds, in cents above the open string */
  readonly cents: number;
  /** the wanted pitch in semitones above the open string */
  readonly semitones: number;
  /** cents by which it sounds above the wanted pitch */
  readonly offCents: number;
}

/** An open string answers for a pitch up to this many cents away: a microtone's share. */
const OPEN_TOLERANCE_CENTS = 35;

/**
 * Cents of a pitch above an open string, to a billionth: equal intervals give equal numbers on whatever pitch class the
 * scale is built, so that they lie at equal places.
 */
export function centsAboveOpen(string: number, cents: number, strung: Strung): number {
  const open = strung.tuning.semitones[string - 1] as number;
  return Math.round((cents - centsOf(open, gongOf(strung), strung.temperament)) * 1e9) / 1e9;
}

/**
 * Every place of a pitch on one string: open, stopped, then harmonics from hui 1 to 13.
 *
 * @param semitone MIDI note number of the pitch
 * @param cents    the pitch in the temperament, from MIDI note 0
 */
export function placesOn(string: number, semitone: number, cents: number, strung: Strung): readonly Place[] {
  const open = strung.tuning.semitones[string - 1] as number;
  const semitones = semitone - open;
  const above = centsAboveOpen(string, cents, strung);
  const places: Place[] = [];
  const base = { string, semitones };
  if (semitones === 0 && Math.abs(above) <= OPEN_TOLERANCE_CENTS)
    places.push({ ...base, sound: "open", position: null, exact: NUT_POSITION, cents: 0, offCents: -above });
  const exact = semitones >= 1 && semitones <= HIGHEST_STOP_SEMITONES ? stopPosition(above) : null;
  if (exact !== null)
    places.push({
      ...base,
      sound: "stopped",
      position: writtenPlace(exact, semitones),
      exact,
      cents: above,
      offCents: 0,
    });
  for (let hui = 1; hui <= 13; hui++) {
    const offCents = harmonicCents(hui) - above;
    if (Math.abs(offCents) < 50)
      places.push({ ...base, sound: "harmonic", position: hui, exact: hui, cents: harmonicCents(hui), offCents });
  }
  return places;
}

/** Every place of a whole semitone, string 1 first. */
export function placesOfPitch(semitone: number, strung: Strung): readonly Place[] {
  const cents = centsOf(semitone, gongOf(strung), strung.temperament);
  return [1, 2, 3, 4, 5, 6, 7].flatMap((string) => placesOn(string, semitone, cents, strung));
}

/** A written place is the note's own when it lies this near, in cents, or within half a tenth (a default of this project). */
export const WRITTEN_TOLERANCE_CENTS = 25;

/** Whether a written stop or harmonic means this place: within half a tenth or 25 cents of it, whichever is larger. */
export function namesPlace(position: number, place: Pick<Place, "sound" | "position" | "exact">): boolean {
  if (place.sound === "harmonic") return Math.abs(position - (place.position as number)) < 0.051;
  if (place.position === position) return true;
  const off = centsAt(position) - centsAt(place.exact);
  const tenth = Math.min(position + 0.05, NUT_POSITION);
  return Math.abs(off) <= Math.max(WRITTEN_TOLERANCE_CENTS, Math.abs(centsAt(tenth) - centsAt(tenth - 0.05)));
}

/** What a place sounds. */
export interface Sounding {
  readonly sound: Sound;
  /** cents above the open string */
  readonly cents: number;
  /** the nearest semitone as a MIDI note number */
  readonly semitone: number;
  /** cents above that semitone in the temperament */
  readonly offCents: number;
}

/** What a place on a string sounds: stopped there, and touched as a harmonic where it is a whole hui up to 13. */
export function soundingsAt(string: number, position: number, strung: Strung): readonly Sounding[] {
  const stopped: Sounding = sounding("stopped", fractionAt(position) === 1 ? 0 : centsAt(position), string, strung);
  if (position === NUT_POSITION) return [{ ...stopped, sound: "open" }];
  const touched = Number.isInteger(position) ? [sounding("harmonic", harmonicCents(position), string, strung)] : [];
  return [stopped, ...touched];
}

function sounding(sound: Sound, cents: number, string: number, strung: Strung): Sounding {
  const { tuning, temperament } = strung;
  const gong = gongOf(strung);
  const open = tuning.semitones[string - 1] as number;
  const total = centsOf(open, gong, temperament) + cents;
  const guess = open + Math.round(cents / 100);
  const off = (semitone: number): number => total - centsOf(semitone, gong, temperament);
  const semitone = [guess - 1, guess, guess + 1].reduce((a, b) => (Math.abs(off(b)) < Math.abs(off(a)) ? b : a));
  return { sound, cents, semitone, offCents: off(semitone) };
}
