// SPDX-License-Identifier: AGPL-3.0-or-later

/**
 * How many a second follow one another at this distance, to six decimals: onsets are sums of fractions, and a rounding
 * far below hearing must not carry a steady pulse over a limit.
 *
 * @param seconds between two onsets; Infinity gives 0
 * @example perSecond(0.25) // 4
 */
export function perSecond(seconds: number): number {
  return Math.round(1e6 / seconds) / 1e6;
}
