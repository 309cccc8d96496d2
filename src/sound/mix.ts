// SPDX-License-Identifier: AGPL-3.0-or-later
// A whole line as samples, for a sound file. The page lets the browser add the same tones up.
import { handDelay, type SoundLine } from "./line.js";
import { SAMPLE_RATE } from "./loop.js";
import { RELEASE_SECONDS, renderTone, toneKey, toneSeconds } from "./tone.js";

/** Above this, loudness is pressed together so that nothing is ever clipped. */
const KNEE = 0.8;

/** Presses what is too loud below 1; what is not stays as it is. @param sample any size */
export function pressed(sample: number): number {
  const loud = Math.abs(sample);
  if (loud <= KNEE) return sample;
  return Math.sign(sample) * (KNEE + (1 - KNEE) * Math.tanh((loud - KNEE) / (1 - KNEE)));
}

/** How long a line sounds, its last tones included: seconds. */
export function lineSeconds(line: SoundLine): number {
  return line.tones.reduce((end, tone) => Math.max(end, tone.at + tone.after + toneSeconds(tone, 1)), line.seconds);
}

/**
 * The line as one channel of samples from -1 to 1, at the written tempo.
 *
 * @param progress is told the share that is done, from 0 to 1
 */
export function renderLine(line: SoundLine, progress: (share: number) => void = () => {}): Float32Array {
  const sum = new Float32Array(Math.ceil(lineSeconds(line) * SAMPLE_RATE) + 1);
  const known = new Map<string, Float32Array>();
  for (const [i, tone] of line.tones.entries()) {
    progress(i / line.tones.length);
    const seconds = toneSeconds(tone, 1);
    const key = toneKey(tone, 1);
    let samples = known.get(key);
    const length = Math.ceil(seconds * SAMPLE_RATE);
    if (samples === undefined || samples.length < length) {
      samples = renderTone(tone, line.strings[tone.string - 1] as number, seconds, 1);
      known.set(key, samples);
    }
    const from = Math.round((tone.at + handDelay(tone.after, 1)) * SAMPLE_RATE);
    const release = tone.until === null ? Number.POSITIVE_INFINITY : Math.round(tone.until * SAMPLE_RATE);
    addTone(sum, samples.subarray(0, length), from, release);
  }
  return sum.map(pressed);
}

/** Adds a tone that is let go at a sample. */
function addTone(sum: Float32Array, samples: Float32Array, from: number, release: number): void {
  const fade = RELEASE_SECONDS * SAMPLE_RATE;
  for (let i = 0; i < samples.length && from + i < sum.length; i++) {
    const gain = i <= release ? 1 : Math.max(0, 1 - (i - release) / fade);
    sum[from + i] = (sum[from + i] as number) + gain * (samples[i] as number);
  }
}
