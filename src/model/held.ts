// SPDX-License-Identifier: AGPL-3.0-or-later
// What players leave out of a fingering because it has not changed: it holds wherever the note then lies there.
import type { GivenFingering } from "./fingering.js";
import { namesPlace, placesOn, type Strung } from "./places.js";

/**
 * A fingering with what it left out, where the place of before sounds the note on this string; without it otherwise,
 * since nothing that would change the note is taken for granted. A finger holds for any place that it is written for.
 *
 * @param semitone MIDI note number
 * @param cents    from MIDI note 0, in the temperament
 */
export function withHeld(given: GivenFingering, semitone: number, cents: number, strung: Strung): GivenFingering {
  const { held } = given;
  if (held === null) return given;
  const sound = given.sound ?? held.sound;
  const position = given.position ?? held.position;
  const strings = given.string === null ? (given.across ?? []) : [given.string];
  const lies = strings
    .flatMap((string) => placesOn(string, semitone, cents, strung))
    .some((place) => place.sound === sound && (sound === "open" || position === null || namesPlace(position, place)));
  if (!lies) return { ...given, held: null };
  if (sound === "open") return { ...given, sound, held: null };
  const finger = given.finger ?? held.finger;
  const contact = given.contact ?? (given.finger === null ? held.contact : null);
  return { ...given, sound, position, finger, contact, held: null };
}
