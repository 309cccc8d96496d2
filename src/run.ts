// SPDX-License-Identifier: AGPL-3.0-or-later
// The calls in order. The only place that knows the rule book and the outputs.
import { readFileSync } from "node:fs";
import { basename, resolve } from "node:path";
import { isDeepStrictEqual } from "node:util";
import { briefText } from "../reports/brief-text.js";
import { type GuideJson, guideJson } from "../reports/guide-json.js";
import { guideMarkdown } from "../reports/guide-markdown.js";
import { checkSummary } from "../reports/summary.js";
import { whereJson } from "../reports/where-json.js";
import { whereText } from "../reports/where-text.js";
import { HAND_NAMES, readHand, unknownHand } from "../rules/hands.js";
import { RULES } from "../rules/index.js";
import { choicesOf } from "./candidates/candidates.js";
import { guardPins } from "./candidates/pins.js";
import { check } from "./check/check.js";
import { betterLines } from "./check/comparison.js";
import { remediesOf } from "./check/remedy.js";
import { BY_CHARGE } from "./check/strict.js";
import { DEFAULT_SCALE_LENGTH_CM } from "./model/board.js";
import { type Brief, NO_BRIEF } from "./model/brief.js";
import { inScale, type Moment, momentsOf } from "./model/moments.js";
import { parsePitch, parseTransposition, type Transposition, UNTRANSPOSED } from "./model/pitch.js";
import { scaleGong } from "./model/scale-gong.js";
import type { Score } from "./model/score.js";
import type { Hand, Setting } from "./model/setting.js";
import { TEMPERAMENTS } from "./model/temperament.js";
import { ZERO } from "./model/time.js";
import { findTuning, STANDARD } from "./model/tuning.js";
import { parseQuestion, spotsOf } from "./model/where.js";
import { InputProblem } from "./problem.js";
import { type BriefText, parseBrief, resolveBrief } from "./read/brief.js";
import { readBytes } from "./read/file.js";
import { type ReadResult, readScore } from "./read/score.js";
import type { SourceSetting } from "./read/setting.js";
import { unpackAll } from "./read/unpack.js";
import { assembleReport } from "./report/assemble.js";
import { sourceOf } from "./report/notes.js";
import type { CheckJson, Report } from "./report.js";
import { type Rule, SEVERITIES, type Severity } from "./rule/types.js";
import { weightingOf } from "./rule/weighting.js";
import { search } from "./search/solve.js";
import { annotate } from "./write/annotate.js";
import { checkOutputs, type Output, writeOutput } from "./write/output.js";
import { encodeText, packScore } from "./write/pack.js";
import { spliced } from "./write/splice.js";

/** What `guide --format` takes. */
const GUIDE_FORMATS = ["html", "md", "json"] as const;

/** The setting in which the guide prints the rules, but for the hand. */
const USUAL = {
  tuning: STANDARD,
  transpose: UNTRANSPOSED,
  temperament: "pythagorean",
  gong: STANDARD.gong,
  scaleLengthCm: DEFAULT_SCALE_LENGTH_CM,
} as const;

/** Options as they were typed; undefined where they were left out. */
export interface CheckCall {
  readonly score: string;
  readonly tuning?: string;
  readonly transpose?: string;
  readonly part?: string;
  readonly voice?: string;
  readonly bars?: string;
  readonly hand?: string;
  readonly temperament?: string;
  readonly brief?: string;
  readonly writeBrief?: string;
  /** where the annotated score goes: `--score` */
  readonly annotated?: string;
  readonly report?: string;
  readonly json?: string;
  readonly failOn?: string;
  readonly quiet?: boolean;
  readonly force?: boolean;
}

/** Options of `guide` as they were typed. */
export interface GuideCall {
  readonly format?: string;
  readonly output?: string;
  readonly hand?: string;
  readonly force?: boolean;
}

/** The words after `where`, and its options as they were typed. */
export interface WhereCall {
  readonly what: readonly string[];
  readonly tuning?: string;
  readonly temperament?: string;
  readonly json?: string;
  readonly force?: boolean;
}

/** What a command ends with. */
export interface Outcome {
  readonly code: 0 | 1 | 3;
  /** for standard output */
  readonly text: string | Uint8Array;
  /** for standard error; empty for nothing */
  readonly complaint: string;
}

/** Told what is being done, for work that takes longer than a moment. */
export type Progress = (doing: string) => void;

/**
 * `huipath check`: reads, searches, judges, writes.
 *
 * @throws InputProblem before anything is written when the input or the call cannot be used
 */
export async function runCheck(call: CheckCall, version: string, progress: Progress = () => {}): Promise<Outcome> {
  const failOn = oneOf(call.failOn ?? "blocker", SEVERITIES, "--fail-on");
  const reportPath = call.report === "none" ? null : (call.report ?? defaultReportPath(call.score));
  guardOutputs(reportPath, call);
  const { read, score, setting, brief } = readCall(call);
  progress("searching");
  const report = judge(score, setting, version, brief);
  const outputs: Output[] = [];
  if (reportPath !== null) {
    progress("engraving");
    const [{ engraveReport }, { renderCheckPage }] = await Promise.all([
      import("./engrave/music.js"),
      import("../reports/check-page.js"),
    ]);
    outputs.push({ path: reportPath, content: await renderCheckPage(report, await engraveReport(report)) });
  }
  if (call.json !== undefined) outputs.push({ path: call.json, content: `${JSON.stringify(report.json)}\n` });
  if (call.writeBrief !== undefined) outputs.push({ path: call.writeBrief, content: briefText(report) });
  if (call.annotated !== undefined) outputs.push(annotatedScore(call.annotated, read, report, setting));
  for (const output of outputs) if (output.path !== "-") await writeOutput(output);
  const piped = outputs.find((output) => output.path === "-");
  const written = { report: reportPath, json: call.json ?? null, score: call.annotated ?? null };
  const summary = call.quiet ? "" : checkSummary(report, written);
  return { code: exitCode(report.json, failOn), text: piped?.content ?? summary, complaint: crashLines(report.json) };
}

/** The document that was read with the fingering in it; packed where the name asks for that. */
function annotatedScore(path: string, read: ReadCall["read"], report: Report, setting: Setting): Output {
  const { source, bytes } = read;
  const { name, ...figures } = setting.hand;
  const own = HAND_NAMES.some((known) => known === name && isDeepStrictEqual(findHand(name), setting.hand));
  const edits = annotate(source, report.json.fingering.notes, {
    tuning: setting.tuning.name,
    transpose: setting.transpose.interval,
    temperament: setting.temperament,
    hand: own ? name : { name, figures },
  });
  const document = encodeText(spliced(source.text, edits), source);
  const content = /\.mxl$/i.test(path) ? packScore(document, unpackAll(bytes, report.json.score.file)) : document;
  return { path, content };
}

/**
 * `huipath guide`: the rule book. A page goes to a file, Markdown and JSON to standard output unless a file is named.
 *
 * @throws InputProblem before anything is written when the call cannot be used
 */
export async function runGuide(call: GuideCall, version: string): Promise<Outcome> {
  const format = oneOf(call.format ?? "html", GUIDE_FORMATS, "--format");
  const path = call.output ?? (format === "html" ? "huipath-guide.html" : "-");
  if (path !== "-") checkOutputs([path], call.force ?? false);
  const hand = findHand(call.hand ?? "medium");
  const rules = RULES.map((entry) => entry.make({ ...USUAL, hand }));
  const guide = guideJson({ rules, hand, version, byCharge: BY_CHARGE });
  const text = await guideText(guide, format);
  if (path === "-") return { code: 0, text, complaint: "" };
  await writeOutput({ path, content: text });
  return { code: 0, text: `The rule book, ${rules.length} rules: ${path}\n`, complaint: "" };
}

async function guideText(guide: GuideJson, format: (typeof GUIDE_FORMATS)[number]): Promise<string> {
  if (format === "json") return `${JSON.stringify(guide)}\n`;
  if (format === "md") return guideMarkdown(guide);
  const { renderGuidePage } = await import("../reports/guide-page.js");
  return renderGuidePage(guide);
}

/**
 * `huipath where`: the places of a note, or the sounds of a place.
 *
 * @throws InputProblem before anything is written when the question or the call cannot be used
 */
export async function runWhere(call: WhereCall): Promise<Outcome> {
  const question = parseQuestion(call.what);
  const temperament = oneOf(call.temperament ?? "pythagorean", TEMPERAMENTS, "--temperament");
  const tuning = findTuning(call.tuning ?? "zhengdiao");
  const asked = question.about === "note" ? parsePitch(question.name) : null;
  const strung = { tuning, temperament, gong: scaleGong(tuning, temperament, asked === null ? [] : [asked]) };
  const spots = spotsOf(question, strung);
  const text = whereText(question, spots, strung);
  if (call.json === undefined) return { code: 0, text, complaint: "" };
  const json = `${JSON.stringify(whereJson(spots))}\n`;
  if (call.json === "-") return { code: 0, text: json, complaint: "" };
  checkOutputs([call.json], call.force ?? false);
  await writeOutput({ path: call.json, content: json });
  return { code: 0, text: `${text}\nJSON: ${call.json}\n`, complaint: "" };
}

/** What a call names, read. */
interface ReadCall {
  readonly read: ReadResult & { readonly bytes: Uint8Array };
  /** in the brief's tempo, if it gives one */
  readonly score: Score;
  readonly setting: Setting;
  readonly brief: Brief;
}

/** Reads the score, the brief and the setting: a call counts over the brief, the brief over what the score stores. */
function readCall(call: CheckCall): ReadCall {
  const written = call.brief === undefined ? null : readBriefFile(call.brief);
  const read = readScoreFile(call, written);
  const brief = written === null ? NO_BRIEF : resolveBrief(written, read.score);
  const { score } = read;
  const paced = brief.tempo === null ? score : { ...score, tempos: [{ onset: ZERO, quartersPerMinute: brief.tempo }] };
  return { read, brief, score: paced, setting: settingFor(call, written, read) };
}

function readScoreFile(call: CheckCall, written: BriefText | null): ReadCall["read"] {
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

function settingFor(call: CheckCall, written: BriefText | null, { score, setting }: ReadResult): Setting {
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

/** Searches and judges one score in one setting. */
export function judge(score: Score, setting: Setting, version: string, brief: Brief = NO_BRIEF): Report {
  const bookFor = (one: Setting) => RULES.map((entry) => entry.make(one, brief.parameters[entry.prose.id]));
  const rules = bookFor(setting);
  const moments = momentsOf(score, setting, brief);
  const weighting = weightingOf(brief, moments, rules);
  const { searched, crashed } = searchSound(moments, setting, rules, brief);
  const { lefts, rights } = searched.solution;
  const played = { moments, lefts, rights };
  const verdicts = check(played, score, setting, rules, { brief, weighting, crashed });
  const sound = rules.filter((rule) => !crashed.has(rule.id));
  const remedies = remediesOf({ score, setting, rules: sound, weighting, played, searched, verdicts, bookFor });
  const better = sourceOf(played) !== "searched" ? betterLines({ setting, rules: sound, weighting, played }) : null;
  return assembleReport({ score, setting, rules, played, verdicts, remedies, better, version });
}

/** Searches; where a rule fails it is left out and named, so that one broken rule does not lose the report. */
function searchSound(moments: readonly Moment[], setting: Setting, rules: readonly Rule[], brief: Brief) {
  const searchWith = (book: readonly Rule[]) => {
    const choices = choicesOf(moments, setting, book);
    guardPins(choices, brief);
    return search(choices, setting, book, weightingOf(brief, moments, book));
  };
  const crashed = new Map<string, string>();
  try {
    return { searched: searchWith(rules), crashed };
  } catch (failure) {
    if (failure instanceof InputProblem) throw failure;
    for (const rule of rules) {
      try {
        if (rule.reach !== "passage") searchWith([rule]);
      } catch (error) {
        crashed.set(rule.id, error instanceof Error ? error.message : String(error));
      }
    }
    if (crashed.size === 0) throw failure;
    return { searched: searchWith(rules.filter((rule) => !crashed.has(rule.id))), crashed };
  }
}

function oneOf<const T extends string>(text: string, known: readonly T[], option: string): T {
  const found = known.find((value) => value === text);
  if (found === undefined)
    throw new InputProblem("unknown-value", option, `no such value: "${text}"`, `known: ${known.join(", ")}`);
  return found;
}

function findHand(name: string): Hand {
  const own = HAND_NAMES.find((known) => known === name);
  if (own !== undefined)
    return readHand(readFileSync(new URL(`../rules/hands/${own}.yaml`, import.meta.url), "utf8"), own);
  if (!/\.ya?ml$/i.test(name)) throw unknownHand(name);
  return readHand(new TextDecoder().decode(readBytes(name)), basename(name).replace(/\.ya?ml$/i, ""));
}

function readTransposition(text: string | undefined, score: Score, place: string): Transposition {
  if (text === undefined) return UNTRANSPOSED;
  const transposition = parseTransposition(text, score.bars[0]?.key.fifths ?? 0);
  if (transposition === null || Math.abs(transposition.semitones) > 48)
    throw new InputProblem(
      "bad-transposition",
      place,
      `"${text}" is no transposition`,
      "say semitones from -48 to 48 such as -12, or an interval such as -P5 or M2",
    );
  return transposition;
}

/** The report's place when none is named: the score's name without its ending, in the working folder. */
function defaultReportPath(score: string): string {
  const stem = score === "-" ? "score" : basename(score).replace(/\.(musicxml|xml|mxl)$/i, "");
  return `${stem}.report.html`;
}

function guardOutputs(report: string | null, call: CheckCall): void {
  const named = [report, call.json, call.writeBrief, call.annotated];
  const paths = named.filter((path) => path !== null && path !== undefined);
  if (paths.filter((path) => path === "-").length > 1)
    throw new InputProblem(
      "two-streams",
      "--report, --json, --write-brief, --score",
      "more than one asks for standard output",
      "let the others name files",
    );
  const inputs = [call.score, call.brief, call.hand].flatMap((path) => (path === undefined ? [] : [resolve(path)]));
  const swallowed = paths.find((path) => path !== "-" && inputs.includes(resolve(path)));
  if (swallowed !== undefined)
    throw new InputProblem(
      "output-is-input",
      swallowed,
      "this file is read by the same call",
      "let the output have another name",
    );
  checkOutputs(
    paths.filter((path) => path !== "-"),
    call.force ?? false,
  );
}

/** 3 when a rule crashed, 1 with findings at or above the wanted severity, else 0. */
function exitCode(json: CheckJson, failOn: Severity): 0 | 1 | 3 {
  if (json.tallies.some((tally) => tally.crashed !== null)) return 3;
  const from = SEVERITIES.indexOf(failOn);
  const counts = json.findings.filter(({ status, severity }) => status === "open" || severity === "blocker");
  return counts.some((finding) => SEVERITIES.indexOf(finding.severity) >= from) ? 1 : 0;
}

function crashLines(json: CheckJson): string {
  return json.tallies
    .filter((tally) => tally.crashed !== null)
    .map((tally) => `the rule ${tally.rule} failed and was left out: ${tally.crashed}\n`)
    .join("");
}
