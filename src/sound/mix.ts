// SPDX-License-Identifier: AGPL-3.0-or-later
// A whole line as samples, for a sound file. The page lets the browser add the same tones up.
import type { SoundLine } from "./line.js";
import { SAMPLE_RATE } from "./loop.js";
import { type Timed, timedTones } from "./timing.js";
import { RELEASE_SECONDS, renderTone, toneKey } from "./tone.js";

/** Above this, loudness is pressed together so that nothing is ever clipped. */
const KNEE = 0.8;

/** Presses what is too loud below 1; what is not stays as it is. @param sample any size */
export function pressed(sample: number): number {
  const loud = Math.abs(sample);
  if (loud <= KNEE) return sample;
  return Math.sign(sample) * (KNEE + (1 - KNEE) * Math.tanh((loud - KNEE) / (1 - KNEE)));
}

/** How long a line sounds at the written tempo, its last tones included: seconds. */
export function lineSeconds(line: SoundLine): number {
  return timedTones(line, 1).reduce((end, { ends }) => Math.max(end, ends), line.seconds);
}

/**
 * The line as one channel of samples from -1 to 1, at the written tempo.
 *
 * @param progress is told the share that is done, from 0 to 1
 */
export function renderLine(line: SoundLine, progress: (share: number) => void = () => {}): Float32Array {
  const sum = new Float32Array(Math.ceil(lineSeconds(line) * SAMPLE_RATE) + 1);
  const known = new Map<string, Float32Array>();
  for (const [i, timed] of timedTones(line, 1).entries()) {
    progress(i / line.tones.length);
    addTone(sum, samplesOf(timed, line, known), timed);
  }
  for (let i = 0; i < sum.length; i++) sum[i] = pressed(sum[i] as number);
  return sum;
}

/** A tone's samples; what was rendered before is taken again where it is long enough. */
function samplesOf({ tone, begins, ends }: Timed, line: SoundLine, known: Map<string, Float32Array>): Float32Array {
  const key = toneKey(tone, 1);
  const length = Math.ceil((ends - begins) * SAMPLE_RATE);
  const before = known.get(key);
  if (before !== undefined && before.length >= length) return before.subarray(0, length);
  const samples = renderTone(tone, line.strings[tone.string - 1] as number, ends - begins, 1);
  known.set(key, samples);
  return samples;
}

/** Adds a tone that fades where it is let go. */
function addTone(sum: Float32Array, samples: Float32Array, { begins, released }: Timed): void {
  const from = Math.round(begins * SAMPLE_RATE);
  const release = Math.round((released - begins) * SAMPLE_RATE);
  const fade = RELEASE_SECONDS * SAMPLE_RATE;
  for (let i = 0; i < samples.length && from + i < sum.length; i++) {
    const gain = i <= release ? 1 : Math.max(0, 1 - (i - release) / fade);
    sum[from + i] = (sum[from + i] as number) + gain * (samples[i] as number);
  }
}
