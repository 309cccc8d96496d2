// SPDX-License-Identifier: AGPL-3.0-or-later
// What the terminal says of the ranked settings: the answer, the table, the command to go on with, where the page lies.

import type { Fit, FitEntry } from "../src/report/fit.js";
import { tuningInCharacters } from "../src/report/wording.js";
import { inWords, joined, type Language, type Phrase, phrase, phraseOf, printable, type Said } from "../src/words.js";
import { type Again, checkWords, commandWords } from "./fit-words.js";
import { columnsOf, padded, writtenLines } from "./terminal.js";

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
    answerLine(fit),
    ...fit.how.slice(0, 1),
    ...fit.cautions,
    ...table(fit, language),
    ...(first === undefined ? [] : goingOn(first, fit, again)),
    ...writtenLines(written),
  ];
  return `${lines.map((line) => printable(inWords(line, language))).join("\n")}\n`;
}

function answerLine({ sentence, beside }: Fit): Phrase {
  return joined(beside === "" ? [sentence] : [sentence, beside], phrase(" ", ""));
}

const LEFT_OUT = phrase("left out", "略去");
const HEAD: readonly Said[] = [
  "",
  phrase("tuning", "定弦"),
  phrase("moved", "移调"),
  phrase("key", "调"),
  LEFT_OUT,
  phrase("effort", "费力"),
  phrase("a note", "每音"),
  phrase("open", "散音"),
  phrase("on hui", "在徽"),
  phrase("off scale", "调外"),
];
/** Columns of words, which stand to the left. */
const WORDS = 4;

/** The settings as columns; where every one can be played there is no column for what is left out. */
function table({ entries, written }: Fit, language: Language): readonly string[] {
  const shown = entries.some(
    ({ json }) => json.tuning === written.json.tuning && json.transpose === written.json.transpose,
  );
  const rows = [HEAD, ...[...entries, ...(shown ? [] : [written])].map(cells)];
  const playable = [...entries, written].every(({ json }) => json.total.blocked === 0);
  const kept = rows.map((row) =>
    row.filter((_, i) => !playable || HEAD[i] !== LEFT_OUT).map((cell) => inWords(cell, language)),
  );
  const wide = HEAD.map((_, i) => Math.max(...kept.map((row) => columnsOf(row[i] ?? ""))));
  return kept.map((row) =>
    row
      .map((cell, i) => padded(cell, wide[i] as number, i > 0 && i < WORDS ? "end" : "start"))
      .join("  ")
      .trimEnd(),
  );
}

function cells({ json, transposition }: FitEntry): readonly Said[] {
  const { rank, tuning, key, total, effortPerNote, openNotes, notesOnHui, offPattern, octaveMoves } = json;
  return [
    rank === null ? "-" : String(rank),
    phrase(tuning, tuningInCharacters(tuning)),
    octaveMoves.length === 0 ? transposition : joined([transposition, "*"]),
    ...[key, String(total.blocked)],
    ...[total.effort, effortPerNote].map((value) => value.toFixed(2)),
    ...[openNotes, notesOnHui, offPattern].map(String),
  ];
}

function goingOn(first: FitEntry, { entries, checks }: Fit, again: Again): readonly Said[] {
  const { retune } = first.json;
  const moves = entries.some(({ json }) => json.octaveMoves.length > 0);
  const byEar = joined(checks.map(checkWords), phrase("; ", "；"));
  const heard = checks.length === 0 ? "" : phrase(` By ear: ${byEar.en}.`, `凭耳朵校对：${byEar.zh}。`);
  const command = commandWords(first, again).join(" ");
  return [
    ...(moves ? [OCTAVES] : []),
    ...(retune.length === 0
      ? []
      : [
          phraseOf({
            en: (say) => `To tune from the standard: ${say(first.tuning.change)}.${say(heard)}`,
            zh: (say) => `由正调改弦：${say(first.tuning.change)}。${say(heard)}`,
          }),
        ]),
    phrase(`Its fingering: ${command}`, `配指法：${command}`),
  ];
}

const OCTAVES = phrase(
  "* with phrases moved by an octave: move them in the score before you check it.",
  "* 有乐句移八度：先在乐谱中移好，再用huipath check查看。",
);
