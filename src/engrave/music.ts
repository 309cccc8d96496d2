// SPDX-License-Identifier: AGPL-3.0-or-later
// The music of a report: its melody on the staff with the fingering of every note.
import type { Report } from "../report.js";
import { drawCells } from "./cell.js";
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
}

/**
 * Engraves the report's melody with room for a mark above the last note of every open finding. A melody that the
 * engraver cannot draw is no error: the page goes without the staff.
 */
export async function engraveReport(report: Report): Promise<EngravedMusic> {
  const { notes } = report.json.fingering;
  const { ids, symbols } = drawCells(notes);
  const cells = new Map(notes.map((note, i) => [note.id, ids[i] as string]));
  const open = report.json.findings.filter((finding) => finding.status === "open");
  const marked = new Set(open.flatMap((finding) => finding.notes.slice(-1)));
  try {
    const { glyphs, systems } = await engrave(report.score, cells, { marked });
    return { trouble: null, symbols: glyphs + symbols, systems, cells };
  } catch (problem) {
    if (!(problem instanceof EngravingProblem)) throw problem;
    return { trouble: problem.message, symbols, systems: [], cells };
  }
}
