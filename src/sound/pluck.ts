// SPDX-License-Identifier: AGPL-3.0-or-later
// What a pluck puts into the string: a short push and a scrape of noise, as dull as the finger, shaped by where it plucks.
import { cubicWeights } from "./cubic.js";
import { SAMPLE_RATE } from "./loop.js";
import { noiseFrom } from "./noise.js";

/**
 * Where the right hand plucks, as a share of the whole string from the bridge. It plays between the bridge and hui 1,
 * which is an eighth of the string away (a workshop summary at yangzhousiyue.com; also quoted from Ming texts); the place within is our judgement.
 */
const PLUCK_SHARE = 0.09;

/** How a string is plucked. */
export interface Pluck {
  /** frequency of the vibrating length as a whole, in Hz */
  readonly looped: number;
  /** frequency of the open string, in Hz */
  readonly open: number;
  /** partial that a light touch leaves: the pluck's other partials cancel each other; 1 for all */
  readonly partial: number;
  /** gain of the tone in one period: later pushes of a harmonic count less */
  readonly kept: number;
  readonly cutoffHz: number;
  /** share of noise */
  readonly noise: number;
  /** which noise */
  readonly start: number;
}

/** Samples of the pluck. */
export function pluckSamples({ looped, open, partial, kept, cutoffHz, noise, start }: Pluck): Float64Array {
  const period = SAMPLE_RATE / looped;
  const push = pushSamples(period, cutoffHz, noise, start);
  const echoes: Echo[] = [];
  const nearest = Math.min(0.5, (PLUCK_SHARE * looped) / open) * period;
  for (let k = 0; k < partial; k++) {
    const weight = kept ** (k / partial) / partial;
    echoes.push({ after: (k * period) / partial, weight });
    echoes.push({ after: (k * period) / partial + nearest, weight: -weight });
  }
  return echoed(push, echoes);
}

/** A push with noise over one period, twice smoothed. */
function pushSamples(period: number, cutoffHz: number, noise: number, start: number): Float64Array {
  const random = noiseFrom(start);
  const length = Math.ceil(period);
  // Twenty time constants of the smoothing: what is left is below any sample.
  const samples = new Float64Array(length + Math.ceil((20 * SAMPLE_RATE) / (2 * Math.PI * cutoffHz)));
  const pole = Math.exp((-2 * Math.PI * cutoffHz) / SAMPLE_RATE);
  const grain = noise * Math.sqrt(3 / period);
  let first = 0;
  let second = 0;
  for (let i = 0; i < samples.length; i++) {
    const raw = (i === 0 ? 1 : 0) + (i < length ? grain * random() : 0);
    first += (1 - pole) * (raw - first);
    second += (1 - pole) * (first - second);
    samples[i] = second;
  }
  return samples;
}

interface Echo {
  /** samples, also between two */
  readonly after: number;
  readonly weight: number;
}

/** The sum of a sound and its echoes, each placed between samples by a cubic. */
function echoed(push: Float64Array, echoes: readonly Echo[]): Float64Array {
  const longest = Math.max(...echoes.map(({ after }) => after));
  const sum = new Float64Array(push.length + Math.ceil(longest) + 4);
  const taps = new Float64Array(4);
  for (const { after, weight } of echoes) {
    const whole = Math.floor(after);
    cubicWeights(taps, after - whole + 1);
    for (const [tap, factor] of taps.entries())
      for (let i = 0; i < push.length; i++)
        sum[whole + tap + i] = (sum[whole + tap + i] as number) + weight * factor * (push[i] as number);
  }
  return sum;
}
