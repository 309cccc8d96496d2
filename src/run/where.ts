// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath where`.
import { whereJson } from "../../reports/where-json.js";
import { whereText } from "../../reports/where-text.js";
import { parsePitch } from "../model/pitch.js";
import { scaleGong } from "../model/scale-gong.js";
import { TEMPERAMENTS } from "../model/temperament.js";
import { findTuning } from "../model/tuning.js";
import { parseQuestion, spotsOf } from "../model/where.js";
import { inWords, phrase } from "../words.js";
import { checkOutputs, writeOutput } from "../write/output.js";
import { languageOf, oneOf } from "./options.js";
import type { Outcome } from "./outcome.js";

/** The words after `where`, and its options as they were typed. */
export interface WhereCall {
  readonly what: readonly string[];
  readonly tuning?: string;
  readonly temperament?: string;
  readonly json?: string;
  /** language of the answer: `--lang` */
  readonly lang?: string;
  readonly force?: boolean;
}

/**
 * `huipath where`: the places of a note, or the sounds of a place.
 *
 * @throws InputProblem before anything is written when the question or the call cannot be used
 */
export async function runWhere(call: WhereCall): Promise<Outcome> {
  const language = languageOf(call.lang);
  const question = parseQuestion(call.what);
  const temperament = oneOf(call.temperament ?? "pythagorean", TEMPERAMENTS, "--temperament");
  const tuning = findTuning(call.tuning ?? "zhengdiao");
  const asked = question.about === "note" ? parsePitch(question.name) : null;
  const strung = { tuning, temperament, gong: scaleGong(tuning, temperament, asked === null ? [] : [asked]) };
  const spots = spotsOf(question, strung);
  const text = whereText(question, spots, strung, language);
  if (call.json === undefined) return { code: 0, text, complaint: "" };
  const json = `${JSON.stringify(whereJson(spots))}\n`;
  if (call.json === "-") return { code: 0, text: json, complaint: "" };
  checkOutputs([call.json], call.force ?? false);
  await writeOutput({ path: call.json, content: json });
  return {
    code: 0,
    text: `${text}\n${inWords(phrase(`JSON: ${call.json}`, `JSON：${call.json}`), language)}\n`,
    complaint: "",
  };
}
