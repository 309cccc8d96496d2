// SPDX-License-Identifier: AGPL-3.0-or-later
// Where two fingerings part, as JSON prints it.
import type { ChangedNote } from "../check/comparison.js";
import type { Difference, NotePlace, Run, Share } from "../check/contrast.js";
import { type Compared, runWords } from "../check/contrast-words.js";
import type { Moment, MomentNote } from "../model/moments.js";
import type { BetterJson, NoteJson } from "../report.js";
import type { ChangeJson, DifferenceJson, ShareJson } from "./change-json.js";
import { barLabel, spareMoves } from "./notes.js";

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
      ...runWords(run, compared),
    };
  });
}

/** A difference as JSON prints it. */
export function differenceJson({ blocked, effort }: Difference): DifferenceJson {
  // Without the sum a difference of nothing could print as -0.
  return { blocked: blocked + 0, effort: spareMoves(effort + 0) };
}

/** Notes that are played another way, with bar and beat. */
export function changedNotes(changes: readonly ChangedNote[], notes: readonly NoteJson[]): BetterJson["changes"] {
  const byId = new Map(notes.map((note) => [note.id, note]));
  return changes.map(({ note, from, to }) => ({
    note,
    bar: byId.get(note)?.bar ?? "",
    beat: byId.get(note)?.beat ?? "",
    from,
    to,
  }));
}
