// SPDX-License-Identifier: AGPL-3.0-or-later
// One score in one setting, searched and judged by the whole rule book.
import { type Choice, choicesOf } from "../candidates/candidates.js";
import { guardPins } from "../candidates/pins.js";
import { alternativesOf } from "../check/alternatives.js";
import { check, type Verdicts } from "../check/check.js";
import { betterLines, type WrittenLine } from "../check/comparison.js";
import { flipsOf } from "../check/flips.js";
import { type LineTerms, type OpenLine, openLine } from "../check/open-line.js";
import type { ProgrammeSolver } from "../check/programme.js";
import { momentsOfFinding } from "../check/remedies/line.js";
import { remediesOf } from "../check/remedy.js";
import { sameFigures } from "../check/same-figures.js";
import { settled } from "../check/settle.js";
import { type Study, studyOf } from "../check/study/study.js";
import { tasteOf } from "../check/taste.js";
import { waysOf } from "../check/ways.js";
import { worstMoment } from "../check/worst-moment.js";
import { type Brief, NO_BRIEF } from "../model/brief.js";
import { flatsFor, gongAt } from "../model/melody-gong.js";
import { type Moment, momentsOf } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import type { Sign } from "../model/sign.js";
import { InputProblem } from "../problem.js";
import { assembleReport } from "../report/assemble.js";
import { certificateOf } from "../report/certificate.js";
import type { KeptAlike } from "../report/fingering.js";
import { sourceOf } from "../report/notes.js";
import type { Taste } from "../report/taste.js";
import type { Report } from "../report.js";
import { unweigh } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import { type Weighting, weightingOf } from "../rule/weighting.js";
import { chargesOf, type Played, playedBy } from "../search/charges.js";
import { type Searched, search } from "../search/solve.js";
import { easiestWorst } from "../search/worst.js";
import { bookFor } from "./book.js";
import { guardTogether } from "./pins.js";

/** What the search may make small: the sum of all charges, or first the largest single one. */
export const OBJECTIVES = ["total", "worst"] as const;

/** What is wanted beside the line of least effort. */
export interface Wished {
  readonly objective: (typeof OBJECTIVES)[number];
  /** so many fingerings that differ, this one among them; 1 for none beside it */
  readonly ways: number;
  /** what a figure may cost to return as it was, in thousandths; null to let figures wander */
  readonly sameFigures: number | null;
  /** the proof that nothing costs less */
  readonly certificate: boolean;
  /** the sign that a study is wanted of; null for none */
  readonly focus: Sign | null;
  /** solves what a matter of taste comes down to; null where taste is not asked about */
  readonly taste: ProgrammeSolver | null;
}

/** Nothing more. */
const NOTHING_WISHED: Wished = {
  objective: "total",
  ways: 1,
  sameFigures: null,
  certificate: false,
  focus: null,
  taste: null,
};

/** A searched line with what it was searched under. */
export interface SearchedLine {
  readonly rules: readonly Rule[];
  /** the rules that did not fail */
  readonly sound: readonly Rule[];
  readonly brief: Brief;
  readonly moments: readonly Moment[];
  readonly choices: readonly Choice[];
  readonly weighting: Weighting;
  readonly searched: Searched;
  /** the searched line; what nobody writes is settled where the brief leaves it open */
  readonly played: Played;
  /** messages of rules that failed, by id */
  readonly crashed: ReadonlyMap<string, string>;
}

/** Searches one score in one setting under the whole rule book. */
export function searchLine(score: Score, setting: Setting, brief: Brief): SearchedLine {
  const rules = bookFor(setting, brief);
  const { moments, choices, searched, crashed } = searchSound(score, setting, rules, brief);
  const weighting = weightingOf(brief, moments, rules);
  const sound = rules.filter((rule) => !crashed.has(rule.id));
  const found = { choices, setting, rules: sound, weighting, played: playedBy(moments, searched.solution) };
  guardTogether(brief, found.played, score, setting, sound);
  const played = settled({ ...found, weight: searched.solution.weight });
  return { rules, sound, brief, moments, choices, weighting, searched, played, crashed };
}

/** Searches and judges one score in one setting. */
export function judge(
  score: Score,
  setting: Setting,
  version: string,
  brief: Brief = NO_BRIEF,
  wished: Wished = NOTHING_WISHED,
): Report {
  const first = searchLine(score, setting, brief);
  const { rules, sound, moments, weighting, searched: free, crashed } = first;
  const judged = (line: Searched) => {
    const played = line === free ? first.played : playedBy(moments, line.solution);
    return { played, verdicts: check(played, score, setting, rules, { brief, weighting, crashed }) };
  };
  const aimed = aimAt(wished.objective, free, { choices: first.choices, setting, rules: sound, weighting });
  const kept = keepFigures(wished.sameFigures, aimed.searched, moments, (line) => judged(line).verdicts, sound);
  const { searched } = kept;
  const { played, verdicts } = judged(searched);
  const line = { score, setting, rules: sound, brief, weighting, choices: first.choices, played, searched };
  let opened: OpenLine | null = null;
  const open = (): OpenLine => {
    opened ??= openLine(line);
    return opened;
  };
  return assembleReport({
    ...{ score, setting, rules, played, verdicts, version },
    remedies: remediesOf({ ...line, verdicts, bookFor: (other) => bookFor(other, brief) }),
    better: sourceOf(played) !== "searched" ? betterLines(line, open()) : null,
    alternatives: alternativesOf({ ...line, searched: aimed.searched === free ? searched : free }, open),
    aim: { ...aimed.aim, worst: worstMoment(verdicts.bill) },
    ways: wished.ways > 1 ? waysOf(line, wished.ways) : null,
    keptAlike: kept.keptAlike,
    taste: wished.taste === null ? null : tasteIn(line, wished.taste),
    study: wished.focus === null ? null : study(wished.focus, score, line),
    certificate: wished.certificate ? certificateOf({ file: score.file, setting, played, searched, version }) : null,
  });
}

/** Lines that practise a sign in the melody's own scale. */
function study(sign: Sign, score: Score, { setting, rules, played }: WrittenLine): Study {
  const scale = gongAt(score, setting);
  return studyOf(sign, { setting: { ...setting, scale }, rules, played, flats: flatsFor(scale) });
}

/** What another taste would change: of what is written, whether it is the best for somebody; of what is not, what flips. */
function tasteIn(line: WrittenLine, solver: ProgrammeSolver): Taste {
  const source = sourceOf(line.played);
  return {
    written: source === "searched" ? null : tasteOf(line, solver),
    flips: source === "submitted" ? null : flipsOf(line),
  };
}

/** The line that has what was wanted, and what the least total would have been where something else was. */
function aimAt(wanted: Wished["objective"], free: Searched, { choices, setting, rules, weighting }: LineTerms) {
  if (wanted === "total") return { searched: free, aim: { wanted, instead: null } };
  const moments = choices.map((choice) => choice.moment);
  const worstOf = (line: Searched): number =>
    worstMoment(chargesOf(playedBy(moments, line.solution), rules, weighting))?.cost.effort ?? 0;
  const under = (ceiling: number): Searched => search(choices, setting, rules, { weighting, ceiling });
  const { searched } = easiestWorst(free, under, worstOf);
  return {
    searched,
    aim: { wanted, instead: { total: unweigh(free.solution.weight), worst: worstOf(free) } },
  };
}

/** The line with returning figures on their places, where that was wanted. */
function keepFigures(
  price: number | null,
  searched: Searched,
  moments: readonly Moment[],
  judged: (line: Searched) => Verdicts,
  rules: readonly Rule[],
): { readonly searched: Searched; readonly keptAlike: KeptAlike | null } {
  if (price === null) return { searched, keptAlike: null };
  const ofFigures = new Set(rules.filter((rule) => rule.cures?.includes("first-way")).map((rule) => rule.id));
  const wanderers = (line: Searched) =>
    judged(line)
      .findings.filter((finding) => ofFigures.has(finding.rule))
      .map((finding) => momentsOfFinding(finding, moments));
  const alike = sameFigures({ played: { moments }, searched, wanderers }, price);
  const more = alike.searched.solution.weight - searched.solution.weight;
  return { searched: alike.searched, keptAlike: { price, made: alike.made, left: alike.left, more } };
}

/** Searches; where a rule fails it is left out and named, so that one broken rule does not lose the report. */
function searchSound(score: Score, setting: Setting, rules: readonly Rule[], brief: Brief) {
  const moments = momentsOf(score, setting, brief);
  const searchWith = (book: readonly Rule[]) => {
    const choices = choicesOf(moments, setting, book);
    guardPins(choices, brief, setting, (pin) =>
      choicesOf(momentsOf(score, setting, { ...brief, pins: [pin] }), setting, book),
    );
    const searched = search(choices, setting, book, { weighting: weightingOf(brief, moments, book) });
    return { moments, choices, searched };
  };
  const crashed = new Map<string, string>();
  try {
    return { ...searchWith(rules), crashed };
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
    return { ...searchWith(rules.filter((rule) => !crashed.has(rule.id))), crashed };
  }
}
