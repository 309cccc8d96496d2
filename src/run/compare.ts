// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath compare`.
import { basename } from "node:path";
import { compareSummary } from "../../reports/compare-text.js";
import { bestLine } from "../check/comparison.js";
import { firstParting } from "../check/same-notes.js";
import { InputProblem } from "../problem.js";
import { assembleComparison, type Side } from "../report/compare.js";
import { chargesOf } from "../search/charges.js";
import type { Output } from "../write/output.js";
import { readCall, type ScoreCall } from "./input.js";
import { type SearchedLine, searchLine } from "./judge.js";
import { languageOf } from "./options.js";
import type { Outcome, Progress } from "./outcome.js";
import { crashLines, deliver, guardOutputs, jsonText, pagePath } from "./outputs.js";

/** Options of `compare` as they were typed; those that end in B count for B alone, the others for both, `brief` for A. */
export interface CompareCall extends ScoreCall {
  /** the other score; the best fingering of A where it is left out */
  readonly scoreB?: string;
  readonly tuningB?: string;
  readonly transposeB?: string;
  readonly partB?: string;
  readonly voiceB?: string;
  readonly handB?: string;
  readonly temperamentB?: string;
  readonly briefB?: string;
  readonly report?: string;
  readonly json?: string;
  /** language of the page, the summary and the JSON: `--lang` */
  readonly lang?: string;
  readonly quiet?: boolean;
  readonly force?: boolean;
}

/** Options for B alone, as they are typed. */
const ONLY_B = {
  tuningB: "--tuning-b",
  transposeB: "--transpose-b",
  partB: "--part-b",
  voiceB: "--voice-b",
  handB: "--hand-b",
  temperamentB: "--temperament-b",
  briefB: "--brief-b",
} as const;

/**
 * `huipath compare`: reads, searches, lays side by side, writes.
 *
 * @throws InputProblem before anything is written when the input or the call cannot be used, or the notes differ
 */
export async function runCompare(call: CompareCall, version: string, progress: Progress = () => {}): Promise<Outcome> {
  const language = languageOf(call.lang);
  const page = call.report === "none" ? null : (call.report ?? pagePath(call.score, "compare"));
  guardOutputs({ "--report": page, "--json": call.json }, inputsOf(call), call.force ?? false);
  const { comparison, crashed } = compareSides(call, version, progress);
  const outputs: Output[] = [];
  if (page !== null) {
    const { renderComparePage } = await import("../../reports/compare-page.js");
    outputs.push({ path: page, content: await renderComparePage(comparison, language) });
  }
  if (call.json !== undefined) outputs.push({ path: call.json, content: jsonText(comparison.json, language) });
  const piped = await deliver(outputs);
  const summary = call.quiet ? "" : compareSummary(comparison, { report: page, json: call.json ?? null }, language);
  return { code: crashed === "" ? 0 : 3, text: piped ?? summary, complaint: crashed };
}

function inputsOf(call: CompareCall): readonly (string | undefined)[] {
  const { score, scoreB, brief, briefB, hand, handB } = call;
  return [score, scoreB, brief, briefB, hand, handB];
}

function compareSides(call: CompareCall, version: string, progress: Progress) {
  guardB(call);
  const a = sideOf(call, progress);
  const b = call.scoreB === undefined ? bestOf(a) : otherSide(call, a.side, progress);
  const crashed = crashLines(new Map([...a.line.crashed, ...b.crashed]));
  return { comparison: assembleComparison(a.side, b.side, a.line.rules, version), crashed };
}

/** Without B there is nothing that options for B could set; standard input can be read once. */
function guardB(call: CompareCall): void {
  const stray = Object.entries(ONLY_B).find(([key]) => call[key as keyof typeof ONLY_B] !== undefined);
  if (call.scoreB === undefined && stray !== undefined)
    throw new InputProblem(
      "no-b",
      stray[1],
      "it is for B, and the call names no B",
      `name it after ${call.score}, or the same score again for two settings`,
    );
  const piped = [call.score, call.scoreB, call.brief, call.briefB].filter((path) => path === "-");
  if (piped.length > 1)
    throw new InputProblem("two-streams", "-", "standard input can be read once only", "name files for the others");
}

interface Read {
  readonly side: Side;
  readonly line: SearchedLine;
}

function sideOf(call: ScoreCall, progress: Progress): Read {
  const { score, setting, brief } = readCall(call);
  progress("searching");
  const line = searchLine(score, setting, brief);
  const { played, sound, weighting } = line;
  const billed = { played, charges: chargesOf(played, sound, weighting) };
  const named = call.brief === undefined ? null : basename(call.brief);
  return { side: { file: score.file, score, setting, brief: named, billed }, line };
}

/** The best fingering in A's setting and with A's weights. */
function bestOf({ side, line }: Read): { readonly side: Side; readonly crashed: SearchedLine["crashed"] } {
  const { sound, weighting, crashed } = line;
  const played = bestLine({ ...line, setting: side.setting, rules: sound });
  const billed = { played, charges: chargesOf(played, sound, weighting) };
  return { side: { ...side, file: null, billed }, crashed };
}

/** B, which must hold A's notes. */
function otherSide(call: CompareCall, a: Side, progress: Progress) {
  const { side, line } = sideOf(callForB(call), progress);
  const parting = firstParting(a.score, side.score);
  if (parting !== null)
    throw new InputProblem(
      "different-notes",
      `${side.score.file}, bar ${parting.bar}`,
      `it differs from ${a.score.file} there: ${parting.what}`,
      "compare needs the same written pitches, onsets and durations on both sides; choose the lines with --part, --voice, --part-b and --voice-b",
    );
  return { side, crashed: line.crashed };
}

/** B as a call of its own. */
function callForB(call: CompareCall): ScoreCall {
  const chosen = {
    tuning: call.tuningB ?? call.tuning,
    transpose: call.transposeB ?? call.transpose,
    part: call.partB ?? call.part,
    voice: call.voiceB ?? call.voice,
    bars: call.bars,
    hand: call.handB ?? call.hand,
    temperament: call.temperamentB ?? call.temperament,
    brief: call.briefB,
  };
  const said = Object.fromEntries(Object.entries(chosen).filter(([, value]) => value !== undefined));
  return { ...said, score: call.scoreB ?? call.score };
}
