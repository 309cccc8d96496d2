// SPDX-License-Identifier: AGPL-3.0-or-later
// What players keep in mind of a mode: the tones next to the octave on each string, and in each zone of the board the
// string that differs. That they do is common practice, no source; the places are computed.
import { DEGREES, isCore, placesOnString, type Scale } from "./note-table.js";

const STRINGS = [1, 2, 3, 4, 5, 6, 7] as const;
const OCTAVE = 7;

/** Written places of the five-note scale on a string up to hui 4, from the nut up; 14 is the open string. */
function corePlaces(string: number, scale: Scale): readonly number[] {
  return DEGREES.filter(({ core }) => core)
    .flatMap(({ semitones }) => placesOnString((scale.gong + semitones) % 12, string, scale))
    .sort((a, b) => b - a);
}

/** The tones of the five-note scale next to hui 7, the octave of the open string. */
export interface OctaveNeighbours {
  readonly string: number;
  /** written place of the next lower tone, on the nut side of hui 7: 7.6 or 7.9 where the open string is in the scale */
  readonly below: number;
  /** written place of the next higher tone: 6.4 or 6.2 there */
  readonly above: number;
  /** whether the open string, and so hui 7, is a tone of the five-note scale */
  readonly openInScale: boolean;
}

/** The pattern around hui 7, string 1 first. */
export function octavePattern(scale: Scale): readonly OctaveNeighbours[] {
  return STRINGS.map((string) => {
    const places = corePlaces(string, scale);
    return {
      string,
      below: Math.min(...places.filter((place) => place > OCTAVE)),
      above: Math.max(...places.filter((place) => place < OCTAVE)),
      openInScale: isCore(scale.tuning.semitones[string - 1] as number, scale.gong),
    };
  });
}

/** A stretch of the board in which most strings have their tone at one place. */
export interface Zone {
  readonly name: "low down" | "around hui 10" | "around hui 9";
  /** written places, from the bridge side to the nut side */
  readonly from: number;
  readonly to: number;
}

/** The zones in which a hand stays, from the nut up. */
export const ZONES: readonly Zone[] = [
  { name: "low down", from: 12, to: 13.6 },
  { name: "around hui 10", from: 9.6, to: 10.9 },
  { name: "around hui 9", from: 8.4, to: 9.5 },
];

/** Places of one string within a zone. */
export interface ZonePlaces {
  readonly string: number;
  /** from the nut up; empty where no tone of the five-note scale lies in the zone */
  readonly places: readonly number[];
}

/** A zone in a mode. */
export interface ZonePattern {
  readonly zone: Zone["name"];
  /** what most strings have; of equals what the lowest string among them has */
  readonly common: readonly number[];
  /** every string, 1 first */
  readonly strings: readonly ZonePlaces[];
  /** the odd ones: strings whose places are not the common ones */
  readonly odd: readonly ZonePlaces[];
}

/**
 * The places of a mode in every zone, and the strings to watch there.
 *
 * @example zonePatterns({ tuning: STANDARD, gong: 5, temperament: "pythagorean" })[1].odd // string 3 at 10.8
 */
export function zonePatterns(scale: Scale): readonly ZonePattern[] {
  return ZONES.map(({ name, from, to }) => {
    const strings = STRINGS.map((string) => ({
      string,
      places: corePlaces(string, scale).filter((place) => place >= from && place <= to),
    }));
    const shared = (one: ZonePlaces): number => strings.filter((other) => same(one, other)).length;
    const usual = strings.reduce((a, b) => (shared(b) > shared(a) ? b : a));
    return { zone: name, common: usual.places, strings, odd: strings.filter((one) => !same(one, usual)) };
  });
}

function same(a: ZonePlaces, b: ZonePlaces): boolean {
  return a.places.join() === b.places.join();
}
