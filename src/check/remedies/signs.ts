// SPDX-License-Identifier: AGPL-3.0-or-later
// Whether a finding is still there after a change, and what a change makes worse.

import { SEVERITIES, type Severity } from "../../rule/types.js";
import { chargesOf, type Played } from "../../search/charges.js";
import { joined, phrase, phraseOf, type Said } from "../../words.js";
import { check, type Finding, severityOf, type Verdicts } from "../check.js";
import type { Remediable } from "./line.js";
import { placeWords } from "./words.js";

/** What tells findings of two lines apart: the rule and the notes. */
export interface Sign {
  readonly rule: string;
  /** the owner of a charge; all notes of a finding that a rule of the whole line makes; empty for the whole line */
  readonly notes: readonly string[];
  readonly severity: Severity;
}

/** The sign of a finding. */
function signOf(finding: Finding): Sign {
  const { rule, notes, at, place, severity } = finding;
  return { rule, notes: at === null || place === null ? notes : [place], severity };
}

/** The open findings of a line. */
export function signsOf({ findings }: Verdicts): readonly Sign[] {
  return findings.filter(({ status }) => status === "open").map(signOf);
}

/** Whether two signs speak of one thing; of two stretches the one may end on the note on which the other begins. */
function isSame(a: Sign, b: Sign): boolean {
  if (a.rule !== b.rule) return false;
  const shorter = Math.min(a.notes.length, b.notes.length);
  return shorter === 0 || a.notes.filter((note) => b.notes.includes(note)).length >= Math.min(2, shorter);
}

/** Whether a finding is still there among those of another line with the same notes. */
export function remains(finding: Finding, verdicts: Pick<Verdicts, "findings">): boolean {
  const sign = signOf(finding);
  return verdicts.findings.some((one) => isSame(sign, signOf(one)));
}

/** Whether a line breaks the finding's own rule at its place. */
export function remainsIn(then: Played, finding: Finding, line: Remediable): boolean {
  const rules = line.rules.filter(({ id }) => id === finding.rule);
  const { score, setting, brief, weighting } = line;
  if (finding.at === null)
    return remains(finding, check(then, score, setting, rules, { brief, weighting, crashed: NONE_CRASHED }));
  return chargesOf(then, rules, weighting, finding.at, finding.at).some(
    (charge) => severityOf(charge) !== null && charge.notes.at(-1) === finding.place,
  );
}

const NONE_CRASHED: ReadonlyMap<string, string> = new Map();

/** The findings of a line of the same notes that is played otherwise between two moments only. */
export function signsBetween(then: Played, from: number, to: number, line: Remediable): readonly Sign[] {
  const { score, setting, rules, brief, weighting } = line;
  const local = chargesOf(then, rules, weighting, from, to).flatMap((charge): Sign[] => {
    const severity = severityOf(charge);
    return severity === null ? [] : [{ rule: charge.rule.id, notes: charge.notes.slice(-1), severity }];
  });
  const passages = rules.filter(({ reach }) => reach === "passage");
  const whole = check(then, score, setting, passages, { brief, weighting, crashed: NONE_CRASHED });
  return [...local, ...signsOf(whole)];
}

const rank = (sign: Sign): number => SEVERITIES.indexOf(sign.severity);

/** Findings that the line before did not have, or not so severe; the worst first. */
export function fresh(after: readonly Sign[], { findings }: Verdicts): readonly Sign[] {
  const before = findings.map(signOf);
  return after
    .filter((sign) => !before.some((one) => isSame(one, sign) && rank(one) >= rank(sign)))
    .sort((a, b) => rank(b) - rank(a));
}

/** What a change makes worse, in words that name the worst; empty where nothing new is to be found. */
export function worseWords(worse: readonly Sign[], line: Remediable): Said {
  const [first] = worse;
  if (first === undefined) return "";
  const place = placeWords(first.notes.at(-1), line);
  const others = worse.length - 1;
  const more = others > 0 ? phrase(`and ${others} more`, `另有${others}处`) : "";
  const places = [place, more].filter((word) => word !== "");
  const [title, where] = [titleOf(first.rule, line), joined(places, phrase(", ", "，"))];
  return phraseOf({
    en: (say) => ` But then: ${say(title)}${places.length === 0 ? "" : ` (${say(where)})`}.`,
    zh: (say) => `但随之而来：${say(title)}${places.length === 0 ? "" : `（${say(where)}）`}。`,
  });
}

/**
 * What comes oftener in another setting, in words that name the worst: there every note may be played otherwise, so
 * places are counted by rule.
 */
export function oftenerWords(after: Verdicts, line: Remediable): Said {
  const then = signsOf(after);
  const now = signsOf(line.verdicts);
  const rules = [...new Set(then.map(({ rule }) => rule))].flatMap((rule) => {
    const more = countOf(rule, then) - countOf(rule, now);
    const worst = Math.max(...then.filter((sign) => sign.rule === rule).map(rank));
    return more > 0 ? [{ rule, more, worst }] : [];
  });
  const [first, ...others] = rules.sort((a, b) => b.worst - a.worst || b.more - a.more);
  if (first === undefined) return "";
  const come = others.length === 1 ? "kind of finding comes" : "kinds of finding come";
  const kinds =
    others.length === 0
      ? ""
      : phrase(`; ${others.length} other ${come} oftener too`, `；另有${others.length}种发现也增多`);
  const places = first.more === 1 ? "one place more" : `${first.more} places more`;
  const title = titleOf(first.rule, line);
  return phraseOf({
    en: (say) => ` But then: ${say(title)} (${places})${say(kinds)}.`,
    zh: (say) => `但随之而来：${say(title)}（多${first.more}处）${say(kinds)}。`,
  });
}

const countOf = (rule: string, signs: readonly Sign[]): number => signs.filter((sign) => sign.rule === rule).length;

function titleOf(rule: string, line: Remediable): Said {
  return line.rules.find(({ id }) => id === rule)?.title ?? rule;
}
