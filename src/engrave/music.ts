// SPDX-License-Identifier: AGPL-3.0-or-later
// The music of a report: its melody on the staff with the fingering of every note.
import type { Report } from "../report.js";
import { drawCells } from "./cell.js";
import { type Span, spansOf } from "./spans.js";
import { type EngravedSystem, EngravingProblem, engrave } from "./staff.js";

/** What a page needs to print the music. */
export interface EngravedMusic {
  /** why the staff could not be drawn; null when it was */
  readonly trouble: string | null;
  /** definitions that cells and lines of music refer to: once per page, inside an `<svg>` */
  readonly symbols: string;
  /** lines of music; none when the staff could not be drawn */
  readonly systems: readonly EngravedSystem[];
  /** the symbol of each note's cell, by note id */
  readonly cells: ReadonlyMap<string, string>;
  /** kinds of span that the music has, for the words that explain them */
  readonly spans: ReadonlySet<Span["kind"]>;
  /** by finding: the symbol of each note's cell as its remedy plays it, by note id */
  readonly instead: ReadonlyMap<string, ReadonlyMap<string, string>>;
  /** each line of the study; none where a line could not be drawn */
  readonly study: readonly (readonly EngravedSystem[])[];
}

/**
 * Engraves the report's melody with room for a mark above the last note of every open finding. A melody that the
 * engraver cannot draw is no error: the page goes without the staff.
 */
export async function engraveReport(report: Report): Promise<EngravedMusic> {
  const { notes } = report.json.fingering;
  const studied = report.studyMusic.flatMap((line) => line.notes);
  const changed = [...report.instead].flatMap(([finding, placed]) => placed.map((note) => ({ finding, note })));
  const { ids, symbols } = drawCells([...notes, ...studied, ...changed.map(({ note }) => note)]);
  const cells = new Map(notes.map((note, i) => [note.id, ids[i] as string]));
  const instead = new Map<string, Map<string, string>>();
  changed.forEach(({ finding, note }, i) => {
    const own = instead.get(finding) ?? new Map<string, string>();
    instead.set(finding, own.set(note.id, ids[notes.length + studied.length + i] as string));
  });
  const open = report.json.findings.filter((finding) => finding.status === "open");
  const marked = new Set(open.flatMap((finding) => finding.notes.slice(-1)));
  const glyphs = new Set<string>();
  const spans = spansOf(notes);
  try {
    const engraved = await engrave(report.score, cells, { marked, spans, lines: "line" });
    for (const glyph of engraved.glyphs) glyphs.add(glyph);
    const study = await engraveStudy(report, ids.slice(notes.length), glyphs);
    return {
      trouble: null,
      symbols: [...glyphs].join("") + symbols,
      systems: engraved.systems,
      cells,
      instead,
      study,
      spans: new Set(spans.map(({ kind }) => kind)),
    };
  } catch (problem) {
    if (!(problem instanceof EngravingProblem)) throw problem;
    return {
      trouble: problem.message,
      symbols,
      systems: [],
      cells,
      instead,
      study: report.studyMusic.map(() => []),
      spans: new Set(),
    };
  }
}

/** The lines of a study, each by itself. @param ids symbols of all their notes' cells in order */
async function engraveStudy(
  { studyMusic }: Report,
  ids: readonly string[],
  glyphs: Set<string>,
): Promise<EngravedMusic["study"]> {
  const lines: (readonly EngravedSystem[])[] = [];
  let next = 0;
  for (const { score, notes } of studyMusic) {
    const cells = new Map(notes.map((note) => [note.id, ids[next++] as string]));
    const engraved = await engrave(score, cells, { marked: new Set(), spans: spansOf(notes) });
    for (const glyph of engraved.glyphs) glyphs.add(glyph);
    lines.push(engraved.systems);
  }
  return lines;
}
