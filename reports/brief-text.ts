// SPDX-License-Identifier: AGPL-3.0-or-later
// A brief to start from: the setting as it is, and what was found as answers that only need their comment sign removed.

import { stringify } from "yaml";
import type { FindingJson, NoteJson, Report } from "../src/report.js";
import { inWords } from "../src/words.js";

/** At most this many single findings are offered for acceptance. */
const MOST_ACCEPTANCES = 40;

/**
 * The text of a brief that changes nothing as it stands.
 *
 * @example briefText(report) // "# made by huipath ...\ntuning: zhengdiao\n..."
 */
export function briefText(report: Report): string {
  const { score, setting, findings } = report.json;
  const open = findings.filter((finding) => finding.status === "open" && finding.bar !== null);
  const knots = open.filter((finding) => finding.rule === "knot" || finding.rule === "knot-in-song");
  const others = open.filter((finding) => !knots.includes(finding) && finding.severity !== "blocker");
  return [
    `# made by huipath for ${oneLine(score.title ?? score.file)}: edit it, then huipath check SCORE --brief THIS-FILE`,
    stringify({
      tuning: setting.tuning,
      transpose: setting.transpose,
      temperament: setting.temperament,
      hand: setting.hand,
    }).trimEnd(),
    score.tempoAssumed
      ? `# tempo: ${score.tempo}   # assumed: the score gives none`
      : `# tempo: ${score.tempo}   # as the score says`,
    ...knotLines(knots, report.json.fingering.notes),
    ...acceptLines(others, report.json.fingering.notes),
    ...pinLines(report.json.fingering.notes),
    "",
  ].join("\n");
}

const oneLine = (text: string): string => text.replace(/\s+/g, " ").trim();

/** For each knot both answers. */
function knotLines(knots: readonly FindingJson[], notes: readonly NoteJson[]): readonly string[] {
  if (knots.length === 0) return ["# passages:", "#   - { bars: 1-4, character: flowing }"];
  return [
    "# Awkward moves crowd together here. Say for each how the passage is meant: take one line of each pair.",
    "# passages:",
    ...knots.flatMap((knot) => {
      const bars = barsOf(knot, notes);
      return [
        `#   - { bars: ${bars}, character: flowing }`,
        `#   - { bars: ${bars}, character: struggling, reason: say why }`,
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

/** A label that YAML would read as something else is quoted. */
const quoted = (label: string): string => stringify(label).trim();

function acceptLines(findings: readonly FindingJson[], notes: readonly NoteJson[]): readonly string[] {
  if (findings.length === 0) return [];
  const seen = new Set<string>();
  const lines = findings.flatMap((finding) => {
    const line = `#   - { rule: ${finding.rule}, bars: ${barsOf(finding, notes)}, reason: say why }`;
    if (seen.has(line)) return [];
    seen.add(line);
    return [`#   # ${oneLine(inWords(finding.message, "en"))}`, line];
  });
  return [
    "# What is meant to be so: accept the rule over the bars, with the reason.",
    "# accept:",
    ...lines.slice(0, 2 * MOST_ACCEPTANCES),
  ];
}

/** The fingering of the first bar as pins, to show their form. */
function pinLines(notes: readonly NoteJson[]): readonly string[] {
  const first = notes.find((note) => note.stroke !== null && note.chord === null && !note.grace);
  if (first === undefined) return [];
  const place =
    first.position === null
      ? "sound: open"
      : first.sound === "harmonic"
        ? `sound: harmonic, position: ${first.position}`
        : `position: ${first.position}, finger: ${first.finger}`;
  return [
    "# A note that must be played in one way; leave out what the search may choose.",
    "# pins:",
    `#   - { bar: ${quoted(first.bar)}, beat: ${first.beat}, string: ${first.string}, ${place}, stroke: ${first.stroke} }`,
  ];
}
