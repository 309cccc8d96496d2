// SPDX-License-Identifier: AGPL-3.0-or-later
// What the terminal says: one screen, the verdict first, where the report lies last.

import type { CheckJson, FindingJson, Report } from "../src/report.js";
import { inWords, type Language } from "../src/words.js";
import { tasteSentences } from "./check-taste.js";
import { wayTitle, wayTraits } from "./check-ways.js";
import { wishSentences } from "./wish-words.js";
import { chosenWords, count, SEVERITY_WORD, WORST_FIRST } from "./words.js";

/** Where the outputs went; null for none. */
export interface Written {
  readonly report: string | null;
  readonly json: string | null;
  readonly score: string | null;
  readonly certificate: string | null;
  readonly audio: string | null;
}

/** At most this many findings are named; the report has all. */
const NAMED_FINDINGS = 6;
/** Longer lines are cut between words: the report has the whole. */
const LINE_WIDTH = 200;

/** The summary of `huipath check`. */
export function checkSummary(report: Report, written: Written, language: Language = "en"): string {
  const { json } = report;
  const figures = report.figures.map((figure) => `${figure.value} ${figure.label}`).join(", ");
  const { total } = json.fingering;
  const perNote = (total.effort / Math.max(1, json.score.notes)).toFixed(2);
  const said = [
    json.score.title ?? json.score.file,
    json.verdict.sentence,
    ...report.line,
    ...chosenLine(json.setting),
    `${figures}.`,
    `Effort: ${total.effort} spare moves, ${perNote} a note (${report.reading}).`,
    ...comparisonLine(json),
    ...wishSentences(report),
    ...wayLines(json),
    ...tasteLine(json),
    ...findingLines(json),
    ...(json.unread.length > 0
      ? [
          `Not everything was read: ${json.unread[0]?.what}${json.unread.length > 1 ? ` (and ${json.unread.length - 1} more)` : ""}.`,
        ]
      : []),
  ];
  const lines = [
    ...said.map((one) => cut(inWords(one, language))),
    ...(written.report !== null && written.report !== "-" ? [`Report: ${written.report}`] : []),
    ...(written.json !== null && written.json !== "-" ? [`JSON: ${written.json}`] : []),
    ...(written.score !== null && written.score !== "-" ? [`Annotated score: ${written.score}`] : []),
    ...(written.certificate !== null && written.certificate !== "-" ? [`Certificate: ${written.certificate}`] : []),
    ...(written.audio !== null && written.audio !== "-" ? [`Sound: ${written.audio}`] : []),
  ];
  return `${lines.join("\n")}\n`;
}

/** Which setting was chosen, where none was named. */
function chosenLine(setting: CheckJson["setting"]): readonly string[] {
  if (setting.chosenFrom === null) return [];
  return [`Setting: ${setting.tuning}, ${setting.transpose} semitones${chosenWords(setting)}.`];
}

/** "Yours costs 41 spare moves, with 3 changes 19, the best found 14." */
function comparisonLine(json: CheckJson): readonly string[] {
  const { better, total } = json.fingering;
  if (better === null) return [];
  if (better.length === 0) return ["No fingering costs less than the written one."];
  const cost = (one: CheckJson["fingering"]["total"]): string =>
    one.blocked > 0 ? `${one.effort} with ${one.blocked} left out` : `${one.effort}`;
  const steps = better.map(
    (line, i) =>
      `${i === better.length - 1 ? "the best found" : "another"}, with ${count(line.changes.length, "change")}, ${cost(line.total)}`,
  );
  return [`As written ${cost(total)} spare moves; ${steps.join("; ")}.`];
}

/** One line for each other way to play the whole. */
function wayLines(json: CheckJson): readonly string[] {
  const [first, ...others] = json.fingering.ways ?? [];
  if (first === undefined) return [];
  return others.map((way) => `Another way: ${wayTitle(way, first)}. ${wayTraits(way)}`.trim());
}

/** What other weights of the rules would change. */
function tasteLine(json: CheckJson): readonly string[] {
  const sentences = tasteSentences(json);
  return sentences.length === 0 ? [] : [`Taste: ${sentences.join(" ")}`];
}

/** What is open, worst first, and how much is left alone on purpose; a blocker is told whoever accepts it. */
function findingLines({ findings }: CheckJson): readonly string[] {
  const told = findings.filter(({ status, severity }) => status !== "accepted" || severity === "blocker");
  const open = told.filter(({ followsFrom }) => followsFrom === null);
  const left = findings.length - told.length;
  const following = told.length - open.length;
  const alone = left === 0 ? [] : [`Left alone on purpose: ${count(left, "finding")}, listed in the report.`];
  if (open.length === 0) return ["No findings.", ...alone];
  const counts = WORST_FIRST.map((severity) => {
    const n = open.filter((finding) => finding.severity === severity).length;
    return n === 0 ? "" : `${n} ${SEVERITY_WORD[severity]}`;
  }).filter((text) => text !== "");
  const worst = [...open].sort((a, b) => WORST_FIRST.indexOf(a.severity) - WORST_FIRST.indexOf(b.severity));
  const named = worst.slice(0, NAMED_FINDINGS).map(findingLine);
  const rest = open.length - named.length;
  const more = rest > 0 ? [`  ... and ${rest} more in the report`] : [];
  const behind =
    following === 0
      ? []
      : [`  ${following} more ${following === 1 ? "follows" : "follow"} from what holds for the whole line`];
  return [`Findings: ${counts.join(", ")}.`, ...named, ...more, ...behind, ...alone];
}

function findingLine(finding: FindingJson): string {
  const where = finding.bar === null ? "whole line" : `bar ${finding.bar}, beat ${finding.beat}`;
  return `  ${where}: ${finding.message}`;
}

function cut(line: string): string {
  if (line.length <= LINE_WIDTH) return line;
  return `${line.slice(0, line.lastIndexOf(" ", LINE_WIDTH - 2)).replace(/[,;:]$/, "")} …`;
}
