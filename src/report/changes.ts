// SPDX-License-Identifier: AGPL-3.0-or-later
// Where two fingerings part, as JSON prints it.
import type { Difference, NotePlace, Run, Share } from "../check/contrast.js";
import { type Compared, runPlace, runSentence } from "../check/contrast-words.js";
import type { Moment, MomentNote } from "../model/moments.js";
import { barLabel, spareMoves } from "./notes.js";

/** One cost minus another; both parts may be negative. Effort in spare moves, thousandths as a decimal. */
export interface DifferenceJson {
  readonly blocked: number;
  readonly effort: number;
}

/** What one rule charges less, or more, and at which notes. */
export interface ShareJson {
  readonly rule: string;
  readonly notes: readonly string[];
  readonly difference: DifferenceJson;
}

/** Notes in a row that are played another way, with what follows from them in the notes after. */
export interface ChangeJson {
  readonly fromBar: string;
  readonly fromBeat: string;
  readonly toBar: string;
  readonly toBeat: string;
  /** ids of the notes whose readings differ; none where only a waiting finger or the setting differs */
  readonly notes: readonly string[];
  readonly difference: DifferenceJson;
  readonly saves: readonly ShareJson[];
  readonly costs: readonly ShareJson[];
  /** where the notes lie that are played another way: "Bar 2, beats 1 to 3" */
  readonly place: string;
  /** begins with the place and a colon */
  readonly sentence: string;
}

/** Runs as JSON prints them, with the ids and bars of the first line. */
export function changeEntries(runs: readonly Run[], compared: Compared): readonly ChangeJson[] {
  const { a, score } = compared;
  const noteAt = ({ at, note }: NotePlace): MomentNote => (a.moments[at] as Moment).notes[note] as MomentNote;
  const idAt = (place: NotePlace): string => noteAt(place).source.id;
  const share = ({ rule, notes, difference }: Share): ShareJson => ({
    rule,
    notes: notes.map(idAt),
    difference: differenceJson(difference),
  });
  return runs.map((run) => {
    const first = noteAt({ at: run.from, note: 0 }).source;
    const last = noteAt({ at: run.until, note: 0 }).source;
    return {
      fromBar: barLabel(score, first.bar),
      fromBeat: first.beat,
      toBar: barLabel(score, last.bar),
      toBeat: last.beat,
      notes: run.changed.flatMap((at) => (a.moments[at] as Moment).notes.map(({ source }) => source.id)),
      difference: differenceJson(run.difference),
      saves: run.saves.map(share),
      costs: run.costs.map(share),
      place: runPlace(run, compared),
      sentence: runSentence(run, compared),
    };
  });
}

/** A difference as JSON prints it. */
export function differenceJson({ blocked, effort }: Difference): DifferenceJson {
  // Without the sum a difference of nothing could print as -0.
  return { blocked: blocked + 0, effort: spareMoves(effort + 0) };
}
