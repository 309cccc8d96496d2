// SPDX-License-Identifier: AGPL-3.0-or-later
// What sounds now or soon: one voice a tone, let go when its string is stopped or struck again.
import { pressed } from "../../src/sound/mix.js";
import { RELEASE_SECONDS } from "../../src/sound/tone.js";

interface Voice {
  readonly index: number;
  readonly string: number;
  readonly source: AudioBufferSourceNode;
  readonly gain: GainNode;
  readonly begins: number;
}

/** What is stopped by a button fades in this time. */
const HUSH_SECONDS = 0.03;
const CURVE_POINTS = 2049;
/** The shaper takes samples from -1 to 1: so much louder ones can be pressed down. */
const HEADROOM = 4;

/** The strings in the browser. Times are those of the audio context. */
export class Voices {
  private voices: Voice[] = [];
  private readonly out: GainNode;

  constructor(private readonly context: AudioContext) {
    this.out = new GainNode(context, { gain: 1 / HEADROOM });
    const curve = Float32Array.from({ length: CURVE_POINTS }, (_, i) =>
      pressed(HEADROOM * ((2 * i) / (CURVE_POINTS - 1) - 1)),
    );
    this.out.connect(new WaveShaperNode(context, { curve })).connect(context.destination);
  }

  /**
   * Lets a tone sound; the tone before on its string ends there.
   *
   * @param offset seconds of it that are left out
   */
  start(
    { index, string }: Pick<Voice, "index" | "string">,
    buffer: AudioBuffer,
    begins: number,
    released: number,
    offset = 0,
  ): void {
    for (const voice of this.voices) if (voice.string === string && voice.begins < begins) this.release(voice, begins);
    const source = new AudioBufferSourceNode(this.context, { buffer });
    const gain = new GainNode(this.context);
    source.connect(gain).connect(this.out);
    if (offset > 0) gain.gain.setValueAtTime(0, begins).linearRampToValueAtTime(1, begins + HUSH_SECONDS);
    const voice = { index, string, source, gain, begins };
    source.onended = () => {
      this.voices = this.voices.filter((one) => one !== voice);
    };
    source.start(begins, offset);
    this.voices.push(voice);
    this.release(voice, released);
  }

  /** Lets every tone go at another time, and takes back those that have not begun. @param releasedOf by index */
  retime(releasedOf: (index: number) => number): void {
    const now = this.context.currentTime;
    for (const voice of this.voices)
      if (voice.begins > now) this.silence(voice, now);
      else this.release(voice, Math.max(now, releasedOf(voice.index)));
  }

  /** Ends everything now. */
  hush(): void {
    for (const voice of this.voices) this.silence(voice, this.context.currentTime);
    this.voices = [];
  }

  private silence({ gain, source }: Voice, now: number): void {
    gain.gain.cancelScheduledValues(now);
    gain.gain.setTargetAtTime(0, now, HUSH_SECONDS / 3);
    source.stop(now + HUSH_SECONDS);
  }

  private release({ gain, begins }: Voice, at: number): void {
    if (!Number.isFinite(at)) return;
    const from = Math.max(at, begins);
    gain.gain.cancelScheduledValues(from);
    gain.gain.setValueAtTime(1, from).linearRampToValueAtTime(0, from + RELEASE_SECONDS);
  }
}
