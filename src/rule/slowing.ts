// SPDX-License-Identifier: AGPL-3.0-or-later

/**
 * How much of a movement's charge is left when there is time for it: all of it up to 0.6 s between plucks, half at
 * 1.5 s, none from 3 s on (or sooner, where a rule says so) or after a rest of a beat; linear between (our judgement).
 *
 * @param seconds since the pluck before
 * @param rested  a rest of a beat or more lies between
 * @param least   what always remains
 * @param none    seconds from which nothing is left, above 1.5
 * @example slowing(1.5, false, 0) // 0.5
 */
export function slowing(seconds: number, rested: boolean, least: number, none = 3): number {
  if (rested || seconds >= none) return least;
  if (seconds <= 0.6) return 1;
  const factor = seconds <= 1.5 ? 1 - (0.5 * (seconds - 0.6)) / 0.9 : (0.5 * (none - seconds)) / (none - 1.5);
  return Math.max(factor, least);
}
