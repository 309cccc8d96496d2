// SPDX-License-Identifier: AGPL-3.0-or-later
// One tone as samples: the pluck, the string, the body, and the finger's rub while it slides.
import { throughBody } from "./body.js";
import { ATTACKS, type Tone } from "./line.js";
import { SAMPLE_RATE, StringLoop } from "./loop.js";
import { noiseFrom } from "./noise.js";
import { type PitchCurve, pitchCurve } from "./pitch-curve.js";
import { pluckSamples } from "./pluck.js";
import { ATTACK_SOUND, ringSeconds, TOUCH_SOUND } from "./touch.js";

/** Loudness of a plain tone as its attack is heard, root mean square: its peak is about ten times that, and several ring at once. */
const LOUDNESS = 0.05;
/** A tone that is cut off fades within this time. */
export const RELEASE_SECONDS = 0.06;
/** So long from its beginning a tone's loudness is measured, however short it is cut. */
const ATTACK_SECONDS = 0.2;
/** How often a moving pitch is tuned anew, in samples. */
const RETUNE_SAMPLES = 16;
/** Ramps that keep the ends of a tone from clicking. */
const START_SECONDS = 0.0005;
const END_SECONDS = 0.02;
/** The finger's rub on the string, as a share of the loudness at one octave a second: it grows with speed (Penttinen and others 2006). */
const RUB = 0.04;

/**
 * How long a tone sounds, its fade included: seconds.
 *
 * @param held  seconds until it is let go
 * @param speed times the written tempo
 */
export function toneSeconds(tone: Tone, held: number, speed: number): number {
  const lowest = Math.min(tone.hz, ...tone.slides.map(({ hz }) => hz));
  const arrived = tone.slides.at(-1)?.at ?? 0;
  return Math.min(held + RELEASE_SECONDS, arrived / speed + ringSeconds(tone.touch, lowest));
}

/** Tones with the same key sound the same for as long as they sound. */
export function toneKey(tone: Tone, speed: number): string {
  const moving = tone.slides.length + tone.bends.length > 0;
  const { string, touch, attack, hz, slides, bends } = tone;
  return JSON.stringify(moving ? [string, touch, attack, hz, slides, bends, speed] : [string, touch, attack, hz]);
}

/**
 * Samples of a tone from its attack on, without the fade where it is cut off. The same call gives the same samples.
 *
 * @param open    its open string in Hz
 * @param seconds how much of it
 * @param speed   times the written tempo; only what moves in a tone depends on it
 */
export function renderTone(tone: Tone, open: number, seconds: number, speed: number): Float32Array {
  const { touch, attack, hz } = tone;
  const partial = touch === "harmonic" ? Math.max(1, Math.round(hz / open)) : 1;
  const curve = pitchCurve(hz, tone.slides, tone.bends, speed);
  const begins = curve === null ? hz : curve(0);
  const loop = new StringLoop(touch, partial);
  const kept = loop.tune(begins);
  const { bright, noise, gain } = ATTACK_SOUND[attack];
  const start = 16 * tone.string + ATTACKS.indexOf(attack);
  const cutoffHz = TOUCH_SOUND[touch].cutoffHz * bright;
  const pluck = pluckSamples({ looped: begins / partial, open, partial, kept, cutoffHz, noise, start });
  const length = Math.ceil(seconds * SAMPLE_RATE);
  const attacked = Math.ceil(ATTACK_SECONDS * SAMPLE_RATE);
  const heard = throughBody(stringSamples(loop, pluck, curve, Math.max(length, attacked)));
  let power = 0;
  for (let i = 0; i < attacked; i++) power += (heard[i] as number) ** 2;
  const scale = (LOUDNESS * gain) / Math.sqrt(power / attacked);
  return finished(heard.subarray(0, length), scale, curve, start);
}

function stringSamples(loop: StringLoop, pluck: Float64Array, curve: PitchCurve | null, length: number): Float64Array {
  const samples = new Float64Array(length);
  for (let i = 0; i < length; i++) {
    if (curve !== null && i % RETUNE_SAMPLES === 0) loop.tune(curve(i / SAMPLE_RATE));
    samples[i] = loop.next(i < pluck.length ? (pluck[i] as number) : 0);
  }
  return samples;
}

/** Scaled, with the rub of a sliding finger, and with smooth ends. */
function finished(heard: Float64Array, scale: number, curve: PitchCurve | null, start: number): Float32Array {
  const samples = new Float32Array(heard.length);
  const random = noiseFrom(start + 7);
  const startSamples = START_SECONDS * SAMPLE_RATE;
  const endSamples = END_SECONDS * SAMPLE_RATE;
  let rub = 0;
  let scrape = 0;
  for (let i = 0; i < samples.length; i++) {
    if (curve !== null) {
      if (i % RETUNE_SAMPLES === 0) rub = RUB * LOUDNESS * octavesPerSecond(curve, i / SAMPLE_RATE);
      scrape += 0.2 * (random() - scrape);
    }
    const ends = Math.min(1, (i + 1) / startSamples, (heard.length - i) / endSamples);
    samples[i] = ends * ((heard[i] as number) * scale + rub * scrape);
  }
  return samples;
}

function octavesPerSecond(curve: PitchCurve, seconds: number): number {
  const step = RETUNE_SAMPLES / SAMPLE_RATE;
  return Math.abs(Math.log2(curve(seconds + step) / curve(seconds))) / step;
}
