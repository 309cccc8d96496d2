// SPDX-License-Identifier: AGPL-3.0-or-later

/** The three temperaments in which places are computed. */
export const TEMPERAMENTS = ["pythagorean", "just", "equal"] as const;
/** One of {@link TEMPERAMENTS}. */
export type Temperament = (typeof TEMPERAMENTS)[number];

/** Frequency ratios of the twelve-note scale on gong, by semitone: Pythagorean fifths, and the 5-limit scale. */
const RATIOS: Readonly<Record<"pythagorean" | "just", readonly number[]>> = {
  pythagorean: [1, 256 / 243, 9 / 8, 32 / 27, 81 / 64, 4 / 3, 729 / 512, 3 / 2, 128 / 81, 27 / 16, 16 / 9, 243 / 128],
  just: [1, 16 / 15, 9 / 8, 6 / 5, 5 / 4, 4 / 3, 45 / 32, 3 / 2, 8 / 5, 5 / 3, 9 / 5, 15 / 8],
};

/**
 * Cents of a semitone in the twelve-note scale of the temperament on gong, counted from MIDI note 0 with gong at its
 * equal-tempered pitch. A# and Bb are one semitone and so one pitch.
 *
 * @param semitone MIDI note number
 * @param gong     pitch class of gong, 0 = C
 */
export function centsOf(semitone: number, gong: number, temperament: Temperament): number {
  if (temperament === "equal") return 100 * semitone;
  const above = (((semitone - gong) % 12) + 12) % 12;
  return 100 * (semitone - above) + 1200 * Math.log2(RATIOS[temperament][above] as number);
}

/** Equal-tempered frequency in Hz of a MIDI note number at A4 = 440 Hz (ISO 16). */
export function hertz(semitone: number): number {
  return 440 * 2 ** ((semitone - 69) / 12);
}
