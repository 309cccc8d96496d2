// SPDX-License-Identifier: AGPL-3.0-or-later
// Runs of moments, and how messages speak of them: shared by the rules that see the whole line.
import { placeInCharacters, stringInCharacters } from "../../src/model/characters.js";
import { pitchName } from "../../src/model/pitch.js";
import { barsFromTo } from "../../src/model/place-words.js";
import type { Placed } from "../../src/model/playing.js";
import type { Line } from "../../src/rule/types.js";
import { type Phrase, phrase } from "../../src/words.js";

/** Moments in a row, both ends included. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** Cuts moments into runs: each moment joins the run of the one before or begins a new one. */
export function runsWhere(count: number, joins: (at: number) => boolean): readonly Run[] {
  const runs: { from: number; to: number }[] = [];
  for (let at = 0; at < count; at++) {
    const last = runs.at(-1);
    if (last !== undefined && joins(at)) last.to = at;
    else runs.push({ from: at, to: at });
  }
  return runs;
}

/** Ids of the notes of a run of moments. */
export function idsOf(line: Pick<Line, "moments">, run: Run): readonly string[] {
  return line.moments.slice(run.from, run.to + 1).flatMap((moment) => moment.notes.map((note) => note.source.id));
}

/** Index of the bar in which a moment begins. */
export function barAt(line: Pick<Line, "moments">, at: number): number {
  return line.moments[at]?.notes[0]?.source.bar ?? 0;
}

/** "bar 3" or "bars 3 to 4", by printed labels. */
export function barsOf(line: Pick<Line, "moments" | "score">, run: Run): Phrase {
  const label = (at: number): string => line.score.bars[barAt(line, at)]?.label ?? "";
  return barsFromTo(label(run.from), label(run.to));
}

/** The pitches of a moment, lowest first. @example "C2 + C3" */
export function pitchesAt(line: Pick<Line, "moments">, at: number): string {
  return line.moments[at]?.notes.map((note) => pitchName(note.sounding)).join(" + ") ?? "";
}

/** A place in plain words. @example "string 6 at 7.9", "open string 6", "the harmonic at hui 7 of string 6" */
export function placeWords({ sound, string, position, exact }: Placed): Phrase {
  const onString = stringInCharacters(string);
  if (sound === "open") return phrase(`open string ${string}`, `${onString}散音`);
  const place = `${onString}${placeInCharacters(position ?? exact)}`;
  if (sound === "harmonic") return phrase(`the harmonic at hui ${position} of string ${string}`, `${place}泛音`);
  return phrase(`string ${string} at ${position}`, place);
}

/** What {@link placeWords} tells apart, for comparing. */
export function placeKey({ sound, string, position }: Placed): string {
  return `${sound} ${string} ${position}`;
}

/** "once", "twice", "5 times". */
export function times(count: number): Phrase {
  return phrase(count === 1 ? "once" : count === 2 ? "twice" : `${count} times`, `${count}次`);
}
