// SPDX-License-Identifier: AGPL-3.0-or-later
// The score as JSON prints it.
import { ASSUMED_TEMPO } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { CheckJson } from "../report.js";
import { choiceReason } from "./line-words.js";

/** Makes it. */
export function scoreJson(score: Score): CheckJson["score"] {
  return {
    file: score.file,
    title: score.title,
    part: score.part.name ?? score.part.id,
    voice: score.voice,
    choice: score.choice === null ? null : { lines: score.choice.lines, reason: choiceReason(score.choice) },
    others: score.leftOut.map(({ take, ...line }) => ({ ...line, options: take })),
    bars: score.bars.length,
    notes: score.notes.length,
    tempo: tempoOf(score),
    tempoAssumed: score.tempos.length === 0,
  };
}

/** Quarter notes a minute at the start, to the thousandth. */
export function tempoOf(score: Score): number {
  return Math.round((score.tempos[0]?.quartersPerMinute ?? ASSUMED_TEMPO) * 1000) / 1000;
}
