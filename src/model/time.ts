// SPDX-License-Identifier: AGPL-3.0-or-later
// Exact time: fractions of a quarter note from the start of the piece, never floats.
import Fraction from "fraction.js";

/** A length or a moment in quarter notes, exact. */
export type Quarters = Fraction;

/** An exact number of quarter notes. @example quarters(3, 2) // a dotted quarter */
export function quarters(numerator: number | string, denominator = 1): Quarters {
  return typeof numerator === "string" ? new Fraction(numerator) : new Fraction(numerator, denominator);
}

/** Nothing: the start of the piece, the length of a grace note as printed. */
export const ZERO: Quarters = new Fraction(0);

/** The earlier of two moments, or the shorter of two lengths. */
export function earlier(a: Quarters, b: Quarters): Quarters {
  return a.compare(b) <= 0 ? a : b;
}

/** A beat as people write it: at most three digits, no trailing zeros. @example beatLabel(quarters(4, 3)) // "1.333" */
export function beatLabel(beat: Quarters): string {
  return String(Math.round(beat.valueOf() * 1000) / 1000);
}
