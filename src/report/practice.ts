// SPDX-License-Identifier: AGPL-3.0-or-later
// What a fingering exercises, and a study of one sign, as JSON prints them.
import { check, readingAt } from "../check/check.js";
import type { Practice } from "../check/study/practice.js";
import type { Study, StudyLine } from "../check/study/study.js";
import { pitchName } from "../model/pitch.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import type { Sign } from "../model/sign.js";
import type { CostJson, NoteJson } from "../report.js";
import type { Rule } from "../rule/types.js";
import { costJson } from "./fingering.js";
import { noteEntries } from "./notes.js";

/** How often things come on strings 1 to 7. */
export interface PracticeJson {
  readonly strokes: readonly { readonly stroke: string; readonly strings: readonly number[] }[];
  /** hui and tenths; 14 for the open string */
  readonly places: readonly { readonly position: number; readonly strings: readonly number[] }[];
  readonly harmonics: readonly { readonly hui: number; readonly strings: readonly number[] }[];
  readonly pairs: readonly { readonly from: string; readonly to: string; readonly uses: number }[];
  readonly signs: readonly { readonly sign: Sign; readonly uses: number }[];
}

/** A study of one sign. */
export interface StudyJson {
  readonly sign: Sign;
  readonly uses: number;
  readonly strings: readonly { readonly string: number; readonly uses: number }[];
  readonly before: readonly { readonly sign: Sign; readonly uses: number }[];
  readonly after: readonly { readonly sign: Sign; readonly uses: number }[];
  readonly places: readonly { readonly string: number; readonly position: number; readonly uses: number }[];
  readonly lines: readonly {
    readonly notes: readonly { readonly pitch: string; readonly spoken: string }[];
    readonly total: CostJson;
    readonly brings: {
      readonly strings: readonly number[];
      readonly before: readonly Sign[];
      readonly after: readonly Sign[];
      readonly places: readonly { readonly string: number; readonly position: number }[];
    };
  }[];
  /** places that the lines still leave out */
  readonly left: number;
}

/** A line of a study for engraving. */
export interface StudyMusic {
  readonly score: Score;
  readonly notes: readonly NoteJson[];
}

/** What a line exercises. */
export function practiceJson({ strokes, places, harmonics, pairs, signs }: Practice): PracticeJson {
  return {
    strokes: strokes.map(({ stroke, uses }) => ({ stroke, strings: uses })),
    places: places.map(({ position, uses }) => ({ position, strings: uses })),
    harmonics: harmonics.map(({ hui, uses }) => ({ hui, strings: uses })),
    pairs,
    signs,
  };
}

/** A study; its lines by what they sound and how they are said. */
export function studyJson({ spots, lines, ...study }: Study): StudyJson {
  return {
    ...study,
    places: spots,
    lines: lines.map(({ played, total, brings: { spots: places, ...brings } }) => ({
      notes: played.moments.map(({ notes: [note] }, at) => ({
        pitch: note === undefined ? "" : pitchName(note.sounding),
        spoken: readingAt(played, at),
      })),
      total: costJson(total),
      brings: { ...brings, places },
    })),
  };
}

/** The lines of a study with the note entries that their glyphs are drawn from. */
export function studyMusic(study: Study, setting: Setting, rules: readonly Rule[]): readonly StudyMusic[] {
  return study.lines.map(({ score, played }: StudyLine) => {
    const verdicts = check(played, score, setting, rules);
    return { score, notes: noteEntries(score, played, verdicts, []) };
  });
}
