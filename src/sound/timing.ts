// SPDX-License-Identifier: AGPL-3.0-or-later
// When tones begin and end at any tempo.
import type { SoundLine, Tone } from "./line.js";
import { toneSeconds } from "./tone.js";

/** A tone at a tempo: seconds from the start of the line. */
export interface Timed {
  readonly tone: Tone;
  readonly begins: number;
  /** where it is let go: its string is stopped or struck again; Infinity where it rings to its end */
  readonly released: number;
  /** its samples end here, by themselves or after they were let go */
  readonly ends: number;
}

/**
 * The tones of a line at a speed, in order of time. What belongs to the score is stretched with it; the rolls of the
 * hand are pressed together where it is quicker, and left where it is slower.
 *
 * @param speed times the written tempo
 */
export function timedTones(line: SoundLine, speed: number): readonly Timed[] {
  const begins = line.tones.map(({ at, after }) => at / speed + after / Math.max(1, speed));
  const next = new Map<number, number>();
  const timed: Timed[] = [];
  for (let i = line.tones.length - 1; i >= 0; i--) {
    const tone = line.tones[i] as Tone;
    const from = begins[i] as number;
    const struck = next.get(tone.string) ?? Number.POSITIVE_INFINITY;
    const stopped = tone.until === null ? Number.POSITIVE_INFINITY : from + tone.until / speed;
    const released = Math.min(struck, stopped);
    next.set(tone.string, from);
    timed.push({ tone, begins: from, released, ends: from + toneSeconds(tone, released - from, speed) });
  }
  return timed.reverse();
}
