// SPDX-License-Identifier: AGPL-3.0-or-later

/**
 * Noise that is the same every time: numbers from -1 to 1 (a xorshift generator, Marsaglia 2003).
 *
 * @param start any whole number
 */
export function noiseFrom(start: number): () => number {
  let state = (Math.imul(start + 1, 0x9e3779b1) | 1) >>> 0;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 0x80000000 - 1;
  };
}
