// SPDX-License-Identifier: AGPL-3.0-or-later
// The melody in seconds: what sounds when, what follows after how long, and what slurs ask for.

import { type Brief, NO_BRIEF } from "./brief.js";
import type { GivenFingering, ThumbStrokeName } from "./fingering.js";
import { withHeld } from "./held.js";
import { microtoneCents, type Pitch, semitoneOf, transposePitch } from "./pitch.js";
import { scaleGong } from "./scale-gong.js";
import type { Meter, Score, ScoreNote } from "./score.js";
import type { Setting } from "./setting.js";
import { centsOf } from "./temperament.js";
import { earlier, type Quarters, quarters, ZERO } from "./time.js";

/** Quarter notes a minute where the score gives no tempo: a calm pace (our judgement). */
export const ASSUMED_TEMPO = 72;

/** Slides go no farther than a fifth (common practice, no source). */
export const WIDEST_SLIDE_SEMITONES = 7;

/** What a slur or a slide mark asks of a note's beginning. */
export type Ask = "slide" | "pull-off" | "slur" | null;

/** One note of a moment, as it is to sound in this setting. */
export interface MomentNote {
  readonly source: ScoreNote;
  /** what the score and the brief give; a pin of the brief counts over the score */
  readonly given: GivenFingering;
  /** with the setting's transposition */
  readonly sounding: Pitch;
  /** MIDI note number */
  readonly semitone: number;
  /** in the temperament, from MIDI note 0 */
  readonly cents: number;
  /** the score or its writer asks for a harmonic here */
  readonly harmonicAsked: boolean;
  /** this pitch lies on an open string */
  readonly liesOpen: boolean;
}

/** All that begins at one time: a note, or the notes of a chord, lowest first. */
export interface Moment {
  readonly index: number;
  readonly notes: readonly MomentNote[];
  readonly onsetSeconds: number;
  readonly durationSeconds: number;
  /** from this onset to the next one; the duration for the last */
  readonly toNextSeconds: number;
  /** since the onset before; Infinity for the first */
  readonly gapSeconds: number;
  /** a silence of a beat or more comes before */
  readonly rested: boolean;
  /** some silence comes before */
  readonly silent: boolean;
  /** must go on sounding under the next moment */
  readonly ringsOn: boolean;
  /** what leads from the moment before into this one: a slide mark or a slur of two or three notes that can be slid, or another short slur */
  readonly asks: Ask;
  /** the moment before is a grace note */
  readonly afterGrace: boolean;
  /** something asks that this moment leads into the next one without a pluck */
  readonly leadsOn: boolean;
  /** what readings call the thumb's stroke */
  readonly thumbStroke: ThumbStrokeName;
}

/** Seconds from the start of the piece to a moment, by the tempos in force. */
export function secondsAt(score: Score, moment: Quarters): number {
  let seconds = 0;
  let from: Quarters = ZERO;
  let tempo = score.tempos[0]?.quartersPerMinute ?? ASSUMED_TEMPO;
  for (const next of score.tempos) {
    if (next.onset.compare(moment) >= 0) break;
    seconds += (next.onset.sub(from).valueOf() * 60) / tempo;
    from = next.onset;
    tempo = next.quartersPerMinute;
  }
  return seconds + (moment.sub(from).valueOf() * 60) / tempo;
}

/**
 * Seconds from one onset to another, to the nanosecond: equal note values give equal numbers wherever they stand in the
 * piece, so that no limit is passed by a rounding far below hearing, and what moves cost is remembered by time.
 */
export function secondsBetween(onset: number, later: number): number {
  return Math.round((later - onset) * 1e9) / 1e9;
}

/** The onset and length that each note really has: grace notes take their time from the note they precede. */
interface Timed {
  readonly notes: readonly ScoreNote[];
  onset: Quarters;
  duration: Quarters;
}

/** A grace note takes an eighth of a beat, all of them together at most half of the note they precede. */
const GRACE_QUARTERS = quarters(1, 8);

function timed(score: Score): Timed[] {
  const groups: Timed[] = [];
  for (const note of score.notes) {
    const last = groups.at(-1);
    const same = last?.notes[0];
    if (last !== undefined && same !== undefined && same.chord !== null && same.chord === note.chord)
      groups[groups.length - 1] = {
        ...last,
        notes: [...last.notes, note],
        duration: longer(last.duration, note.duration),
      };
    else groups.push({ notes: [note], onset: note.onset, duration: note.duration });
  }
  let waiting: Timed[] = [];
  for (const group of groups) {
    if (group.notes[0]?.grace) {
      waiting.push(group);
      continue;
    }
    giveTime(waiting, group);
    waiting = [];
  }
  const before = groups.filter((group) => !group.notes[0]?.grace).at(-1);
  if (waiting.length > 0 && before !== undefined) takeFromEnd(waiting, before);
  return groups;
}

const longer = (a: Quarters, b: Quarters): Quarters => (earlier(a, b) === a ? b : a);

function giveTime(graces: readonly Timed[], main: Timed): void {
  if (graces.length === 0) return;
  const each = earlier(GRACE_QUARTERS, main.duration.div(2 * graces.length));
  const start = main.onset;
  for (const [i, grace] of graces.entries()) {
    grace.onset = start.add(each.mul(i));
    grace.duration = each;
  }
  const taken = each.mul(graces.length);
  main.onset = start.add(taken);
  main.duration = main.duration.sub(taken);
}

/** Grace notes after the last note of the line take the end of that note. */
function takeFromEnd(graces: readonly Timed[], main: Timed): void {
  const each = earlier(GRACE_QUARTERS, main.duration.div(2 * graces.length));
  const end = main.onset.add(main.duration);
  main.duration = main.duration.sub(each.mul(graces.length));
  for (const [i, grace] of graces.entries()) {
    grace.onset = end.sub(each.mul(graces.length - i));
    grace.duration = each;
  }
}

/** The setting with its twelve-note scale laid where this melody's notes are. */
export function inScale(setting: Setting, score: Score): Setting {
  const sounding = score.notes.map((note) => transposePitch(note.sounding, setting.transpose.interval));
  return { ...setting, gong: scaleGong(setting.tuning, setting.temperament, sounding) };
}

/**
 * The moments of a melody in a setting, in order of time.
 *
 * @param score   the melody
 * @param setting its tuning, transposition and temperament
 * @param brief   pins and passages in harmonics
 */
export function momentsOf(score: Score, setting: Setting, brief: Brief = NO_BRIEF): readonly Moment[] {
  const groups = timed(score);
  const asks = askedArrivals(groups, score, setting);
  const onsets = groups.map((group) => secondsAt(score, group.onset));
  const ends = groups.map((group) => secondsAt(score, group.onset.add(group.duration)));
  const noteOf = noteMaker(setting, brief);
  return groups.map((group, index) => {
    const before = groups[index - 1];
    const silence = before === undefined ? ZERO : group.onset.sub(before.onset).sub(before.duration);
    const first = group.notes[0] as ScoreNote;
    const beat = beatQuarters(score.bars[first.bar]?.meter ?? null);
    const onset = onsets[index] as number;
    const end = ends[index] as number;
    return {
      index,
      notes: group.notes.map((source) => noteOf(source)),
      onsetSeconds: onset,
      durationSeconds: secondsBetween(onset, end),
      toNextSeconds: secondsBetween(onset, onsets[index + 1] ?? end),
      gapSeconds: index === 0 ? Number.POSITIVE_INFINITY : secondsBetween(onsets[index - 1] as number, onset),
      rested: silence.valueOf() >= beat,
      silent: silence.valueOf() > 0,
      ringsOn: group.notes.some((note) => note.marks.letRing) || end > (onsets[index + 1] ?? end) + 1e-9,
      asks: asks[index] ?? null,
      afterGrace: groups[index - 1]?.notes[0]?.grace ?? false,
      leadsOn: (asks[index + 1] ?? null) !== null,
      thumbStroke: brief.thumbStroke,
    };
  });
}

/** A beat in quarter notes: three of the lower number in compound meters such as 6/8. */
function beatQuarters(meter: Meter | null): number {
  if (meter === null) return 1;
  const compound = meter.beats > 3 && meter.beats % 3 === 0 && meter.beatType >= 8;
  return (compound ? 12 : 4) / meter.beatType;
}

/** Makes a score's notes sound in a setting, with what the brief gives for them. */
function noteMaker(setting: Setting, brief: Brief): (source: ScoreNote) => MomentNote {
  const open = new Set(setting.tuning.semitones);
  const pins = new Map(brief.pins.map((pin) => [pin.note, pin.given]));
  const harmonics = brief.passages.filter((passage) => passage.harmonics);
  return (source) => {
    const sounding = transposePitch(source.sounding, setting.transpose.interval);
    const semitone = semitoneOf(sounding);
    const micro = microtoneCents(sounding);
    const cents = centsOf(semitone, setting.gong, setting.temperament) + micro;
    const own = withHeld(source.given, semitone, cents, setting);
    const wished = own.written && own.sound === "harmonic";
    const inHarmonics = harmonics.some((span) => source.bar >= span.fromBar && source.bar <= span.toBar);
    return {
      source: own === source.given ? source : { ...source, given: own },
      given: pinned(own, pins.get(source.id)),
      sounding,
      semitone,
      cents,
      harmonicAsked: source.marks.harmonic || wished || inHarmonics,
      liesOpen: open.has(semitone) && Math.abs(micro) <= 35,
    };
  };
}

/** What the score gives, with a pin's wishes over it. */
function pinned(given: GivenFingering, pin: GivenFingering | undefined): GivenFingering {
  if (pin === undefined) return given;
  const wishes = Object.fromEntries(Object.entries(pin).filter(([, value]) => value !== null));
  // A pinned stroke stands in place of a compound, a pinned string in place of the strings that one goes over.
  const struck = pin.stroke === null ? {} : { compound: null, across: null };
  const across = pin.string === null ? {} : { across: null };
  // A pinned kind of sound stands in place of another one with all that belonged to it.
  const resounded =
    pin.sound === null || pin.sound === given.sound ? {} : { position: null, finger: null, contact: null };
  return { ...given, ...struck, ...across, ...resounded, ...wishes };
}

/** No rest lies between the two. */
const touches = (a: Timed, b: Timed): boolean => a.onset.add(a.duration).compare(b.onset) >= 0;

/**
 * A slur over two or three notes in one direction within a fifth asks for a slide, where both can be stopped; a longer
 * one is phrasing. Where it cannot be slid and falls to an open string, it asks to be pulled off. A grace note may be slid from, as an ornament.
 */
function askedArrivals(groups: readonly Timed[], score: Score, setting: Setting): Ask[] {
  const at = new Map(groups.flatMap((group, i) => group.notes.map((note) => [note.id, i] as const)));
  const pitches = groups.map(
    (group) => semitoneOf((group.notes[0] as ScoreNote).sounding) + setting.transpose.semitones,
  );
  const pitch = (i: number): number => pitches[i] as number;
  const lowestOpen = Math.min(...setting.tuning.semitones);
  const asks: Ask[] = groups.map(() => null);
  for (const slur of score.slurs) {
    const from = at.get(slur.from);
    const to = at.get(slur.to);
    if (from === undefined || to === undefined || to - from < 1 || to - from > 2) continue;
    const steps = Array.from({ length: to - from }, (_, k) => pitch(from + k + 1) - pitch(from + k));
    const oneWay = steps.every((step) => step > 0) || steps.every((step) => step < 0);
    const single = groups.slice(from, to + 1).every((group) => group.notes.length === 1);
    const joined = groups.slice(from, to).every((group, k) => touches(group, groups[from + k + 1] as Timed));
    const stopped = Math.min(pitch(from), pitch(to)) > lowestOpen;
    const near = Math.abs(pitch(to) - pitch(from)) <= WIDEST_SLIDE_SEMITONES;
    const slide = oneWay && stopped && near;
    if (!single || !joined) continue;
    asks.fill(slide ? "slide" : "slur", from + 1, to + 1);
    const falls = pitch(to) < pitch(to - 1);
    if (!slide && falls && setting.tuning.semitones.includes(pitch(to))) asks[to] = "pull-off";
  }
  for (const [i, group] of groups.entries()) {
    const given = group.notes[0]?.given;
    if (groups[i - 1]?.notes[0]?.grace && asks[i] === null) asks[i] = "slur";
    if (group.notes[0]?.marks.slideTo || (given?.written && given.arrival === "slid")) asks[i] = "slide";
  }
  return asks;
}
