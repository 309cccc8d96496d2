// SPDX-License-Identifier: AGPL-3.0-or-later
// A brief to start from: the setting as it is, and what was found as answers that only need their comment sign removed.

import { stringify } from "yaml";
import type { FindingJson, NoteJson, Report } from "../src/report.js";
import {
  inWords,
  type Language,
  oneLine,
  type Phrase,
  phrase,
  phraseOf,
  printable,
  printableJson,
  type Said,
} from "../src/words.js";

/** At most this many single findings are offered for acceptance. */
const MOST_ACCEPTANCES = 40;

/**
 * The text of a brief that changes nothing as it stands. Its keys are the same in every language; its comments and what
 * a person is to fill in are in the one asked for.
 *
 * @example briefText(report) // "# made by huipath ...\ntuning: zhengdiao\n..."
 */
export function briefText(report: Report, language: Language = "en"): string {
  const { score, setting, findings } = report.json;
  const open = findings.filter((finding) => finding.status === "open" && finding.bar !== null);
  const knots = open.filter((finding) => finding.rule === "knot" || finding.rule === "knot-in-song");
  const others = open.filter((finding) => !knots.includes(finding) && finding.severity !== "blocker");
  const name = oneLine(score.title ?? score.file);
  const lines: readonly Said[] = [
    phrase(
      `# made by huipath for ${name}: edit it, then huipath check SCORE --brief THIS-FILE`,
      `# 由huipath为《${name}》而写：改好之后运行huipath check 乐谱 --brief 本文件`,
    ),
    `tuning: ${scalar(setting.tuning)}`,
    `transpose: ${setting.transpose}`,
    `temperament: ${setting.temperament}`,
    `hand: ${scalar(setting.hand)}`,
    score.tempoAssumed
      ? phrase(
          `# tempo: ${score.tempo}   # assumed: the score gives none`,
          `# tempo: ${score.tempo}   # 假定：乐谱没有标速度`,
        )
      : phrase(`# tempo: ${score.tempo}   # as the score says`, `# tempo: ${score.tempo}   # 乐谱所标`),
    ...knotLines(knots, report.json.fingering.notes),
    ...acceptLines(others, report.json.fingering.notes),
    ...pinLines(report.json.fingering.notes),
    "",
  ];
  return lines.map((line) => inWords(line, language)).join("\n");
}

/** For each knot both answers. */
function knotLines(knots: readonly FindingJson[], notes: readonly NoteJson[]): readonly Said[] {
  if (knots.length === 0) return ["# passages:", "#   - { bars: 1-4, character: flowing }"];
  return [
    phrase(
      "# Awkward moves crowd together here. Say for each how the passage is meant: take one line of each pair.",
      "# 这些地方别扭的动作挤在一起。请说明各段本意：每两行取一行。",
    ),
    "# passages:",
    ...knots.flatMap((knot) => {
      const bars = barsOf(knot, notes);
      return [
        `#   - { bars: ${bars}, character: flowing }`,
        withReason(`#   - { bars: ${bars}, character: struggling`),
      ];
    }),
  ];
}

/** The bars of a finding's notes as the brief names them. */
function barsOf(finding: FindingJson, notes: readonly NoteJson[]): string {
  const bars = finding.notes.flatMap((id) => notes.find((note) => note.id === id)?.bar ?? []);
  const [first = "", last = first] = [bars[0], bars.at(-1)];
  return quoted(first === last ? first : `${first}-${last}`);
}

/** A label that YAML would read as something else, or that would end the mapping around it, is quoted. */
function quoted(label: string): string {
  const plain = stringify(label).trim();
  return PLAIN_LABEL.test(plain) ? plain : inQuotes(label);
}

/** A text behind its key, on one line; in quotes where YAML needs them or it holds what would not be seen. */
function scalar(text: string): string {
  return printable(text) === text ? stringify(text, { lineWidth: 0 }).trim() : inQuotes(text);
}

/** JSON's strings are YAML's between double quotes. */
function inQuotes(text: string): string {
  return printableJson(JSON.stringify(text));
}

/** What needs no quotes inside braces and keeps its line; and what YAML itself has quoted because it is a number. */
const PLAIN_LABEL = /^(?:[\p{L}\p{N}_.-]+|"[\p{N}.-]+")$/u;

/** An entry whose reason is to be filled in. */
const withReason = (entry: string): Phrase => phrase(`${entry}, reason: say why }`, `${entry}, reason: 说明理由 }`);

function acceptLines(findings: readonly FindingJson[], notes: readonly NoteJson[]): readonly Said[] {
  if (findings.length === 0) return [];
  const seen = new Set<string>();
  const lines = findings.flatMap((finding) => {
    const line = withReason(`#   - { rule: ${finding.rule}, bars: ${barsOf(finding, notes)}`);
    if (seen.has(line.en)) return [];
    seen.add(line.en);
    const message = phraseOf({
      en: (say) => `#   # ${oneLine(say(finding.message))}`,
      zh: (say) => `#   # ${oneLine(say(finding.message))}`,
    });
    return [message, line];
  });
  return [
    phrase(
      "# What is meant to be so: accept the rule over the bars, with the reason.",
      "# 本意如此之处：写明规则、小节和理由，表示认可。",
    ),
    "# accept:",
    ...lines.slice(0, 2 * MOST_ACCEPTANCES),
  ];
}

/** The fingering of the first bar as pins, to show their form. */
function pinLines(notes: readonly NoteJson[]): readonly Said[] {
  const first = notes.find((note) => note.stroke !== null && note.chord === null && !note.grace);
  if (first === undefined) return [];
  const place =
    first.position === null
      ? "sound: open"
      : first.sound === "harmonic"
        ? `sound: harmonic, position: ${first.position}`
        : `position: ${first.position}, finger: ${first.finger}`;
  return [
    phrase(
      "# A note that must be played in one way; leave out what the search may choose.",
      "# 必须照某种弹法弹的音；可由搜索决定的各项不必写。",
    ),
    "# pins:",
    `#   - { bar: ${quoted(first.bar)}, beat: ${first.beat}, string: ${first.string}, ${place}, stroke: ${first.stroke} }`,
  ];
}
