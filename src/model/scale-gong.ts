// SPDX-License-Identifier: AGPL-3.0-or-later
// On which pitch class the twelve-note scale stands: F# is a pure fifth above B where the melody has sharps, and Gb a
// pure fifth below Db where it has flats.
import type { Pitch } from "./pitch.js";
import type { Temperament } from "./temperament.js";
import type { Tuning } from "./tuning.js";

/** Fifths above C of a spelled pitch. */
export function fifthsAboveC(pitch: Pick<Pitch, "step" | "alter">): number {
  return "FCGDAEB".indexOf(pitch.step) - 1 + 7 * Math.round(pitch.alter);
}

/** Fifths above C of a pitch class, spelled from five flats to six sharps. */
function fifthsOfClass(pitchClass: number): number {
  const fifths = (pitchClass * 7) % 12;
  return fifths > 6 ? fifths - 12 : fifths;
}

/**
 * The pitch class whose Pythagorean scale (five fifths down to six fifths up) holds most of the melody's notes as they
 * are spelled; of equals the nearest to the tuning's own gong. The other temperaments stay on the tuning's gong.
 *
 * @param pitches as they sound in the setting
 */
export function scaleGong(tuning: Tuning, temperament: Temperament, pitches: readonly Pitch[]): number {
  if (temperament !== "pythagorean") return tuning.gong;
  const home = fifthsOfClass(tuning.gong);
  const spelled = pitches.map(fifthsAboveC);
  const held = (gong: number): number => spelled.filter((fifths) => fifths - gong >= -5 && fifths - gong <= 6).length;
  const nearestFirst = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6].map((away) => home + away);
  const best = nearestFirst.reduce((a, b) => (held(b) > held(a) ? b : a));
  return (((best * 7) % 12) + 12) % 12;
}
