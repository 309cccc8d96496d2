// SPDX-License-Identifier: AGPL-3.0-or-later
// What a fingering exercises, and a study of one sign, as JSON prints them.
import { check, readingAt } from "../check/check.js";
import type { Practice } from "../check/study/practice.js";
import type { Study, StudyLine } from "../check/study/study.js";
import { pitchName } from "../model/pitch.js";
import type { Setting } from "../model/setting.js";
import type { Report } from "../report.js";
import type { Rule } from "../rule/types.js";
import { costJson } from "./fingering.js";
import { noteEntries } from "./notes.js";
import type { PracticeJson, StudyJson } from "./practice-json.js";

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
export function studyMusic(study: Study, setting: Setting, rules: readonly Rule[]): Report["studyMusic"] {
  return study.lines.map(({ score, played }: StudyLine) => {
    const verdicts = check(played, score, setting, rules);
    return { score, notes: noteEntries(score, played, verdicts, []) };
  });
}
