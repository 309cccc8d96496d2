// SPDX-License-Identifier: AGPL-3.0-or-later
// The findings part of the page: one entry per rule with all its places, so that a long list stays calm.
import type { CheckJson, FindingJson, Report, RuleText } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import { anchor, barAnchors } from "./anchors.js";
import type { NoteMark } from "./check-score.js";
import { count, effectOf, hundredths, KINDS, moves, SEVERITY_WORD, WORST_FIRST } from "./words.js";

/** Places of an entry that stand open, the worst ones; the others unfold. Both in order of the melody. */
const OPEN_PLACES = 3;

interface PlaceView {
  readonly id: string;
  readonly where: string;
  /** empty for a finding on the whole line */
  readonly href: string;
  readonly severity: Severity;
  readonly word: string;
  readonly message: string;
  /** the price with what it is a part of; empty when nothing is charged */
  readonly cost: string;
  /** what was computed for this place; empty without */
  readonly remedy: string;
  /** why it is left alone; empty without */
  readonly reason: string;
}

interface EntryView {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly severity: Severity;
  readonly word: string;
  readonly effect: string;
  readonly places: string;
  readonly why: string;
  readonly remedy: string;
  readonly principle: string;
  readonly whenRight: string;
  readonly shown: readonly PlaceView[];
  readonly folded: readonly PlaceView[];
  readonly foldedLabel: string;
}

/** What the findings template prints. */
export interface FindingsView {
  readonly groups: readonly {
    readonly title: string;
    readonly about: string;
    readonly entries: readonly EntryView[];
  }[];
  readonly accepted: readonly PlaceView[];
  readonly unsure: readonly PlaceView[];
  /** open findings by severity, worst first, those with none left out */
  readonly counts: readonly { readonly severity: Severity; readonly word: string; readonly places: string }[];
  readonly marks: ReadonlyMap<string, NoteMark>;
}

/** Groups and numbers the findings. */
export function viewFindings(report: Report): FindingsView {
  const order = placeOrder(report);
  const inOrder = [...report.json.findings].sort((a, b) => order(a) - order(b));
  const open = inOrder.filter((finding) => finding.status === "open");
  const hrefs = barHrefs(report);
  const place = (finding: FindingJson): PlaceView => viewPlace(finding, report.json, hrefs);
  let next = 1;
  const groups = KINDS.flatMap(({ kind, title, about }) => {
    const ofKind = open.filter((finding) => finding.kind === kind);
    const rules = [...new Set(ofKind.map((finding) => finding.rule))];
    const entries = rules
      .map((rule) => ofKind.filter((finding) => finding.rule === rule))
      .sort((a, b) => rank(worst(a)) - rank(worst(b)))
      .map((list) => viewEntry(list, next++, report.rules, place));
    return entries.length === 0 ? [] : [{ title, about, entries }];
  });
  return {
    groups,
    accepted: inOrder.filter((finding) => finding.status === "accepted").map(place),
    unsure: inOrder.filter((finding) => finding.status === "unsure").map(place),
    counts: WORST_FIRST.flatMap((severity) => {
      const n = open.filter((finding) => finding.severity === severity).length;
      return n === 0 ? [] : [{ severity, word: SEVERITY_WORD[severity], places: count(n, "place") }];
    }),
    marks: markNotes(open, new Map(groups.flatMap(({ entries }) => entries.map((e) => [e.id, e.number] as const)))),
  };
}

const rank = (severity: Severity): number => WORST_FIRST.indexOf(severity);

function worst(findings: readonly FindingJson[]): Severity {
  return WORST_FIRST.find((severity) => findings.some((finding) => finding.severity === severity)) ?? "note";
}

/** Findings by the place of their last note in the melody; those on the whole line come first. */
function placeOrder(report: Report): (finding: FindingJson) => number {
  const index = new Map(report.score.notes.map((note, i) => [note.id, i]));
  return (finding) => index.get(finding.notes.at(-1) ?? "") ?? -1;
}

/** The link to the bar of a note, by note id. */
function barHrefs(report: Report): ReadonlyMap<string, string> {
  const anchors = barAnchors(report.score);
  return new Map(report.score.notes.map((note) => [note.id, `#${anchors[note.bar]}`]));
}

function viewPlace(finding: FindingJson, json: CheckJson, hrefs: ReadonlyMap<string, string>): PlaceView {
  const beat = finding.beat === null ? "" : `, beat ${finding.beat}`;
  return {
    id: anchor("f", finding.id),
    where: finding.bar === null ? "The whole line" : `Bar ${finding.bar}${beat}`,
    href: hrefs.get(finding.notes.at(-1) ?? "") ?? (finding.bar === null ? "" : `#${anchor("bar", finding.bar)}`),
    severity: finding.severity,
    word: SEVERITY_WORD[finding.severity],
    message: finding.message,
    cost: costWords(finding, json),
    remedy: finding.remedy === null ? "" : `${finding.remedy.text} ${afterwards(finding.remedy, json)}`,
    reason: finding.reason ?? "",
  };
}

function costWords(finding: FindingJson, json: CheckJson): string {
  if (finding.blocked > 0) return "Stops the line here.";
  if (finding.effort === 0) return "";
  return `Costs ${moves(finding.effort)} of the line's ${hundredths(json.fingering.total.effort)}.`;
}

function afterwards(remedy: NonNullable<FindingJson["remedy"]>, json: CheckJson): string {
  const { total } = json.fingering;
  if (remedy.blockedAfter < total.blocked) {
    const left = remedy.blockedAfter;
    return left === 0
      ? `Then everything can be played, for ${moves(remedy.effortAfter)}.`
      : `Then ${count(left, "place")} still cannot be played.`;
  }
  return `Then the line costs ${moves(remedy.effortAfter)} instead of ${hundredths(total.effort)}.`;
}

function viewEntry(
  list: readonly FindingJson[],
  number: number,
  rules: readonly RuleText[],
  place: (finding: FindingJson) => PlaceView,
): EntryView {
  const first = list[0] as FindingJson;
  const rule = rules.find(({ id }) => id === first.rule);
  const severity = worst(list);
  const open = new Set([...list].sort((a, b) => rank(a.severity) - rank(b.severity)).slice(0, OPEN_PLACES));
  const rest = list.filter((finding) => !open.has(finding));
  const bars = [...new Set(rest.map((finding) => finding.bar))].filter((bar) => bar !== null);
  return {
    id: anchor("rule", first.rule),
    number,
    title: rule?.title ?? first.rule,
    severity,
    word: SEVERITY_WORD[severity],
    effect: effectOf(first.rule, first.kind),
    places: count(list.length, "place"),
    why: rule?.why ?? "",
    remedy: rule?.remedy ?? "",
    principle: rule?.principle ?? "",
    whenRight: rule?.whenRight ?? "",
    shown: list.filter((finding) => open.has(finding)).map(place),
    folded: rest.map(place),
    foldedLabel: `${count(rest.length, "more place")}${bars.length === 0 ? "" : `: ${bars.length === 1 ? "bar" : "bars"} ${bars.join(", ")}`}`,
  };
}

/** The mark above a note is that of its worst finding; a finding over several notes is marked on the last. */
function markNotes(open: readonly FindingJson[], numbers: ReadonlyMap<string, number>): ReadonlyMap<string, NoteMark> {
  const byNote = new Map<string, FindingJson[]>();
  for (const finding of open) {
    const note = finding.notes.at(-1);
    if (note !== undefined) byNote.set(note, [...(byNote.get(note) ?? []), finding]);
  }
  return new Map(
    [...byNote].map(([note, list]) => {
      const [first] = [...list].sort((a, b) => rank(a.severity) - rank(b.severity)) as [FindingJson];
      const entry = numbers.get(anchor("rule", first.rule)) ?? 0;
      const more = new Set(list.map((finding) => finding.rule)).size - 1;
      const others = more === 0 ? "" : `, and ${more} more here`;
      const label = `Finding ${entry}, ${SEVERITY_WORD[first.severity]}: ${first.message}${others}`;
      return [note, { severity: first.severity, entry, more, href: `#${anchor("f", first.id)}`, label }];
    }),
  );
}
