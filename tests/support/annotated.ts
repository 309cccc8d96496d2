// SPDX-License-Identifier: AGPL-3.0-or-later
// Annotating a document without the report: read, search, splice.
import type { StoredSetting } from "../../src/model/annotation.js";
import { inScale } from "../../src/model/moments.js";
import { parseTransposition } from "../../src/model/pitch.js";
import type { Setting } from "../../src/model/setting.js";
import type { Temperament } from "../../src/model/temperament.js";
import { type ReadResult, readScore } from "../../src/read/score.js";
import { noteEntries } from "../../src/report/notes.js";
import type { NoteJson } from "../../src/report.js";
import type { Cost } from "../../src/rule/cost.js";
import { annotate } from "../../src/write/annotate.js";
import { encodeText } from "../../src/write/pack.js";
import { type Edit, spliced } from "../../src/write/splice.js";
import { play, settingOf } from "./playing.js";

/** What a document is set for that stores no setting. */
export const USUAL: StoredSetting = {
  tuning: "zhengdiao",
  transpose: "1P",
  temperament: "pythagorean",
  hand: "medium",
};

/** A document with the fingering found for it. */
export interface Annotated {
  readonly read: ReadResult;
  readonly edits: readonly Edit[];
  /** the annotated document */
  readonly text: string;
  readonly bytes: Uint8Array;
  readonly notes: readonly NoteJson[];
  readonly total: Cost;
}

/** Reads a document, finds its fingering in the setting that it stores (else in the one given), and annotates it. */
export function annotated(bytes: Uint8Array, file: string, setting: StoredSetting = USUAL): Annotated {
  const read = readScore(bytes, file);
  const stored = read.setting?.stored ?? setting;
  const { played, verdicts } = play(read.score, inScale(settingFrom(stored), read.score));
  const notes = noteEntries(read.score, played, verdicts, []);
  const edits = annotate(read.source, notes, stored);
  const text = spliced(read.source.text, edits);
  return { read, edits, text, bytes: encodeText(text, read.source), notes, total: verdicts.total };
}

function settingFrom({ tuning, transpose, temperament, hand }: StoredSetting): Setting {
  const interval = parseTransposition(transpose, 0);
  if (interval === null || typeof hand !== "string") throw new Error("tests use plain intervals and hands");
  return { ...settingOf({ tuning, temperament: temperament as Temperament, hand }), transpose: interval };
}

/** What the hands do at each note. */
export function fingeringOf(notes: readonly NoteJson[]): readonly object[] {
  return notes.map(({ id, sound, string, position, finger, contact, arrival, stroke, compound, spoken }) => ({
    ...{ id, sound, string, position, finger, contact, arrival, stroke, compound, spoken },
  }));
}
