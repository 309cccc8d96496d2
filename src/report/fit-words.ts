// SPDX-License-Identifier: AGPL-3.0-or-later
// What speaks for a setting and against it, in plain sentences.
import { ORDINARY_STOP_SEMITONES } from "../model/board.js";
import { pitchName, spell } from "../model/pitch.js";
import type { Left, MissingCause } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import { transpositionWords } from "../model/transposition-words.js";
import type { Standing } from "../search/ranking.js";
import type { FitSettingJson } from "./fit.js";
import type { LineFigures } from "./places.js";
import { count } from "./wording.js";

/** The reasons, what cannot be played first, then how it lies, then what it takes to get there. */
export function reasonsFor(
  standing: Standing,
  figures: LineFigures,
  json: Omit<FitSettingJson, "reasons">,
): readonly string[] {
  return [
    ...blockedWords(standing),
    openWords(figures),
    huiWords(figures),
    patternWords(figures),
    ...rangeWords(standing.setting, figures),
    ...json.octaveMoves.map(moveWords),
    keyWords(standing.setting, json.key),
    retuneWords(standing.setting),
  ];
}

const CAUSE: Readonly<Record<MissingCause, string>> = {
  below: "below the lowest string",
  above: "above the highest sound of the board",
  voices: "too many at once",
  given: "impossible as they are written",
};

function blockedWords({ played, total }: Standing): readonly string[] {
  if (total.blocked === 0) return [];
  const missing = played.lefts.flatMap((left: Left) => left.missing);
  const causes = (Object.keys(CAUSE) as MissingCause[]).flatMap((cause) => {
    const n = missing.filter((one) => one.cause === cause).length;
    return n === 0 ? [] : [`${n} ${CAUSE[cause]}`];
  });
  const others = total.blocked - missing.length;
  return [
    ...(missing.length === 0 ? [] : [`${count(missing.length, "note")} cannot be played: ${causes.join(", ")}.`]),
    ...(others <= 0 ? [] : [`${count(others, "more place")} cannot be played as it stands.`]),
  ];
}

const be = (n: number, one: string, many: string): string => (n === 1 ? one : many);

function openWords({ open, notes }: LineFigures): string {
  if (open === 0) return "No note is an open string.";
  return `${open} of ${count(notes, "note")} ${be(open, "is an open string", "are open strings")}.`;
}

function huiWords({ onHui, harmonics }: LineFigures): string {
  const sung =
    harmonics === 0 ? "" : ` ${count(harmonics, "note")} ${be(harmonics, "is a harmonic", "are harmonics")}.`;
  if (onHui === 0) return `No note is stopped right at a stud (hui).${sung}`;
  return `${count(onHui, "note")} ${be(onHui, "is", "are")} stopped right at a stud (hui).${sung}`;
}

function patternWords({ offPattern, gong }: LineFigures): string {
  if (offPattern === 0) return `No stop leaves the five-tone scale on ${gong}.`;
  return `${count(offPattern, "stop")} ${be(offPattern, "leaves", "leave")} the five-tone scale on ${gong}.`;
}

function rangeWords({ tuning }: Setting, { lowest, highest }: LineFigures): readonly string[] {
  const low = Math.min(...tuning.semitones);
  const ceiling = Math.max(...tuning.semitones) + ORDINARY_STOP_SEMITONES;
  const foot =
    lowest.semitone === low
      ? `The lowest note, ${pitchName(lowest.sounding)}, is the lowest string.`
      : `It sounds from ${pitchName(lowest.sounding)} up to ${pitchName(highest.sounding)}.`;
  const thin =
    highest.semitone > ceiling
      ? [
          `The highest note, ${pitchName(highest.sounding)}, lies above ${spell(ceiling)}, where even the highest string sounds thin.`,
        ]
      : [];
  return [foot, ...thin];
}

function moveWords({ bars, octaves }: FitSettingJson["octaveMoves"][number]): string {
  const many = bars.includes("-");
  return `The phrase in ${many ? "bars" : "bar"} ${bars} is played an octave ${octaves > 0 ? "higher" : "lower"}.`;
}

function keyWords({ transpose }: Setting, key: string): string {
  const words = transpositionWords(transpose);
  if (transpose.semitones === 0) return `The key stays as written: ${key}.`;
  return `The melody sounds ${words} than written, in ${key}.`;
}

/** How the strings are tuned from the standard tuning. */
function retuneWords({ tuning }: Pick<Setting, "tuning">): string {
  if (tuning.change === "the standard tuning") return "The standard tuning: no string is retuned.";
  return `To tune: ${tuning.change}.`;
}
