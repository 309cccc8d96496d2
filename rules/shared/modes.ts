// SPDX-License-Identifier: AGPL-3.0-or-later
// Which mode a melody's places belong to, stretch by stretch.
import { gongAt } from "../../src/model/melody-gong.js";
import type { MomentNote } from "../../src/model/moments.js";
import { isCore } from "../../src/model/note-table.js";
import type { Placed } from "../../src/model/playing.js";
import type { Line } from "../../src/rule/types.js";

/** A note with its place. */
export interface Tone {
  readonly note: MomentNote;
  readonly placed: Placed;
  /** a finger goes to this place for a pluck: no open string, no harmonic, no tone that a slide or a grace note touches */
  readonly stop: boolean;
}

/** Notes in a row that belong to one mode. */
export interface Stretch {
  /** pitch class of gong */
  readonly gong: number;
  /** gong of the printed key */
  readonly home: number;
  readonly tones: readonly Tone[];
}

/** The numbers by which a change of mode is told. */
export interface Announcing {
  /** strays */
  readonly announces: number;
  /** notes */
  readonly within: number;
  /** different tones */
  readonly tones: number;
}

/** Every placed note in order. A written place that sounds another note says nothing of the mode. */
export function tonesOf({ moments, lefts }: Line): readonly Tone[] {
  return lefts.flatMap(({ placed, chain }, at) =>
    placed
      .filter(({ mismatch }) => !mismatch)
      .map((one) => {
        const note = moments[at]?.notes[one.note] as MomentNote;
        return { note, placed: one, stop: one.sound === "stopped" && chain === 0 && !note.source.grace };
      }),
  );
}

/** Whether a tone is stopped off the pattern of a mode. */
export function straysFrom({ note, stop }: Tone, gong: number): boolean {
  return stop && !isCore(note.semitone, gong);
}

/** Pitch classes from the nearest in fifths to the farthest: C next to F and to G. */
function nearestFirst(gong: number): readonly number[] {
  return [1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6].map((fifths) => (gong + 7 * fifths + 84) % 12);
}

/** How many tones from a place on belong to a mode without a break, at most `most`. */
function heldBy(tones: readonly Tone[], from: number, gong: number, most: number): number {
  let held = 0;
  while (held < most && from + held < tones.length && isCore((tones[from + held] as Tone).note.semitone, gong)) held++;
  return held;
}

/**
 * The mode that begins with a tone off another, null where it only strays: one in which all of the next notes have a place,
 * with strays enough among them, and different tones enough to know it by. Back to the printed key one such tone is enough.
 */
function announced(tones: readonly Tone[], from: number, gong: number, home: number, by: Announcing): number | null {
  if (gong !== home && heldBy(tones, from, home, by.within) >= Math.min(by.within, tones.length - from)) return home;
  let best: number | null = null;
  let longest = 0;
  for (const other of nearestFirst(gong)) {
    const length = heldBy(tones, from, other, by.within);
    const heard = tones.slice(from, from + length);
    const off = heard.filter((tone) => straysFrom(tone, gong)).length;
    const different = new Set(heard.map(({ note }) => note.semitone % 12)).size;
    if (off < by.announces || different < by.tones || length <= longest) continue;
    best = other;
    longest = length;
  }
  return best;
}

/** Cuts a melody into stretches of one mode. A printed change of key sets the mode; places off it may announce another. */
export function stretchesOf(line: Line, tones: readonly Tone[], by: Announcing): readonly Stretch[] {
  const stretches: { gong: number; home: number; tones: Tone[] }[] = [];
  for (const [at, tone] of tones.entries()) {
    const last = stretches.at(-1);
    const home = gongAt(line.score, line.setting, tone.note.source.bar);
    const gong = last === undefined || last.home !== home ? home : last.gong;
    const next = isCore(tone.note.semitone, gong) ? gong : (announced(tones, at, gong, home, by) ?? gong);
    if (last !== undefined && last.gong === next && last.home === home) last.tones.push(tone);
    else stretches.push({ gong: next, home, tones: [tone] });
  }
  return stretches;
}
