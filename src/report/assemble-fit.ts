// SPDX-License-Identifier: AGPL-3.0-or-later
// From ranked settings to the Fit value.
import { keyName } from "../model/key-name.js";
import { pitchName } from "../model/pitch.js";
import { checksByEar, retunedStrings } from "../model/retuning.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { transpositionWords } from "../model/transposition-words.js";
import type { Ranking, Standing } from "../search/ranking.js";
import { costJson } from "./fingering.js";
import type { Asked, Fit, FitEntry, FitJson, FitSettingJson } from "./fit.js";
import { answerWords, compared, keptWords } from "./fit-answer.js";
import { reasonsFor } from "./fit-words.js";
import { lineSentences } from "./line-words.js";
import { barLabel } from "./notes.js";
import { type LineFigures, lineFigures } from "./places.js";
import { scoreJson } from "./score.js";

/** Puts a ranking together. */
export function assembleFit(ranking: Ranking & { readonly own: Standing }, asked: Asked): Fit {
  const { score, version } = asked;
  const entries = ranking.best.map((standing) => entryOf(standing, score));
  const written = entryOf(ranking.own, score);
  const { setting } = ranking.own;
  const json: FitJson = {
    schema: 1,
    tool: { name: "huipath", version },
    command: "fit",
    score: scoreJson(score),
    hand: setting.hand.name,
    temperament: setting.temperament,
    searched: ranking.searched,
    written: written.json,
    settings: entries.map((entry) => entry.json),
  };
  return {
    json,
    score,
    ...answerWords(entries, written),
    how: compared(json, asked),
    cautions: [...lineSentences(score), ...keptWords(score)],
    entries,
    written,
    checks: ranking.best[0] === undefined ? [] : checksByEar(ranking.best[0].setting.tuning),
  };
}

function entryOf(standing: Standing, printed: Score): FitEntry {
  const { setting, score, played } = standing;
  const figures = lineFigures(score, setting, played);
  const json = settingEntry(standing, figures, printed);
  return {
    json: { ...json, reasons: reasonsFor(standing, figures, json) },
    tuning: setting.tuning,
    transposition: transpositionWords(setting.transpose),
    lowest: figures.lowest.semitone,
    highest: figures.highest.semitone,
  };
}

function settingEntry(
  { rank, setting, moves, total }: Standing,
  figures: LineFigures,
  printed: Score,
): Omit<FitSettingJson, "reasons"> {
  const { tuning, transpose } = setting;
  const bars = (from: number, to: number): string =>
    from === to ? barLabel(printed, from) : `${barLabel(printed, from)}-${barLabel(printed, to)}`;
  return {
    rank,
    tuning: tuning.name,
    strings: tuning.strings,
    transpose: transpose.semitones,
    interval: optionInterval(setting),
    key: keyName(printed, setting),
    total: costJson(total),
    effortPerNote: Math.round(total.effort / Math.max(1, figures.notes)) / 1000,
    openNotes: figures.open,
    notesOnHui: figures.onHui,
    offPattern: figures.offPattern,
    lowest: pitchName(figures.lowest.sounding),
    highest: pitchName(figures.highest.sounding),
    octaveMoves: moves.map((move) => ({ bars: bars(move.fromBar, move.toBar), octaves: move.octaves })),
    retune: retunedStrings(tuning),
  };
}

/** Quality before number, as people write intervals. */
function optionInterval({ transpose }: Setting): string {
  return transpose.interval.replace(/^(-?)(\d+)([A-Za-z]+)$/, "$1$3$2");
}
