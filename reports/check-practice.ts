// SPDX-License-Identifier: AGPL-3.0-or-later
// What the fingering exercises, for a teacher: strokes and places by string, strokes in pairs, what never comes.
import type { EngravedMusic } from "../src/engrave/music.js";
import { strokeCharacter } from "../src/model/characters.js";
import { signName } from "../src/model/sign.js";
import type { PracticeJson } from "../src/report/practice-json.js";
import type { Report } from "../src/report.js";
import { joined, type Phrase, phrase, type Said } from "../src/words.js";
import { type StudyView, viewStudy } from "./check-study.js";
import { shellWord } from "./shell-word.js";
import { placeName } from "./words.js";

/** One row of a table by string; a cell says how often, and how dark it is. */
interface RowView {
  readonly name: Said;
  readonly cells: readonly CellView[];
  readonly total: number;
}

interface CellView {
  /** empty for never */
  readonly uses: string;
  /** 0 to 4: its share of the most frequent */
  readonly shade: number;
}

/** What the page prints about practice. */
export interface PracticeView {
  readonly strokes: readonly RowView[];
  readonly places: readonly RowView[];
  readonly harmonics: readonly RowView[];
  /** head of the table of pairs */
  readonly pairTo: readonly Said[];
  readonly pairs: readonly RowView[];
  /** signs that never come; empty where all do */
  readonly never: Said;
  /** the command that makes a study of the first of them */
  readonly example: Said;
  readonly study: readonly StudyView[];
}

const STRING_NUMBERS = [0, 1, 2, 3, 4, 5, 6];

/** Builds the view. */
export function viewPractice(report: Report, music: EngravedMusic): PracticeView {
  const { practice, study, score } = report.json;
  const unused = practice.signs.filter(({ uses }) => uses === 0).map(({ sign }) => sign);
  const strokes = practice.strokes.map(({ stroke }) => stroke).filter((stroke) => inPairs(stroke, practice));
  return {
    strokes: rows(practice.strokes.map(({ stroke, strings }) => [strokeName(stroke), strings])),
    places: rows(practice.places.map(({ position, strings }) => [placeName(position), strings])),
    harmonics: rows(practice.harmonics.map(({ hui, strings }) => [phrase(`harmonic ${hui}`, `泛${hui}`), strings])),
    pairTo: strokes.map(strokeName),
    pairs: rows(
      strokes.map((from) => [
        strokeName(from),
        strokes.map((to) => practice.pairs.find((pair) => pair.from === from && pair.to === to)?.uses ?? 0),
      ]),
    ),
    never: joined(unused.map(signName), phrase(", ", "、")),
    example: unused[0] === undefined ? "" : `huipath check ${shellWord(score.file)} --focus ${unused[0]}`,
    study: study === null ? [] : [viewStudy(study, music.study)],
  };
}

const inPairs = (stroke: string, { pairs }: PracticeJson): boolean =>
  pairs.some(({ from, to }) => from === stroke || to === stroke);

function strokeName(stroke: string): Phrase {
  return phrase(stroke, strokeCharacter(stroke));
}

/** Rows with their shades: one scale for a table. */
function rows(entries: readonly (readonly [name: Said, uses: readonly number[]])[]): readonly RowView[] {
  const most = Math.max(1, ...entries.flatMap(([, uses]) => uses));
  return entries.map(([name, uses]) => ({
    name,
    cells: (uses.length === 0 ? STRING_NUMBERS.map(() => 0) : uses).map((n) => ({
      uses: n === 0 ? "" : String(n),
      shade: n === 0 ? 0 : Math.max(1, Math.ceil((4 * n) / most)),
    })),
    total: uses.reduce((sum, n) => sum + n, 0),
  }));
}
