// SPDX-License-Identifier: AGPL-3.0-or-later
// What a call names, read: the score, the brief, and the setting that follows from both and from the options.

import { readHand } from "../../rules/hands.js";
import { RULES } from "../../rules/index.js";
import type { StoredSetting } from "../model/annotation.js";
import { DEFAULT_SCALE_LENGTH_CM } from "../model/board.js";
import { type Brief, NO_BRIEF } from "../model/brief.js";
import { inScale } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { TEMPERAMENTS } from "../model/temperament.js";
import { ZERO } from "../model/time.js";
import { findTuning } from "../model/tuning.js";
import { type BriefText, parseBrief, resolveBrief } from "../read/brief.js";
import { readBytes, readYamlText } from "../read/file.js";
import { type ReadResult, readScore } from "../read/score.js";
import type { SourceSetting } from "../read/setting.js";
import { findHand, oneOf, readTransposition } from "./options.js";
import { bestSetting } from "./settings.js";

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
 * Reads the score, the brief and the setting: a call counts over the brief, the brief over what the score stores. Where
 * the transposition is asked to be the best one, settings are compared and the best is taken.
 *
 * @param settles whether to do so; else the melody then stays as written
 * @throws InputProblem when one of them cannot be used
 */
export function readCall(call: ScoreCall, { settles }: { readonly settles: boolean } = { settles: true }): ReadCall {
  const written = call.brief === undefined ? null : readBriefFile(call.brief);
  const read = readScoreFile(call, written);
  const brief = written === null ? NO_BRIEF : resolveBrief(written, read.score);
  const tempos = brief.tempo === null ? read.score.tempos : [{ onset: ZERO, quartersPerMinute: brief.tempo }];
  const score = { ...read.score, tempos };
  const said = saidBy(call, written, read);
  const setting = settingFor(said, read.score);
  const best = settles && said.transpose === BEST;
  return { read, brief, score, setting: best ? bestSetting({ score, brief, setting }, said.tuning !== null) : setting };
}

function readScoreFile(call: ScoreCall, written: BriefText | null): ReadCall["read"] {
  const bytes = readBytes(call.score);
  const { bars } = call;
  const { part = written?.values.part, voice = written?.values.voice } = call;
  const stringNumbers = written?.values["string-numbers"];
  const options = {
    ...(part === undefined ? {} : { part }),
    ...(voice === undefined ? {} : { voice }),
    ...(bars === undefined ? {} : { bars }),
    ...(stringNumbers === undefined ? {} : { stringNumbers }),
  };
  return { ...readScore(bytes, call.score === "-" ? "standard input" : call.score, options), bytes };
}

/** The word that asks for the best transposition. */
const BEST = "best";

/** What call, brief and score say of the setting; null where none does. */
interface Said {
  readonly tuning: string | null;
  readonly transpose: string | null;
  readonly temperament: string | null;
  readonly hand: string | StoredSetting["hand"] | null;
  /** where a value comes from, for messages */
  readonly sayer: (key: "tuning" | "transpose" | "temperament") => string;
}

function saidBy(call: ScoreCall, written: BriefText | null, { setting }: ReadResult): Said {
  const said = written?.values ?? {};
  const kept = setting?.stored;
  return {
    tuning: call.tuning ?? said.tuning ?? kept?.tuning ?? null,
    transpose: call.transpose ?? said.transpose ?? kept?.transpose ?? null,
    temperament: call.temperament ?? said.temperament ?? kept?.temperament ?? null,
    hand: call.hand ?? said.hand ?? kept?.hand ?? null,
    sayer: (key) => {
      if (call[key] !== undefined || (said[key] === undefined && setting === null)) return `--${key}`;
      return said[key] === undefined ? (setting as SourceSetting).place : (written as BriefText).at([key]).place;
    },
  };
}

function settingFor({ sayer, ...said }: Said, score: Score): Setting {
  const tuning = findTuning(said.tuning ?? "zhengdiao", sayer("tuning"));
  const hand = said.hand ?? "medium";
  const transpose = said.transpose === null || said.transpose === BEST ? undefined : said.transpose;
  const chosen = {
    tuning,
    transpose: readTransposition(transpose, score, sayer("transpose")),
    temperament: oneOf(said.temperament ?? "pythagorean", TEMPERAMENTS, sayer("temperament")),
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
  return parseBrief(readYamlText(path), path === "-" ? "standard input" : path, rules);
}
