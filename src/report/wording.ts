// SPDX-License-Identifier: AGPL-3.0-or-later
// The sentences of the summary.

import type { Severity } from "../rule/types.js";
import type { Said } from "../words.js";

/** "1 note", "3 notes". */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** Plain words for effort per note: under 0.2 lies well, under 0.4 playable, under 0.8 laboured, else rewrite (our judgement). */
export function effortReading(perNote: number): string {
  if (perNote < 0.2) return "lies well";
  if (perNote < 0.4) return "playable, with some extra moves";
  if (perNote < 0.8) return "laboured";
  return "better rewritten";
}

/** What the verdict is made from. */
export interface VerdictFacts {
  readonly notes: number;
  readonly blocked: number;
  readonly effortPerNote: number;
  readonly severities: Readonly<Record<Severity, number>>;
  readonly tuning: string;
  readonly transposition: string;
  readonly submitted: boolean;
  /** notes that only the written fingering makes impossible */
  readonly givenBlocked: number;
  /** notes whose written place sounds another note */
  readonly wrongNotes: number;
  /** something was left alone on purpose */
  readonly meant: boolean;
  /** why the fingering does not fit as it is read, in words that follow "The fingering"; null where it is read as it was meant */
  readonly cause: Said | null;
}

/** The answer in one sentence. */
export function verdictSentence(facts: VerdictFacts): string {
  const where = `in ${facts.tuning}${facts.transposition === "as written" ? "" : ` ${facts.transposition}`}`;
  const what = facts.submitted ? "the written fingering" : "it";
  if (facts.blocked >= facts.notes && facts.notes > 0)
    return `Not playable ${where}: none of its ${count(facts.notes, "note")} can be played.`;
  const amiss = facts.wrongNotes + facts.givenBlocked;
  if (facts.cause !== null)
    return `The fingering ${facts.cause}; read as it stands, ${where}, it does not sound the melody in ${count(amiss, "place")}.`;
  const wrong = facts.wrongNotes > 0 ? `it sounds another note in ${count(facts.wrongNotes, "place")}` : "";
  if (facts.givenBlocked > 0 && facts.givenBlocked === facts.blocked)
    return `The melody lies on the strings ${where}, but the written fingering cannot be played in ${count(facts.blocked, "place")}${wrong === "" ? "" : `, and ${wrong}`}.`;
  if (facts.blocked > 0) return `Not playable ${where}: ${count(facts.blocked, "place")} cannot be played.`;
  const problems = facts.severities.problem;
  const cautions = facts.severities.caution;
  const whole = facts.effortPerNote >= 0.4 ? `the whole is ${effortReading(facts.effortPerNote)}` : "";
  const places =
    problems > 0
      ? `a player would ask about ${count(problems, "place")}`
      : cautions > 0
        ? `${what} needs a move in ${count(cautions, "place")}`
        : "";
  if (wrong !== "") return `The melody lies on the strings ${where}, but as the fingering is written ${wrong}.`;
  const apart = facts.meant ? "apart from what is meant, " : "";
  const parts = [places, whole].filter((part) => part !== "");
  return `Playable ${where}; ${apart}${parts.length === 0 ? `${what} plays ${facts.effortPerNote < 0.2 ? "well" : "with some extra moves"}` : parts.join(", and ")}.`;
}
