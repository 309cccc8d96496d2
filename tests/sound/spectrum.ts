// SPDX-License-Identifier: AGPL-3.0-or-later
// What is measured of a sound, with a transform from outside the project (fft.js).
import FFT from "fft.js";
import { SAMPLE_RATE } from "../../src/sound/loop.js";

/** Magnitudes of the partials of a stretch of sound under a Hann window. */
export interface Spectrum {
  readonly magnitudes: readonly number[];
  /** from one magnitude to the next */
  readonly stepHz: number;
}

/** @param samples a power of two of them are taken, from `from` on */
export function spectrumOf(samples: Float32Array, from: number, size = 65_536): Spectrum {
  const fft = new FFT(size);
  const windowed = Array.from(
    { length: size },
    (_, i) => (samples[from + i] ?? 0) * (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size)),
  );
  const out = fft.createComplexArray();
  fft.realTransform(out, windowed);
  const magnitudes = Array.from({ length: size / 2 }, (_, k) => Math.hypot(out[2 * k] ?? 0, out[2 * k + 1] ?? 0));
  return { magnitudes, stepHz: SAMPLE_RATE / size };
}

/** The strongest frequency within three percent of a frequency: a parabola through the logarithms at the peak. */
export function peakNear({ magnitudes, stepHz }: Spectrum, hz: number): number {
  const at = (k: number): number => magnitudes[k] ?? 0;
  let top = Math.round(hz / stepHz);
  for (let k = Math.floor((0.97 * hz) / stepHz); k <= Math.ceil((1.03 * hz) / stepHz); k++)
    if (at(k) > at(top)) top = k;
  const [before, here, after] = [Math.log(at(top - 1)), Math.log(at(top)), Math.log(at(top + 1))];
  return (top + (before - after) / (2 * (before - 2 * here + after))) * stepHz;
}

/** Strength near a frequency in dB. */
export function levelNear({ magnitudes, stepHz }: Spectrum, hz: number): number {
  const middle = Math.round(hz / stepHz);
  return 20 * Math.log10(Math.max(...magnitudes.slice(Math.max(0, middle - 6), middle + 7)));
}

/** The mean frequency, by strength. */
export function centroidHz({ magnitudes, stepHz }: Spectrum): number {
  const all = magnitudes.reduce((sum, one) => sum + one, 0);
  return magnitudes.reduce((sum, one, k) => sum + one * k * stepHz, 0) / all;
}

/** Root mean square of a tenth of a second. */
export function loudnessAt(samples: Float32Array, seconds: number): number {
  const from = Math.round(seconds * SAMPLE_RATE);
  const length = SAMPLE_RATE / 10;
  let sum = 0;
  for (let i = 0; i < length; i++) sum += (samples[from + i] ?? 0) ** 2;
  return Math.sqrt(sum / length);
}

/** Seconds in which a tone falls by 60 dB, by how it falls from one moment to another. */
export function decaySeconds(samples: Float32Array, from: number, to: number): number {
  const fallenDb = 20 * Math.log10(loudnessAt(samples, from) / loudnessAt(samples, to));
  return ((to - from) * 60) / fallenDb;
}

/** Cents from one frequency to another. */
export function centsBetween(hz: number, other: number): number {
  return 1200 * Math.log2(other / hz);
}
