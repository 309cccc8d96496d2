// SPDX-License-Identifier: AGPL-3.0-or-later
// The answer of `fit`, and how it came about.
import type { Asked, Fit, FitEntry, FitJson } from "./fit.js";
import { count, effortReading } from "./wording.js";

/** A setting in a few words, such as "in standard tuning, a fifth lower". */
function settingWords({ json, tuning, transposition }: FitEntry): string {
  return `in ${tuningWords(json.tuning, tuning)}, ${transposition}`;
}

function tuningWords(name: string, { title, characters }: FitEntry["tuning"]): string {
  if (name === "zhengdiao") return "standard tuning";
  return characters === "" ? `the tuning ${name}` : `${title} tuning`;
}

/** What a setting costs, in words. */
function costWords({ json }: FitEntry): string {
  const { blocked, effort } = json.total;
  if (blocked > 0) return `${count(blocked, "place")} cannot be played, and the rest costs ${moves(effort)}`;
  return `${moves(effort)}, ${hundredths(json.effortPerNote)} a note: ${effortReading(json.effortPerNote)}`;
}

const hundredths = (value: number): string => String(Math.round(value * 100) / 100);
const moves = (effort: number): string => `${hundredths(effort)} spare ${effort === 1 ? "move" : "moves"}`;

/**
 * The best setting; beside it the best one that needs no retuning and the setting of the call.
 *
 * @param entries the best first; of none nothing could be compared
 */
export function answerWords(entries: readonly FitEntry[], written: FitEntry): Pick<Fit, "sentence" | "beside"> {
  const [best] = entries;
  if (best === undefined)
    return { sentence: "No setting can be compared: in none of them do the pins of the brief sound.", beside: "" };
  const lead = best.json.total.blocked > 0 ? "No setting makes all of it playable; it goes best" : "It lies best";
  const sentence = `${lead} ${settingWords(best)}${moved(best)} (${costWords(best)}).`;
  if (isSame(best, written)) return { sentence, beside: "That is the setting of this call already." };
  const ready = entries.find(({ json }) => json.retune.length === 0) ?? written;
  const others = [
    ...(isSame(ready, best) || isSame(ready, written) ? [] : [readyWords(ready)]),
    `${upper(settingWords(written))}: ${costWords(written)}.`,
  ];
  return { sentence, beside: others.join(" ") };
}

function readyWords(ready: FitEntry): string {
  return `Without retuning it lies best ${ready.transposition}${moved(ready)}: ${costWords(ready)}.`;
}

const isSame = (a: FitEntry, b: FitEntry): boolean =>
  a.json.tuning === b.json.tuning && a.json.transpose === b.json.transpose;

function moved({ json: { octaveMoves } }: FitEntry): string {
  return octaveMoves.length === 0 ? "" : `, with ${count(octaveMoves.length, "phrase")} moved by an octave`;
}

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What was compared, and what the order is by. */
export function compared({ searched }: FitJson, { tunings, keepKey, octaves }: Asked): readonly string[] {
  const range = keepKey
    ? "the written key and its octaves, two up and two down"
    : "two octaves up and two down, by semitones";
  return [
    `Compared: ${count(searched.settings, "setting")}, ${count(tunings.length, "tuning")} in ${range}.`,
    `${searched.exact} were searched to the end; the other ${searched.skipped} were given up as soon as they could not be among those shown, so the order is exact.`,
    "First comes what has the fewest places that cannot be played, then the least effort; of equals the fewest strings retuned, then the smallest transposition.",
    ...(octaves
      ? [
          "A phrase with notes below the lowest string or above hui 4 of the highest may move by one octave, if that leaves fewer of its notes there; it moves where the whole then costs less. Phrases end at rests, fermatas and long slurs, else every four bars.",
        ]
      : []),
  ];
}

/** A fingering that the score gives, which is kept; nothing where it gives none. */
export function keptWords({ notes }: Asked["score"]): readonly string[] {
  const given = notes.filter(({ given: { sound, string, stroke } }) => sound ?? string ?? stroke).length;
  if (given === 0) return [];
  return [
    `The score gives a fingering for ${count(given, "note")}. It is kept in every setting, as check keeps it, though elsewhere it may not sound the notes: compare the score without it to rank the melody alone.`,
  ];
}
