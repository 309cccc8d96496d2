// SPDX-License-Identifier: AGPL-3.0-or-later
// A fingering and the rule book: findings, and what each rule looked at. The numbers are those that the search charged.
import { type Brief, NO_BRIEF } from "../model/brief.js";
import { spokenForm } from "../model/fingering.js";
import type { Moment } from "../model/moments.js";
import { pitchName } from "../model/pitch.js";
import type { Left, Placed, Right } from "../model/playing.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { printedPosition } from "../model/written-place.js";
import { reasonToLeave } from "../rule/acceptance.js";
import { addCost, type Cost, FREE } from "../rule/cost.js";
import type { Explained, LocalRuleBody, PassageRule, Rule, RuleKind, Severity, Sight } from "../rule/types.js";
import { PLAIN_WEIGHTING, type Weighting } from "../rule/weighting.js";
import { type Charge, chargesOf, type Played } from "../search/charges.js";
import { inWords, joined, type Said } from "../words.js";
import { tracedToCauses } from "./causes.js";
import { completedWords, isPartlyGiven } from "./completed.js";
import { severityFor } from "./strict.js";

/** A place that breaks a rule. */
export interface Finding {
  readonly rule: string;
  readonly kind: RuleKind;
  readonly severity: Severity;
  /** ids, the owner last; empty for the whole line */
  readonly notes: readonly string[];
  /** the note where a reader should look: the owner of a charge, the first of a passage; null for the whole line */
  readonly place: string | null;
  /** moments of the charge, where the finding stands on one */
  readonly from: number | null;
  readonly at: number | null;
  readonly measured: number | null;
  readonly limit: number | null;
  readonly unit: string | null;
  readonly message: Said;
  readonly cost: Cost;
  /** accepted: left alone on purpose, for the reason given */
  readonly status: "open" | "accepted";
  readonly reason: string | null;
  /** what follows from it; null for nothing */
  readonly explains: Explained | null;
  /** the rule whose finding about the whole line explains this one; null for none */
  readonly followsFrom: string | null;
}

/** What the check knows beside the line itself. */
export interface Wishes {
  readonly brief: Brief;
  readonly weighting: Weighting;
  /** messages of rules that failed in the search, by id: they are tallied, not asked again */
  readonly crashed: ReadonlyMap<string, string>;
}

/** Nothing wished, nothing crashed. */
const NO_WISHES: Wishes = { brief: NO_BRIEF, weighting: PLAIN_WEIGHTING, crashed: new Map() };

/** What one rule did. */
export interface Tally {
  readonly rule: string;
  readonly looked: number;
  readonly open: number;
  readonly accepted: number;
  /** the message of a rule that failed; null otherwise */
  readonly crashed: string | null;
}

/** A fingering judged by the whole book. */
export interface Verdicts {
  /** by bar and note, within a note in the order of the book */
  readonly findings: readonly Finding[];
  /** one a rule, in the order of the book */
  readonly tallies: readonly Tally[];
  /** every charge above zero */
  readonly bill: readonly Charge[];
  readonly total: Cost;
}

/**
 * Judges a line.
 *
 * @param played  the moments and both hands
 * @param rules   the book made for the setting
 * @param wishes  the brief and its weighting
 */
export function check(
  played: Played,
  score: Score,
  setting: Setting,
  rules: readonly Rule[],
  wishes: Wishes = NO_WISHES,
): Verdicts {
  const { brief, crashed } = wishes;
  const sound = rules.filter((rule) => !crashed.has(rule.id));
  const charges = chargesOf(played, sound, wishes.weighting);
  const order = new Map(score.notes.map((note, i) => [note.id, i]));
  const findings: Finding[] = [];
  const settle = settler(played, brief);
  const costs = charges.map(({ rule, at, cost, charge }) => ({
    rule: rule.id,
    at,
    effort: cost.effort / 1000,
    own: charge,
  }));
  const tallies = rules.map((rule): Tally => {
    const failed = crashed.get(rule.id);
    if (failed !== undefined) return { rule: rule.id, looked: 0, open: 0, accepted: 0, crashed: failed };
    const line = { ...played, score, setting, brief, charges: costs, found: findings };
    const mine = rule.reach === "passage" ? look(rule, line) : judge(rule, charges, played);
    const settled = mine.findings.map(settle);
    findings.push(...settled);
    const accepted = settled.filter((finding) => finding.status === "accepted").length;
    return { rule: rule.id, looked: mine.looked, open: settled.length - accepted, accepted, crashed: mine.crashed };
  });
  const place = (finding: Finding): number => order.get(finding.place ?? "") ?? -1;
  const bill = charges.filter((charge) => charge.cost.blocked > 0 || charge.cost.effort > 0);
  return {
    findings: tracedToCauses(findings).toSorted((a, b) => place(a) - place(b)),
    tallies,
    bill,
    total: bill.reduce((sum, charge) => addCost(sum, charge.cost), FREE),
  };
}

/** A finding before it is known whether it is left alone. */
type Raw = Omit<Finding, "status" | "reason" | "followsFrom">;

/** Says of a finding whether it is left alone on purpose. */
function settler(played: Played, brief: Brief): (raw: Raw) => Finding {
  const momentOf = new Map(played.moments.flatMap((moment) => moment.notes.map((note) => [note.source.id, moment])));
  return (raw) => {
    const concerned = raw.notes.flatMap((id) => momentOf.get(id) ?? []);
    const reason = reasonToLeave({ id: raw.rule, kind: raw.kind }, concerned, brief);
    return { ...raw, reason, status: reason === null ? "open" : "accepted", followsFrom: null };
  };
}

type Judged = { readonly looked: number; readonly findings: readonly Raw[]; readonly crashed: string | null };

function judge(rule: Rule & LocalRuleBody, charges: readonly Charge[], played: Played): Judged {
  const mine = charges.filter((charge) => charge.rule === rule);
  const partly = isPartlyGiven(played);
  const findings = mine.flatMap((charge): Raw[] => {
    const severity = severityOf(charge);
    if (severity === null) return [];
    const { measured, limit, notes, cost } = charge;
    const { from, at } = charge;
    const told = rule.message(sightOf(charge, played));
    // A message quotes a reading letter for letter in English, so that there it shows which are quoted.
    const english = inWords(told, "en");
    const quoted = [from ?? at, at].filter((one) => partly && english.includes(readingAt(played, one) || "\n"));
    const message = joined([told, completedWords(quoted, played)]);
    const base = {
      rule: rule.id,
      kind: rule.kind,
      severity,
      notes,
      place: notes.at(-1) ?? null,
      from,
      at,
      message,
      cost,
      explains: null,
    };
    return [{ ...base, ...(rule.unit === null ? UNMEASURED : { measured, limit, unit: rule.unit }) }];
  });
  return { looked: mine.length, findings, crashed: null };
}

const UNMEASURED = { measured: null, limit: null, unit: null } as const;

/** The severity of a charge; null where it is none. */
export function severityOf(charge: Charge): Severity | null {
  if (charge.cost.blocked > 0) return "blocker";
  return severityFor(charge.rule, charge.measured, charge.limit, charge.charge);
}

/** What the message of a charge may speak of. */
function sightOf(charge: Charge, played: Played): Sight {
  const { at, from, measured, limit } = charge;
  const moment = played.moments[at] as Moment;
  const note = moment.notes.find((one) => one.source.id === charge.notes.at(-1)) ?? moment.notes[0];
  const placed = (played.lefts[at] as Left).placed.find((one) => moment.notes[one.note] === note);
  const alone = charge.rule.reach === "place" && placed !== undefined;
  const before = from === null ? null : (played.moments[from] as Moment);
  return {
    measured,
    limit,
    charge: charge.charge,
    wanted: note ?? null,
    placed: placed ?? null,
    note: note === undefined ? "" : pitchName(note.sounding),
    noteBefore: before === null ? "" : before.notes.map((one) => pitchName(one.sounding)).join(" + "),
    spoken: alone ? readingOf(played, at, placed) : readingAt(played, at),
    written: note?.given.text ?? "",
    spokenBefore: from === null ? "" : readingAt(played, from),
    seconds: moment.gapSeconds,
  };
}

/** The spoken reading of a moment; both strings of a pinch. Empty where nothing is placed. */
export function readingAt(played: Played, at: number): string {
  return (played.lefts[at] as Left).placed.map((placed) => readingOf(played, at, placed)).join(" + ");
}

/** The spoken reading of one placed note. */
export function readingOf(played: Played, at: number, placed: Placed): string {
  const left = played.lefts[at] as Left;
  const previous = at === 0 ? null : (played.lefts[at - 1]?.first ?? null);
  const right = played.rights[at] as Right;
  const given = played.moments[at]?.notes[placed.note]?.given;
  return spokenForm({
    ...placed,
    position: printedPosition(placed, given?.position ?? null),
    arrival: left.arrival,
    stroke: left.chain > 0 ? null : strokeOn(right, placed),
    figure: right.figure?.name ?? null,
    across: right.figure?.across ?? null,
    entry: given?.entry ?? null,
    ornament: given?.ornament ?? null,
    previous: previous === null ? null : { position: previous.position, finger: previous.finger },
    thumbStroke: played.moments[at]?.thumbStroke ?? "bo",
  });
}

/** The stroke that sounds a placed note: of a pinch the one on its string. */
export function strokeOn(right: Right, placed: Placed): Right["stroke"] {
  return right.innerStroke !== null && placed.string === right.strings.inner ? right.innerStroke : right.stroke;
}

function look(rule: Rule & PassageRule, line: Parameters<PassageRule["look"]>[0]): Judged {
  try {
    const { looked, findings } = rule.look(line);
    const base = { rule: rule.id, kind: rule.kind, cost: FREE, from: null, at: null };
    return {
      looked,
      findings: findings.map((found) => ({
        ...base,
        ...found,
        explains: found.explains ?? null,
        place: found.notes[0] ?? null,
        unit: found.measured === null ? null : rule.unit,
      })),
      crashed: null,
    };
  } catch (error) {
    return { looked: 0, findings: [], crashed: error instanceof Error ? error.message : String(error) };
  }
}
