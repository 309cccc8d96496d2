// SPDX-License-Identifier: AGPL-3.0-or-later
// Tones as the browser plays them, rendered when they are first wanted and kept.
import type { SoundLine } from "../../src/sound/line.js";
import { SAMPLE_RATE } from "../../src/sound/loop.js";
import type { Timed } from "../../src/sound/timing.js";
import { renderTone, toneKey } from "../../src/sound/tone.js";

/** Seconds of tones that are kept: about 50 MB. */
const KEPT_SECONDS = 300;
/** Rendered a little longer than needed, so that a slower tempo finds it ready. */
const SPARE_SECONDS = 0.5;

/** Renders tones and keeps them. */
export class ToneShelf {
  private readonly kept = new Map<string, AudioBuffer>();
  private seconds = 0;

  constructor(private readonly line: SoundLine) {}

  /** Whether a tone is there already. */
  has({ tone, begins, ends }: Timed, speed: number): boolean {
    return (this.kept.get(toneKey(tone, speed))?.duration ?? 0) >= ends - begins;
  }

  /** A tone, rendered where it is not there yet: some milliseconds of work. */
  take(timed: Timed, speed: number): AudioBuffer {
    const { tone, begins, ends } = timed;
    const key = toneKey(tone, speed);
    const before = this.kept.get(key);
    if (before !== undefined && this.has(timed, speed)) return before;
    const samples = renderTone(
      tone,
      this.line.strings[tone.string - 1] ?? tone.hz,
      ends - begins + SPARE_SECONDS,
      speed,
    );
    const buffer = new AudioBuffer({ length: samples.length, sampleRate: SAMPLE_RATE });
    buffer.getChannelData(0).set(samples);
    this.kept.delete(key);
    this.kept.set(key, buffer);
    this.seconds += buffer.duration - (before?.duration ?? 0);
    for (const [oldest, { duration }] of this.kept) {
      if (this.seconds <= KEPT_SECONDS) break;
      this.kept.delete(oldest);
      this.seconds -= duration;
    }
    return buffer;
  }
}
