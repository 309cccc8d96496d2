// SPDX-License-Identifier: AGPL-3.0-or-later

/**
 * Weights of four neighbouring samples that give the value between them: a cubic through all four (Lagrange).
 *
 * @param weights is filled, so that a loop that is tuned again and again allocates nothing
 * @param d how far from the first sample, best between 1 and 2: in the middle
 */
export function cubicWeights(weights: Float64Array, d: number): void {
  weights[0] = (-(d - 1) * (d - 2) * (d - 3)) / 6;
  weights[1] = (d * (d - 2) * (d - 3)) / 2;
  weights[2] = (-d * (d - 1) * (d - 3)) / 2;
  weights[3] = (d * (d - 1) * (d - 2)) / 6;
}
