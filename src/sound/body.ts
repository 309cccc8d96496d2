// SPDX-License-Identifier: AGPL-3.0-or-later
import { SAMPLE_RATE } from "./loop.js";

/** Resonances of a box: frequency, quality, strength. A generic wooden body of our own, not a measured instrument. */
const MODES: readonly (readonly [hz: number, quality: number, strength: number])[] = [
  [98, 18, 0.55],
  [196, 16, 0.7],
  [345, 14, 0.5],
  [520, 12, 0.4],
  [810, 10, 0.3],
];

/** What reaches the ear without the box's resonances. */
const DIRECT = 0.6;

/** The string's sound as a box gives it out. */
export function throughBody(string: Float64Array): Float64Array {
  const heard = string.map((sample) => DIRECT * sample);
  for (const [hz, quality, strength] of MODES) {
    const radius = Math.exp((-Math.PI * hz) / (quality * SAMPLE_RATE));
    const turn = 2 * radius * Math.cos((2 * Math.PI * hz) / SAMPLE_RATE);
    const input = (strength * (1 - radius * radius)) / 2;
    let [in1, in2, out1, out2] = [0, 0, 0, 0];
    for (let i = 0; i < string.length; i++) {
      const sample = string[i] as number;
      const out = input * (sample - in2) + turn * out1 - radius * radius * out2;
      in2 = in1;
      in1 = sample;
      out2 = out1;
      out1 = out;
      heard[i] = (heard[i] as number) + out;
    }
  }
  return heard;
}
