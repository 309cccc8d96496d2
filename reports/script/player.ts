// SPDX-License-Identifier: AGPL-3.0-or-later
// Plays a sound line: a clock that maps the audio context's time to the score's, and tones put in line shortly before
// they sound. Positions are seconds of the score at its written tempo.
import type { SoundLine } from "../../src/sound/line.js";
import { SAMPLE_RATE } from "../../src/sound/loop.js";
import { type Timed, timedTones } from "../../src/sound/timing.js";
import { ToneShelf } from "./tones.js";
import { Voices } from "./voices.js";

/** Tones are put in line so long before they sound: a page in the background may wake only once a second. */
const AHEAD_SECONDS = 1.5;
const WAKE_MS = 150;
/** So long after it was stopped the browser's sound is put to rest. */
const IDLE_MS = 2000;
/** From the press of a button, when all is ready, to the first tone. */
const START_SECONDS = 0.08;
/** The last tones ring so long after the last bar. */
const TAIL_SECONDS = 4;

/** From this time of the context on, this position is played. */
interface Anchor {
  readonly time: number;
  readonly position: number;
}

/** Bars that are played over and over: positions of their beginning and end. */
export interface Loop {
  readonly from: number;
  readonly to: number;
}

/** Plays one line. */
export class Player {
  private context: AudioContext | null = null;
  private voices: Voices | null = null;
  private readonly shelf: ToneShelf;
  private timed: readonly Timed[];
  private anchors: Anchor[] = [];
  /** the next tone to be put in line */
  private next = 0;
  /** counts starts: what began before another start gives up */
  private run = 0;
  private resting = 0;
  private speed = 1;
  private loop: Loop | null = null;
  private state: "stopped" | "playing" | "paused" = "stopped";

  constructor(private readonly line: SoundLine) {
    this.shelf = new ToneShelf(line);
    this.timed = timedTones(line, 1);
  }

  /** Whether it sounds. */
  get isPlaying(): boolean {
    return this.state === "playing";
  }

  /** What is heard now, in seconds of the score. */
  get position(): number {
    const { context } = this;
    if (context === null || this.state === "stopped" || this.anchors.length === 0) return this.resting;
    return this.positionAt(context.currentTime - (context.outputLatency || context.baseLatency || 0));
  }

  /** The last tone has rung. */
  get isOver(): boolean {
    return this.isPlaying && this.anchors.length > 0 && this.position > this.line.seconds + TAIL_SECONDS * this.speed;
  }

  /** Goes on from where it rests. @throws Error where the browser plays no sound */
  async play(): Promise<void> {
    if (this.context === null) {
      this.context = new AudioContext({ sampleRate: SAMPLE_RATE, latencyHint: "playback" });
      this.voices = new Voices(this.context);
    }
    const paused = this.state === "paused";
    this.state = "playing";
    await this.context.resume();
    if (!paused) await this.startAt(this.resting);
    else void this.fill(++this.run);
  }

  /** Holds everything as it is. */
  async pause(): Promise<void> {
    if (this.state !== "playing") return;
    this.resting = this.position;
    this.state = "paused";
    await this.context?.suspend();
  }

  /** Ends it. @param position where it rests then */
  stop(position = 0): void {
    this.run++;
    this.voices?.hush();
    this.anchors = [];
    this.state = "stopped";
    this.resting = position;
    // A context that runs without a sound wears a battery.
    setTimeout(() => {
      if (this.state === "stopped") void this.context?.suspend();
    }, IDLE_MS);
  }

  /** Goes to another place, and plays on from there if it played. */
  async seek(position: number): Promise<void> {
    const playing = this.isPlaying;
    this.stop(position);
    if (playing) await this.play();
  }

  /** Another tempo; what sounds goes on, and no pitch changes. @param speed times the written tempo */
  setSpeed(speed: number): void {
    const { context, voices } = this;
    const position =
      context === null || this.anchors.length === 0 ? this.resting : this.positionAt(context.currentTime);
    this.speed = speed;
    this.timed = timedTones(this.line, speed);
    if (context === null || voices === null || this.anchors.length === 0) return;
    this.anchors = [{ time: context.currentTime, position }];
    this.next = this.firstFrom(position);
    voices.retime((index) => this.timeOf(this.timed[index]?.released ?? Number.POSITIVE_INFINITY));
    if (this.isPlaying) void this.fill(++this.run);
  }

  /** Plays some bars over and over; null for none. */
  setLoop(loop: Loop | null): void {
    this.loop = loop;
  }

  private async startAt(position: number): Promise<void> {
    const run = ++this.run;
    const { context, voices } = this;
    if (context === null || voices === null) return;
    const soon = position / this.speed + START_SECONDS * 8;
    for (const timed of this.timed)
      if (timed.ends > position / this.speed && timed.begins < soon) await this.ready(timed);
    if (run !== this.run) return;
    const time = context.currentTime + START_SECONDS;
    this.anchors = [{ time, position }];
    this.next = this.firstFrom(position);
    const here = position / this.speed;
    for (const [index, timed] of this.timed.entries())
      if (timed.begins < here - 1e-6 && Math.min(timed.ends, timed.released) > here)
        this.sound(timed, index, time, here - timed.begins);
    await this.fill(run);
  }

  /** Puts tones in line until the line, or this run, is over. */
  private async fill(run: number): Promise<void> {
    while (run === this.run && this.isPlaying) {
      const { context } = this;
      if (context === null) return;
      for (;;) {
        this.wrap();
        const timed = this.timed[this.next];
        if (timed === undefined || this.isPastLoop(timed)) break;
        if (this.timeOf(timed.begins) > context.currentTime + AHEAD_SECONDS) break;
        await this.ready(timed);
        if (run !== this.run) return;
        const time = this.timeOf(timed.begins);
        const late = Math.max(0, context.currentTime - time);
        this.sound(timed, this.next, time + late, late);
        this.next++;
      }
      await waited(WAKE_MS);
    }
  }

  /** Makes sure that a tone is rendered; where that took work the page may breathe. */
  private async ready(timed: Timed): Promise<void> {
    if (this.shelf.has(timed, this.speed)) return;
    this.shelf.take(timed, this.speed);
    await waited(0);
  }

  private sound(timed: Timed, index: number, time: number, offset: number): void {
    const buffer = this.shelf.take(timed, this.speed);
    const released = time - offset + timed.released - timed.begins;
    this.voices?.start({ index, string: timed.tone.string }, buffer, time, released, offset);
  }

  /** Where the loop's end comes within reach, the clock is set back in advance. */
  private wrap(): void {
    const { loop, context } = this;
    const anchor = this.anchors.at(-1);
    if (loop === null || context === null || anchor === undefined || anchor.position >= loop.to) return;
    const next = this.timed[this.next];
    if (next !== undefined && !this.isPastLoop(next)) return;
    const time = anchor.time + (loop.to - anchor.position) / this.speed;
    if (time > context.currentTime + AHEAD_SECONDS) return;
    this.anchors.push({ time, position: loop.from });
    this.next = this.firstFrom(loop.from);
  }

  private isPastLoop({ tone }: Timed): boolean {
    const anchor = this.anchors.at(-1);
    return (
      this.loop !== null && anchor !== undefined && anchor.position < this.loop.to && tone.at >= this.loop.to - 1e-6
    );
  }

  private firstFrom(position: number): number {
    const here = position / this.speed - 1e-6;
    const found = this.timed.findIndex(({ begins }) => begins >= here);
    return found < 0 ? this.timed.length : found;
  }

  private positionAt(time: number): number {
    const anchor = this.anchors.findLast((one) => one.time <= time) ?? this.anchors[0];
    if (anchor === undefined) return this.resting;
    return anchor.position + Math.max(0, time - anchor.time) * this.speed;
  }

  /** The context's time of a moment in seconds of the line at this speed. */
  private timeOf(seconds: number): number {
    const anchor = this.anchors.at(-1);
    return anchor === undefined ? 0 : anchor.time + seconds - anchor.position / this.speed;
  }
}

const waited = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
