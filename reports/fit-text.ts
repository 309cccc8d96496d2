// SPDX-License-Identifier: AGPL-3.0-or-later
// What the terminal says of the ranked settings: the answer, the table, the command to go on with, where the page lies.

import type { Fit, FitEntry } from "../src/report/fit.js";
import { inWords, type Language, type Said } from "../src/words.js";
import { type Again, checkWords, commandWords } from "./fit-words.js";

/**
 * The summary of `huipath fit`.
 *
 * @param written where the outputs went; null for none
 */
export function fitSummary(
  fit: Fit,
  again: Again,
  written: { readonly report: string | null; readonly json: string | null },
  language: Language = "en",
): string {
  const [first] = fit.entries;
  const lines: readonly Said[] = [
    fit.json.score.title ?? fit.json.score.file,
    [fit.sentence, fit.beside].filter((words) => words !== "").join(" "),
    fit.how[0] as string,
    ...fit.cautions,
    ...table(fit),
    ...(first === undefined ? [] : goingOn(first, fit, again)),
    ...(written.report !== null && written.report !== "-" ? [`Page: ${written.report}`] : []),
    ...(written.json !== null && written.json !== "-" ? [`JSON: ${written.json}`] : []),
  ];
  return `${lines.map((line) => inWords(line, language)).join("\n")}\n`;
}

const HEAD = ["", "tuning", "moved", "key", "left out", "effort", "a note", "open", "on hui", "off scale"];
/** Columns of words, which stand to the left. */
const WORDS = 4;

/** The settings as columns; where every one can be played there is no column for what is left out. */
function table({ entries, written }: Fit): readonly string[] {
  const shown = entries.some(
    ({ json }) => json.tuning === written.json.tuning && json.transpose === written.json.transpose,
  );
  const rows = [HEAD, ...[...entries, ...(shown ? [] : [written])].map(cells)];
  const playable = [...entries, written].every(({ json }) => json.total.blocked === 0);
  const kept = rows.map((row) => (playable ? row.filter((_, i) => HEAD[i] !== "left out") : row));
  const wide = (kept[0] as string[]).map((_, i) => Math.max(...kept.map((row) => (row[i] as string).length)));
  return kept.map((row) =>
    row
      .map((cell, i) => (i > 0 && i < WORDS ? cell.padEnd(wide[i] as number) : cell.padStart(wide[i] as number)))
      .join("  ")
      .trimEnd(),
  );
}

function cells({ json, transposition }: FitEntry): readonly string[] {
  const { rank, tuning, key, total, effortPerNote, openNotes, notesOnHui, offPattern, octaveMoves } = json;
  const moved = octaveMoves.length === 0 ? transposition : `${transposition}*`;
  return [
    rank === null ? "-" : String(rank),
    ...[tuning, String(moved), String(key), String(total.blocked)],
    ...[total.effort, effortPerNote].map((value) => value.toFixed(2)),
    ...[openNotes, notesOnHui, offPattern].map(String),
  ];
}

function goingOn(first: FitEntry, { entries, checks }: Fit, again: Again): readonly string[] {
  const { retune } = first.json;
  const moves = entries.some(({ json }) => json.octaveMoves.length > 0);
  const heard = checks.length === 0 ? "" : ` By ear: ${checks.map(checkWords).join("; ")}.`;
  return [
    ...(moves ? ["* with phrases moved by an octave: move them in the score before you check it."] : []),
    ...(retune.length === 0 ? [] : [`To tune from the standard: ${first.tuning.change}.${heard}`]),
    `Its fingering: ${commandWords(first, again).join(" ")}`,
  ];
}
