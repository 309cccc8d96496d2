// SPDX-License-Identifier: AGPL-3.0-or-later
// What a call names, read: the score, the brief, and the setting that follows from both and from the options.

import { readHand } from "../../rules/hands.js";
import { RULES } from "../../rules/index.js";
import { DEFAULT_SCALE_LENGTH_CM } from "../model/board.js";
import { type Brief, NO_BRIEF } from "../model/brief.js";
import { inScale } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { TEMPERAMENTS } from "../model/temperament.js";
import { ZERO } from "../model/time.js";
import { findTuning } from "../model/tuning.js";
import { type BriefText, parseBrief, resolveBrief } from "../read/brief.js";
import { readBytes } from "../read/file.js";
import { type ReadResult, readScore } from "../read/score.js";
import type { SourceSetting } from "../read/setting.js";
import { findHand, oneOf, readTransposition } from "./options.js";

/** A score and what it is to be read and played with; undefined where an option was left out. */
export interface ScoreCall {
  readonly score: string;
  readonly tuning?: string;
  readonly transpose?: string;
  readonly part?: string;
  readonly voice?: string;
  readonly bars?: string;
  readonly hand?: string;
  readonly temperament?: string;
  readonly brief?: string;
}

/** What a call names, read. */
export interface ReadCall {
  readonly read: ReadResult & { readonly bytes: Uint8Array };
  /** in the brief's tempo, if it gives one */
  readonly score: Score;
  readonly setting: Setting;
  readonly brief: Brief;
}

/**
 * Reads the score, the brief and the setting: a call counts over the brief, the brief over what the score stores.
 *
 * @throws InputProblem when one of them cannot be used
 */
export function readCall(call: ScoreCall): ReadCall {
  const written = call.brief === undefined ? null : readBriefFile(call.brief);
  const read = readScoreFile(call, written);
  const brief = written === null ? NO_BRIEF : resolveBrief(written, read.score);
  const { score } = read;
  const paced = brief.tempo === null ? score : { ...score, tempos: [{ onset: ZERO, quartersPerMinute: brief.tempo }] };
  return { read, brief, score: paced, setting: settingFor(call, written, read) };
}

function readScoreFile(call: ScoreCall, written: BriefText | null): ReadCall["read"] {
  const bytes = readBytes(call.score);
  const { part, voice, bars } = call;
  const stringNumbers = written?.values["string-numbers"];
  const options = {
    ...(part === undefined ? {} : { part }),
    ...(voice === undefined ? {} : { voice }),
    ...(bars === undefined ? {} : { bars }),
    ...(stringNumbers === undefined ? {} : { stringNumbers }),
  };
  return { ...readScore(bytes, call.score === "-" ? "standard input" : call.score, options), bytes };
}

function settingFor(call: ScoreCall, written: BriefText | null, { score, setting }: ReadResult): Setting {
  const said = written?.values ?? {};
  const kept = setting?.stored;
  /** Where a value comes from, for messages. */
  const sayer = (key: "tuning" | "transpose" | "temperament"): string => {
    if (call[key] !== undefined || (said[key] === undefined && setting === null)) return `--${key}`;
    return said[key] === undefined ? (setting as SourceSetting).place : (written as BriefText).at([key]).place;
  };
  const temperament = oneOf(
    call.temperament ?? said.temperament ?? kept?.temperament ?? "pythagorean",
    TEMPERAMENTS,
    sayer("temperament"),
  );
  const tuning = findTuning(call.tuning ?? said.tuning ?? kept?.tuning ?? "zhengdiao", sayer("tuning"));
  const hand = call.hand ?? said.hand ?? kept?.hand ?? "medium";
  const chosen = {
    tuning,
    transpose: readTransposition(call.transpose ?? said.transpose ?? kept?.transpose, score, sayer("transpose")),
    temperament,
    gong: tuning.gong,
    hand: typeof hand === "string" ? findHand(hand) : readHand(JSON.stringify(hand.figures), hand.name),
    scaleLengthCm: DEFAULT_SCALE_LENGTH_CM,
  };
  return inScale(chosen, score);
}

function readBriefFile(path: string): BriefText {
  const rules = RULES.map(({ prose }) => ({
    id: prose.id,
    parameters: Object.fromEntries(Object.entries(prose.parameters).map(([name, one]) => [name, one.default])),
  }));
  return parseBrief(new TextDecoder().decode(readBytes(path)), path === "-" ? "standard input" : path, rules);
}
