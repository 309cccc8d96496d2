// SPDX-License-Identifier: AGPL-3.0-or-later
// The listen bar: buttons, position, speed, bars to repeat.
import type { LineNote, SoundLine } from "../../src/sound/line.js";
import { unpackLine } from "../../src/sound/pack.js";
import type { ListenData, SpokenWords } from "../listen-view.js";
import { dataOf, elementOf, filled } from "./data.js";
import { ScoreFollower } from "./follow.js";
import { Player } from "./player.js";

/** Sets the bar going, where the page has one and the browser can play. */
export function listen(): void {
  const data = dataOf<ListenData>("listen-data");
  if (data === null || data.line.tones.length === 0 || typeof AudioContext === "undefined") return;
  new ListenBar(unpackLine(data.line), data.words);
}

/** Notes that begin together. */
interface Onset {
  readonly at: number;
  readonly notes: readonly number[];
  readonly first: LineNote;
}

function onsetsOf(notes: readonly LineNote[]): readonly Onset[] {
  const onsets: { at: number; notes: number[]; first: LineNote }[] = [];
  for (const [i, note] of notes.entries()) {
    const last = onsets.at(-1);
    if (last !== undefined && last.at === note.at) last.notes.push(i);
    else onsets.push({ at: note.at, notes: [i], first: note });
  }
  return onsets;
}

/** Notes that follow each other leave no frame unmarked, though their times are rounded. */
const GAP_SECONDS = 0.01;

class ListenBar {
  private readonly bar = elementOf("listen", HTMLElement);
  private readonly playButton = elementOf("listen-play", HTMLButtonElement);
  private readonly positionSlider = elementOf("listen-position", HTMLInputElement);
  private readonly placeShown = elementOf("listen-place", HTMLElement);
  private readonly speedSlider = elementOf("listen-speed", HTMLInputElement);
  private readonly tempoShown = elementOf("listen-tempo", HTMLElement);
  private readonly loopBox = elementOf("listen-loop", HTMLInputElement);
  private readonly fromSelect = elementOf("listen-from", HTMLSelectElement);
  private readonly toSelect = elementOf("listen-to", HTMLSelectElement);
  private readonly said = elementOf("listen-said", HTMLElement);
  private readonly player: Player;
  private readonly follower: ScoreFollower;
  private readonly onsets: readonly Onset[];
  private shown = 0;
  private frame = 0;

  constructor(
    private readonly line: SoundLine,
    private readonly words: SpokenWords,
  ) {
    this.player = new Player(line);
    this.follower = new ScoreFollower(line.notes);
    this.onsets = onsetsOf(line.notes);
    this.positionSlider.max = String(this.onsets.length - 1);
    for (const select of [this.fromSelect, this.toSelect])
      select.append(...line.bars.map(({ label }, i) => new Option(label, String(i))));
    this.toSelect.value = String(line.bars.length - 1);
    this.connect();
    this.showPosition(0);
    this.showSpeed();
    this.bar.hidden = false;
  }

  private connect(): void {
    this.playButton.onclick = () => this.toggle();
    elementOf("listen-stop", HTMLButtonElement).onclick = () => this.stop();
    elementOf("listen-bar", HTMLButtonElement).onclick = () => {
      const bar = this.onsets[this.shown]?.first.bar ?? 0;
      this.player.stop(this.line.bars[bar]?.at ?? 0);
      this.toggle();
    };
    this.positionSlider.oninput = () => {
      const index = Number(this.positionSlider.value);
      this.showPosition(index);
      this.run(this.player.seek(this.onsets[index]?.at ?? 0));
    };
    this.speedSlider.oninput = () => {
      this.showSpeed();
      this.player.setSpeed(Number(this.speedSlider.value) / 100);
    };
    for (const control of [this.loopBox, this.fromSelect, this.toSelect])
      control.onchange = () => this.setLoop(control);
  }

  private toggle(): void {
    if (this.player.isPlaying) {
      this.run(this.player.pause());
      this.show("paused");
    } else {
      this.run(this.player.play());
      this.show("playing");
      this.followOn();
    }
  }

  private stop(): void {
    this.player.stop();
    this.showPosition(0);
    this.show("stopped");
  }

  private setLoop(changed: HTMLElement): void {
    const [from, to] = [Number(this.fromSelect.value), Number(this.toSelect.value)];
    if (from > to)
      (changed === this.toSelect ? this.fromSelect : this.toSelect).value = String(
        changed === this.toSelect ? to : from,
      );
    const first = this.line.bars[Number(this.fromSelect.value)]?.at ?? 0;
    const last = this.line.bars[Number(this.toSelect.value) + 1]?.at ?? this.line.seconds;
    const loop = this.loopBox.checked ? { from: first, to: last } : null;
    this.player.setLoop(loop);
    const { position } = this.player;
    if (loop !== null && (position < first || position >= last)) {
      this.showPosition(this.onsetAt(first));
      this.run(this.player.seek(first));
    }
  }

  private followOn(): void {
    cancelAnimationFrame(this.frame);
    this.frame = requestAnimationFrame(() => this.tick());
  }

  /** Follows the sound, once a frame. */
  private tick(): void {
    if (!this.player.isPlaying) return;
    if (this.player.isOver) {
      this.stop();
      return;
    }
    const { position } = this.player;
    const index = this.onsetAt(position);
    if (index !== this.shown) this.showPosition(index);
    const onset = this.onsets[index];
    const sounding =
      onset === undefined || position < onset.at ? [] : onset.notes.filter((i) => this.lasts(i, position));
    this.follower.mark(sounding, true);
    this.followOn();
  }

  private lasts(note: number, position: number): boolean {
    const { at = 0, lasts = 0 } = this.line.notes[note] ?? {};
    return position < at + lasts + GAP_SECONDS;
  }

  /** Index of the last onset that is not later. */
  private onsetAt(position: number): number {
    return Math.max(
      0,
      this.onsets.findLastIndex(({ at }) => at <= position + 1e-4),
    );
  }

  private placeWords(sentence: string): string {
    const { bar = 0, beat = "1" } = this.onsets[this.shown]?.first ?? {};
    return filled(sentence, { bar: this.line.bars[bar]?.label ?? "", beat });
  }

  private showPosition(index: number): void {
    this.shown = index;
    this.positionSlider.value = String(index);
    const place = this.placeWords(this.words.place);
    this.positionSlider.setAttribute("aria-valuetext", place);
    this.placeShown.textContent = place;
  }

  private showSpeed(): void {
    const percent = Number(this.speedSlider.value);
    const tempo = this.line.quartersPerMinute;
    const text = filled(tempo === null ? this.words.speed : this.words.speedAndTempo, {
      percent: String(percent),
      tempo: String(Math.round(((tempo ?? 0) * percent) / 100)),
    });
    this.speedSlider.setAttribute("aria-valuetext", text);
    this.tempoShown.textContent = text;
  }

  private show(state: "playing" | "paused" | "stopped"): void {
    const playing = state === "playing";
    this.playButton.textContent = playing ? this.words.pause : this.words.play;
    this.bar.classList.toggle("is-playing", playing);
    this.said.textContent = this.placeWords(this.words[state]);
    if (state === "stopped") this.follower.mark([], false);
  }

  private fail(): void {
    this.player.stop();
    this.show("stopped");
    this.said.textContent = this.words.silent;
  }

  /** Sound is started and stopped by promises that only tell when it is done. */
  private run(work: Promise<void>): void {
    work.catch(() => this.fail());
  }
}
