// SPDX-License-Identifier: AGPL-3.0-or-later
// The judged line as it is to sound: which string is set going when, at which pitch, and what ends it.
import { strokeOn } from "../check/check.js";
import { centsAt, harmonicCents } from "../model/board.js";
import type { GivenFingering, Sound, Stroke } from "../model/fingering.js";
import { type Moment, secondsAt } from "../model/moments.js";
import type { Left, Placed, Right } from "../model/playing.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { centsOf, hertz } from "../model/temperament.js";
import { ZERO } from "../model/time.js";
import type { Played } from "../search/charges.js";
import type { AttackKind, Bent, Slide, SoundLine, Tone, Touch } from "../sound/line.js";
import { figureAttacks } from "./attacks.js";
import { heldTimes, type TimeMap } from "./fermatas.js";

/** Strings that one finger holds at once lie this near to each other along the string, in cm (our judgement). */
const ONE_HOLD_CM = 1;
/** Tip and joint reach over so many strings. */
const ONE_HOLD_STRINGS = 2;
/** A staccato note is damped after this share of its time (our judgement). */
const STACCATO_SHARE = 0.5;

/** A tone while it rings. */
interface Ringing {
  readonly tone: { -readonly [K in keyof Tone]: Tone[K] } & { slides: Slide[]; bends: Bent[] };
  /** where a finger stops it; null for open strings and harmonics */
  hold: Placed | null;
}

/** One attack of a moment on one string. */
interface Struck {
  readonly string: number;
  readonly attack: AttackKind;
  readonly after: number;
  readonly placed: Placed;
  readonly given: GivenFingering | null;
}

/** The line as it is to sound, at the tempos of the score. */
export function soundingLine(score: Score, { moments, lefts, rights }: Played, setting: Setting): SoundLine {
  const times = heldTimes(moments, secondsAt(score, score.bars[0]?.onset ?? ZERO));
  const player = new Player(setting);
  for (const [at, moment] of moments.entries())
    player.play(
      moment,
      lefts[at] as Left,
      rights[at] as Right,
      times.at(moment.onsetSeconds),
      lastingOf(moment, times),
    );
  const last = score.bars.at(-1);
  return {
    strings: player.strings,
    tones: player.tones.sort((a, b) => a.at + a.after - b.at - b.after),
    notes: moments.flatMap((moment) =>
      moment.notes.map(({ source }) => ({
        id: source.id,
        bar: source.bar,
        beat: source.beat,
        at: round(times.at(moment.onsetSeconds)),
        lasts: round(lastingOf(moment, times)),
      })),
    ),
    bars: score.bars.map(({ label, onset }) => ({ label, at: round(times.at(secondsAt(score, onset))) })),
    quartersPerMinute: score.tempos[0]?.quartersPerMinute ?? null,
    seconds: last === undefined ? 0 : round(times.at(secondsAt(score, last.onset.add(last.length)))),
  };
}

const lastingOf = ({ onsetSeconds, durationSeconds }: Moment, times: TimeMap): number =>
  times.at(onsetSeconds + durationSeconds) - times.at(onsetSeconds);

/** Ten-thousandths: far below hearing, and short to write. */
const round = (value: number): number => Math.round(value * 1e4) / 1e4;

/** Both hands at work; it remembers which strings ring. */
class Player {
  readonly tones: Ringing["tone"][] = [];
  /** open strings in Hz */
  readonly strings: readonly number[];
  private readonly openCents: readonly number[];
  private readonly ringing = new Map<number, Ringing>();

  constructor(private readonly setting: Setting) {
    const { tuning, gong, temperament } = setting;
    this.openCents = tuning.semitones.map((semitone) => centsOf(semitone, gong, temperament));
    this.strings = this.openCents.map((cents) => round(hertz(cents / 100)));
  }

  play(moment: Moment, left: Left, right: Right, at: number, lasts: number): void {
    for (const placed of left.placed) this.liftFingers(placed, at);
    if (left.arrival === "slid" && left.first !== null && this.slide(left.first, moment, at, lasts)) return;
    const struck = struckIn(moment, left, right, lasts);
    for (const one of struck) this.strike(one, at, lasts, moment);
    const sounding = new Set(struck.map(({ string }) => string));
    if (right.planted > 0) this.damp(right.planted, at, sounding);
    for (const { attack, string, after } of struck) this.damp(restsOn(attack, string), at + after, sounding);
  }

  /** The finger moves on along a string that still rings. @returns whether one did */
  private slide(placed: Placed, moment: Moment, at: number, lasts: number): boolean {
    const before = this.ringing.get(placed.string);
    if (before === undefined || before.hold === null) return false;
    const since = round(at - before.tone.at - before.tone.after);
    before.tone.slides.push({ at: since, hz: this.pitchOf(placed) });
    before.tone.bends.push(...bendsOf(placed, moment.notes[placed.note]?.given ?? null, moment, since, lasts));
    before.hold = placed;
    return true;
  }

  private strike({ string, attack, after, placed, given }: Struck, at: number, lasts: number, moment: Moment): void {
    const short = moment.notes.some(({ source }) => source.marks.staccato);
    const tone: Ringing["tone"] = {
      at: round(at),
      after,
      until: short ? round(STACCATO_SHARE * lasts) : null,
      string,
      touch: touchOf(placed),
      attack,
      hz: this.pitchOf({ ...placed, string }),
      slides: [],
      bends: bendsOf(placed, given, moment, 0, lasts),
    };
    this.tones.push(tone);
    this.ringing.set(string, { tone, hold: placed.sound === "stopped" ? placed : null });
  }

  private pitchOf({ string, sound, exact, position }: Placed): number {
    const open = this.openCents[string - 1] as number;
    return round(hertz((open + aboveOpen(sound, exact, position)) / 100));
  }

  /** A finger that stops another place leaves the one it held; one that is out of the hand's reach is left too. */
  private liftFingers(placed: Placed, at: number): void {
    if (placed.sound !== "stopped") return;
    for (const [string, { tone, hold }] of this.ringing) {
      if (hold === null || string === placed.string) continue;
      const apartCm = Math.abs(hold.cm - placed.cm);
      const near = apartCm <= ONE_HOLD_CM && Math.abs(string - placed.string) <= ONE_HOLD_STRINGS;
      // One tip stops one string; a joint beside it, or joints alone, hold others.
      const together = near && (hold.contact !== "tip" || placed.contact !== "tip");
      const lifted = hold.finger === placed.finger ? !together : apartCm > this.setting.hand.spanLimitCm;
      if (lifted) this.end(string, tone, at);
    }
  }

  /** A finger comes to rest on a string that is not sounded now. */
  private damp(string: number, at: number, sounding: ReadonlySet<number>): void {
    const here = this.ringing.get(string);
    if (here !== undefined && !sounding.has(string)) this.end(string, here.tone, at);
  }

  private end(string: number, tone: Ringing["tone"], at: number): void {
    const until = round(Math.max(0, at - tone.at - tone.after));
    tone.until = tone.until === null ? until : Math.min(tone.until, until);
    this.ringing.delete(string);
  }
}

function aboveOpen(sound: Sound, exact: number, position: number | null): number {
  switch (sound) {
    case "open":
      return 0;
    case "stopped":
      return centsAt(exact);
    case "harmonic":
      return harmonicCents(position ?? exact);
  }
}

/** The string on which a stroke comes to rest: gou, mo and da on the next inner one, tuo on the next outer one (common practice, no source); 0 for none. */
function restsOn(attack: AttackKind, string: number): number {
  if (attack === "gou" || attack === "mo" || attack === "da") return string + 1;
  return attack === "tuo" ? string - 1 : 0;
}

/** The thumb stops with nail and flesh, all other fingers and the joints with flesh. */
function touchOf({ sound, finger, contact }: Placed): Touch {
  if (sound !== "stopped") return sound;
  return finger === "thumb" && contact === "tip" ? "nail" : "flesh";
}

/** Every string that is set going in a moment. */
function struckIn(moment: Moment, left: Left, right: Right, lasts: number): readonly Struck[] {
  const givenOf = (placed: Placed): GivenFingering | null => moment.notes[placed.note]?.given ?? null;
  const { first } = left;
  if (first === null) return [];
  if (left.arrival !== "plucked") {
    const attack = left.arrival === "pulled-off" ? "pull" : "tap";
    return [{ string: first.string, attack, after: 0, placed: first, given: givenOf(first) }];
  }
  const { figure } = right;
  if (figure === null)
    return left.placed.map((placed) => ({
      string: placed.string,
      attack: strokeOn(right, placed) as Stroke,
      after: 0,
      placed,
      given: givenOf(placed),
    }));
  return figureAttacks(figure.name, first.string, figure.across, lasts).map(({ stroke, string, after }) => ({
    string,
    attack: stroke,
    after,
    placed: string === first.string ? first : besides(first, string, figure.name === "suo-ling"),
    given: string === first.string ? givenOf(first) : null,
  }));
}

/** Another string of a figure: open, or touched at the same hui. */
function besides(first: Placed, string: number, touched: boolean): Placed {
  if (touched || first.sound === "harmonic") return { ...first, string };
  return { ...first, string, sound: "open", position: null, finger: null, contact: null };
}

/** The ornaments of a note, on a stopped string alone. */
function bendsOf(placed: Placed, given: GivenFingering | null, moment: Moment, at: number, lasts: number): Bent[] {
  if (placed.sound !== "stopped") return [];
  const wavy = moment.notes[placed.note]?.source.marks.vibrato ?? false;
  const swing = given?.ornament ?? (wavy ? "yin" : null);
  const bends = [given?.entry ?? null, swing].filter((bend) => bend !== null);
  return bends.map((bend) => ({ at, until: round(at + lasts), bend }));
}
