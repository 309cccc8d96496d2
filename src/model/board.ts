// SPDX-License-Identifier: AGPL-3.0-or-later
// The string's length as players name it: thirteen hui, tenths between them, and what sounds there.

/**
 * Vibrating fraction (bridge to finger) at hui 1 to 13, and 1 at the nut, which tenths beyond hui 13 count as
 * "hui 14". Index 0 is unused. Eighths give 1, 4, 7, 10, 13; sixths 2, 5, 9, 12; fifths 3, 6, 8, 11
 * (Zhu Fengjie, Yuguzhai qinpu, 1855, section v29).
 */
export const HUI_FRACTION: readonly number[] = [
  Number.NaN,
  1 / 8,
  1 / 6,
  1 / 5,
  1 / 4,
  1 / 3,
  2 / 5,
  1 / 2,
  3 / 5,
  2 / 3,
  3 / 4,
  4 / 5,
  5 / 6,
  7 / 8,
  1,
];

/** The partial that a light touch at hui 1 to 13 sounds. Index 0 is unused. */
export const HUI_PARTIAL: readonly number[] = [Number.NaN, 8, 6, 5, 4, 3, 5, 2, 5, 3, 4, 5, 6, 8];

/** The vibrating length of the strings that the tool assumes, in cm (published range 109.2 to 113.0; a default). */
export const DEFAULT_SCALE_LENGTH_CM = 110;

/** Three octaves above an open string lies hui 1, the highest stop. */
export const HIGHEST_STOP_SEMITONES = 36;

/** Two octaves above it lies hui 4, the ordinary ceiling of stops; above it the tone is thin. */
export const ORDINARY_STOP_SEMITONES = 24;

/** Where tenths are counted beyond hui 13: the nut. */
export const NUT_POSITION = 14;

/**
 * Vibrating fraction of a position `h.f`: f tenths of the way from hui h toward hui h+1, toward the nut.
 *
 * @param position hui and tenths as a decimal, 1 to 14
 * @example fractionAt(7.9) // 0.59
 */
export function fractionAt(position: number): number {
  const hui = Math.min(13, Math.floor(position));
  const from = HUI_FRACTION[hui];
  const to = HUI_FRACTION[hui + 1];
  if (from === undefined || to === undefined || position < 1 || position > NUT_POSITION)
    throw new RangeError(`no position ${position}: positions run from 1 to 14`);
  return from + (position - hui) * (to - from);
}

/**
 * The exact position of a vibrating fraction, the inverse of {@link fractionAt}.
 *
 * @param fraction 0.125 to 1
 */
export function positionAt(fraction: number): number {
  for (let hui = 13; hui >= 1; hui--) {
    const from = HUI_FRACTION[hui] as number;
    if (fraction >= from) return hui + (fraction - from) / ((HUI_FRACTION[hui + 1] as number) - from);
  }
  throw new RangeError(`no position at fraction ${fraction}: the board ends at 1/8 (hui 1)`);
}

/** Cents above the open string of a stop at `position`. @example centsAt(9) // 701.955 */
export function centsAt(position: number): number {
  return -1200 * Math.log2(fractionAt(position));
}

/** Exact position of a stop `cents` above the open string, or null beyond hui 1 or below the nut. */
export function stopPosition(cents: number): number | null {
  if (cents < -1e-9 || cents > 3600 + 1e-9) return null;
  return positionAt(Math.max(1 / 8, 2 ** (-Math.max(0, cents) / 1200)));
}

/** Distance of a position from the bridge in cm. */
export function cmFromBridge(position: number, scaleLengthCm: number): number {
  return fractionAt(position) * scaleLengthCm;
}

/** Cents above the open string of the harmonic at a whole hui. @example harmonicCents(9) // 1901.955 */
export function harmonicCents(hui: number): number {
  const partial = HUI_PARTIAL[hui];
  if (partial === undefined || Number.isNaN(partial)) throw new RangeError(`no hui ${hui}`);
  return 1200 * Math.log2(partial);
}

/**
 * The place that players usually write for the stop n semitones above the open string, n = 1 to 36; index 0 is the
 * open string. Published: a beginner's list of hui-fen signs and Thompson's Ming list for most to hui 4; the others from
 * memory of modern scores.
 */
const USUAL_PLACE: readonly number[] = [
  14, 13.6, 13.1, 12.2, 10.8, 10, 9.4, 9, 8.5, 7.9, 7.6, 7.3, 7, 6.7, 6.4, 6.2, 5.9, 5.6, 5.3, 5, 4.8, 4.6, 4.4, 4.2, 4,
  3.7, 3.4, 3.2, 3, 2.6, 2.3, 2, 1.8, 1.6, 1.4, 1.2, 1,
];

/**
 * The written place of an exact position: the usual one of that semitone when the exact place rounds to it or lies
 * within 0.051 of it, else the exact place rounded half up to a tenth.
 *
 * @param exact    exact position
 * @param semitone semitones above the open string that the stop is meant to sound
 * @example writtenPlace(12.25, 3) // 12.2
 */
export function writtenPlace(exact: number, semitone: number): number {
  const rounded = Math.floor(exact * 10 + 0.5 + 1e-9) / 10;
  const usual = USUAL_PLACE[semitone];
  if (usual !== undefined && (rounded === usual || Math.abs(exact - usual) < 0.051)) return usual;
  return rounded;
}
