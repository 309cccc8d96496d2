// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath check`.
import { isDeepStrictEqual } from "node:util";
import { briefText } from "../../reports/brief-text.js";
import { checkSummary } from "../../reports/summary.js";
import { HAND_NAMES } from "../../rules/hands.js";
import type { Setting } from "../model/setting.js";
import { findSign } from "../model/sign.js";
import { InputProblem } from "../problem.js";
import { unpackAll } from "../read/unpack.js";
import type { CheckJson, Report } from "../report.js";
import { SEVERITIES, type Severity } from "../rule/types.js";
import { annotate } from "../write/annotate.js";
import type { Output } from "../write/output.js";
import { encodeText, packScore } from "../write/pack.js";
import { spliced } from "../write/splice.js";
import { audioOutput, guardAudioName } from "./audio.js";
import { type ReadCall, readCall, type ScoreCall } from "./input.js";
import { judge, OBJECTIVES, type Wished } from "./judge.js";
import { findHand, languageOf, numberIn, oneOf } from "./options.js";
import type { Outcome, Progress } from "./outcome.js";
import { crashLines, deliver, guardOutputs, jsonText, pagePath } from "./outputs.js";

/** Options of `check` as they were typed. */
export interface CheckCall extends ScoreCall {
  readonly writeBrief?: string;
  /** where the annotated score goes: `--score` */
  readonly annotated?: string;
  readonly report?: string;
  readonly json?: string;
  readonly failOn?: string;
  readonly objective?: string;
  readonly ways?: string;
  readonly sameFigures?: string;
  readonly certificate?: string;
  /** where the sound file goes */
  readonly audio?: string;
  readonly taste?: boolean;
  readonly focus?: string;
  /** language of the page, the summary and the JSON: `--lang` */
  readonly lang?: string;
  readonly quiet?: boolean;
  readonly force?: boolean;
}

/** A page that shows more ways than this is no help. */
const MOST_WAYS = 9;

/**
 * `huipath check`: reads, searches, judges, writes.
 *
 * @throws InputProblem before anything is written when the input or the call cannot be used
 */
export async function runCheck(call: CheckCall, version: string, progress: Progress = () => {}): Promise<Outcome> {
  const failOn = oneOf(call.failOn ?? "blocker", SEVERITIES, "--fail-on");
  const language = languageOf(call.lang);
  const reportPath = call.report === "none" ? null : (call.report ?? pagePath(call.score, "report"));
  const wished = wishedBy(call);
  guardAudioName(call.audio);
  guardOutputs(
    {
      "--report": reportPath,
      "--json": call.json,
      "--write-brief": call.writeBrief,
      "--score": call.annotated,
      "--certificate": call.certificate,
      "--audio": call.audio,
    },
    [call.score, call.brief, call.hand],
    call.force ?? false,
  );
  const { read, score, setting, brief } = readCall(call);
  progress("searching");
  const taste = call.taste ? await (await import("../check/programme.js")).loadSolver() : null;
  const report = judge(score, setting, version, brief, { ...wished, taste });
  const outputs: Output[] = [];
  if (reportPath !== null) {
    progress("engraving");
    const [{ engraveReport }, { renderCheckPage }] = await Promise.all([
      import("../engrave/music.js"),
      import("../../reports/check-page.js"),
    ]);
    outputs.push({ path: reportPath, content: await renderCheckPage(report, await engraveReport(report), language) });
  }
  if (call.json !== undefined) outputs.push({ path: call.json, content: jsonText(report.json, language) });
  if (call.writeBrief !== undefined) outputs.push({ path: call.writeBrief, content: briefText(report, language) });
  if (call.annotated !== undefined) outputs.push(annotatedScore(call.annotated, read, report, setting));
  if (call.certificate !== undefined)
    outputs.push({ path: call.certificate, content: `${JSON.stringify(report.certificate)}\n` });
  if (call.audio !== undefined) outputs.push(audioOutput(call.audio, report, progress));
  const piped = await deliver(outputs);
  const written = {
    report: reportPath,
    json: call.json ?? null,
    score: call.annotated ?? null,
    certificate: call.certificate ?? null,
    audio: call.audio ?? null,
  };
  const summary = call.quiet ? "" : checkSummary(report, written, language);
  return { code: exitCode(report.json, failOn), text: piped ?? summary, complaint: crashLines(crashedIn(report.json)) };
}

/** What a call wants beside the line of least effort. @throws InputProblem for values that make no sense */
function wishedBy({
  objective = "total",
  ways = "1",
  sameFigures,
  certificate,
  taste,
  focus,
}: CheckCall): Omit<Wished, "taste"> {
  const wished = {
    objective: oneOf(objective, OBJECTIVES, "--objective"),
    ways: numberIn(ways, "--ways", { from: 1, to: MOST_WAYS, whole: true }),
    sameFigures:
      sameFigures === undefined
        ? null
        : Math.round(1000 * numberIn(sameFigures, "--same-figures", { from: 0, to: 100, whole: false })),
    certificate: certificate !== undefined,
    focus: focus === undefined ? null : findSign(focus),
  };
  if (wished.objective !== "total" || wished.sameFigures !== null) {
    if (wished.certificate)
      throw notTheCheapest("--certificate", "it proves that no fingering costs less", "the certificate");
    if (taste) throw notTheCheapest("--taste", "it asks when another fingering would cost least", "--taste");
  }
  return wished;
}

/** What asks about the cheapest line cannot go with what leaves it. */
function notTheCheapest(option: string, what: string, named: string): InputProblem {
  return new InputProblem(
    `no-${option.slice(2)}`,
    option,
    `${what}, and --objective worst and --same-figures leave the cheapest line`,
    `leave them out, or leave out ${named}`,
  );
}

/** The document that was read with the fingering in it; packed where the name asks for that. */
function annotatedScore(path: string, read: ReadCall["read"], report: Report, setting: Setting): Output {
  const { source, bytes } = read;
  const { name, ...figures } = setting.hand;
  const own = HAND_NAMES.some((known) => known === name && isDeepStrictEqual(findHand(name), setting.hand));
  const { part, voice, leftOut } = report.score;
  const edits = annotate(source, report.json.fingering.notes, {
    tuning: setting.tuning.name,
    transpose: setting.transpose.interval,
    temperament: setting.temperament,
    hand: own ? name : { name, figures },
    ...(leftOut.length === 0 ? {} : { line: { part: part.id, ...(voice === null ? {} : { voice }) } }),
  });
  const document = encodeText(spliced(source.text, edits), source);
  const content = /\.mxl$/i.test(path) ? packScore(document, unpackAll(bytes, report.json.score.file)) : document;
  return { path, content };
}

/** Messages of rules that failed, by id. */
function crashedIn({ tallies }: CheckJson): readonly (readonly [rule: string, message: string])[] {
  return tallies.flatMap(({ rule, crashed }) => (crashed === null ? [] : [[rule, crashed] as const]));
}

/** 3 when a rule crashed, 1 with findings at or above the wanted severity, else 0. */
function exitCode(json: CheckJson, failOn: Severity): 0 | 1 | 3 {
  if (crashedIn(json).length > 0) return 3;
  const from = SEVERITIES.indexOf(failOn);
  const counts = json.findings.filter(({ status, severity }) => status === "open" || severity === "blocker");
  return counts.some((finding) => SEVERITIES.indexOf(finding.severity) >= from) ? 1 : 0;
}
