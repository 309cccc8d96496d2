// SPDX-License-Identifier: AGPL-3.0-or-later
// Whether a note can be sounded where a fingering says.
import type { GivenFingering } from "./fingering.js";
import { namesPlace, placesOn, type Strung } from "./places.js";

/**
 * Whether some place of the note is what a fingering gives, as far as it says: string, sound and place. Finger and
 * stroke do not bear on the pitch.
 *
 * @param semitone MIDI note number
 * @param cents    from MIDI note 0, in the temperament
 */
export function soundsWhereGiven(
  { string, across, sound, position }: GivenFingering,
  semitone: number,
  cents: number,
  strung: Strung,
): boolean {
  const strings = string === null ? (across ?? [1, 2, 3, 4, 5, 6, 7]) : [string];
  return strings
    .flatMap((one) => placesOn(one, semitone, cents, strung))
    .filter((place) => sound === null || place.sound === sound)
    .some((place) => position === null || (place.sound !== "open" && namesPlace(position, place)));
}
