// SPDX-License-Identifier: AGPL-3.0-or-later
// The string as a loop: a delay of one period and a filter that takes away what the string loses in it (Karplus & Strong
// 1983, Jaffe & Smith 1983, Computer Music Journal 7:2). The delay is read between samples by a cubic, so that every
// pitch is exact and a slide moves without a jump.
import { cubicWeights } from "./cubic.js";
import type { Touch } from "./line.js";
import { ringScale, TOUCH_SOUND } from "./touch.js";

/** Samples a second, everywhere. */
export const SAMPLE_RATE = 44_100;

/** Longest delay in samples, a power of two: strings go down to C1, 33 Hz. */
const DELAY_SIZE = 4096;

/** What one period does to the tone. */
interface Loss {
  /** gain for a steady signal, below 1 */
  readonly gain: number;
  /** the one-pole filter's memory */
  readonly pole: number;
  /** gain of the tone itself in one period */
  readonly kept: number;
}

/** Never quite 1: a loop that gains would run away. */
const MOST_GAIN = 0.99998;

/**
 * The loss of one period: the tone falls by 60 dB in its own time, what lies at 3 kHz (or at three times the tone) in less.
 *
 * @param looped the loop's own frequency in Hz
 * @param hz     the tone: the loop's frequency or a multiple of it
 */
function lossOf(touch: Touch, looped: number, hz: number): Loss {
  const { decaySeconds, highDecaySeconds } = TOUCH_SOUND[touch];
  const scale = ringScale(hz);
  const kept = 10 ** (-3 / (looped * decaySeconds * scale));
  const high = 10 ** (-3 / (looped * highDecaySeconds * scale));
  const low = Math.cos((2 * Math.PI * hz) / SAMPLE_RATE);
  const far = Math.cos((2 * Math.PI * Math.max(3000, 3 * hz)) / SAMPLE_RATE);
  // |H|^2 = (g (1 - a))^2 / (1 + a^2 - 2 a cos w) at both frequencies: a is the smaller root of a quadratic.
  const ratio = (high / kept) ** 2;
  const half = (ratio * far - low) / (1 - ratio);
  const pole = -half - Math.sqrt(half * half - 1);
  const gain = (kept * Math.sqrt(1 + pole * pole - 2 * pole * low)) / (1 - pole);
  return { gain: Math.min(MOST_GAIN, gain), pole, kept };
}

/** A string that has been set going: it gives one sample after the other. */
export class StringLoop {
  private readonly delay = new Float64Array(DELAY_SIZE);
  private readonly taps = new Float64Array(4);
  private whole = 0;
  private at = 0;
  private memory = 0;
  private pole = 0;
  private input = 0;

  constructor(
    private readonly touch: Touch,
    /** partial that sounds: 1, or a harmonic's */
    private readonly partial: number,
  ) {}

  /**
   * Tunes the loop so that its wanted partial sounds at `hz`.
   *
   * @returns the gain of the tone in one period
   */
  tune(hz: number): number {
    const looped = hz / this.partial;
    const { gain, pole, kept } = lossOf(this.touch, looped, hz);
    const radians = (2 * Math.PI * hz) / SAMPLE_RATE;
    const filterDelay = Math.atan2(pole * Math.sin(radians), 1 - pole * Math.cos(radians)) / radians;
    const wanted = SAMPLE_RATE / looped - filterDelay;
    this.whole = Math.floor(wanted) - 1;
    this.pole = pole;
    this.input = gain * (1 - pole);
    cubicWeights(this.taps, wanted - this.whole);
    return kept;
  }

  /** The next sample, with what strikes the string now. */
  next(struck: number): number {
    const { delay, taps } = this;
    const from = this.at - this.whole + DELAY_SIZE;
    const mask = DELAY_SIZE - 1;
    const back =
      (taps[0] as number) * (delay[from & mask] as number) +
      (taps[1] as number) * (delay[(from - 1) & mask] as number) +
      (taps[2] as number) * (delay[(from - 2) & mask] as number) +
      (taps[3] as number) * (delay[(from - 3) & mask] as number);
    this.memory = this.input * back + this.pole * this.memory;
    const sample = this.memory + struck;
    delay[this.at] = sample;
    this.at = (this.at + 1) & mask;
    return sample;
  }
}
