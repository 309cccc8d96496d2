// SPDX-License-Identifier: AGPL-3.0-or-later
// Remedies as JSON prints them, and the notes that a page shows before and after.
import type { Finding } from "../check/check.js";
import { changesBetween } from "../check/comparison.js";
import { momentsOfFinding } from "../check/remedies/line.js";
import { nearestTo } from "../check/remedies/words.js";
import type { Remedy, Tried } from "../check/remedy.js";
import type { NoteJson, PlacedNote, RemedyJson } from "../report.js";
import type { Played } from "../search/charges.js";
import { changedNotes } from "./changes.js";
import { placedNotes, spareMoves } from "./notes.js";

/** A remedy as JSON prints it. @param notes of the line as it is */
export function remedyEntry(remedy: Remedy | null, played: Played, notes: readonly NoteJson[]): RemedyJson | null {
  if (remedy === null) return null;
  const { text, after, music } = remedy;
  return {
    text,
    blockedAfter: after.blocked,
    effortAfter: spareMoves(after.effort),
    changes: remedy.played === null ? [] : changedNotes(changesBetween(played, remedy.played), notes),
    music,
  };
}

/** The notes of a remedy's changes as they are then played: of the changes that its sentence names, chord after chord. */
export function notesInstead(finding: Finding, tried: Tried | undefined, played: Played): readonly PlacedNote[] {
  const then = tried?.remedy?.played ?? null;
  if (then === null) return [];
  const at = new Map(played.moments.map(({ notes }, i) => [notes[0]?.source.id ?? "", i]));
  const changes = changesBetween(played, then).map(({ note }) => ({ note, at: at.get(note) as number }));
  const near = finding.at ?? momentsOfFinding(finding, played.moments)[0] ?? 0;
  return placedNotes(then, new Set(nearestTo(near, changes).map(({ note }) => note)));
}
