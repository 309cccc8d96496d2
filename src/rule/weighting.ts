// SPDX-License-Identifier: AGPL-3.0-or-later
// How the brief scales what rules charge: weights, the character of passages, what is accepted.
import type { Brief, Span } from "../model/brief.js";
import type { Moment, MomentNote } from "../model/moments.js";
import type { Rule, RuleProse } from "./types.js";

/** In a passage marked flowing the rules of movement weigh this much more (our judgement). */
const FLOWING_FACTOR = 1.5;

/** Factors of all rules at one place; equal objects mean equal factors. */
export interface Factors {
  /** names the factors, for tables that are shared between places */
  readonly key: string;
  /** what a rule's charges are multiplied with here */
  of(rule: string): number;
}

/** Every rule charges what it says. */
const PLAIN_FACTORS: Factors = { key: "", of: () => 1 };

/** The factors along one line. */
export interface Weighting {
  /** between two moments, or of one moment alone where both are the same */
  between(from: number, at: number): Factors;
}

/** A line without a brief. */
export const PLAIN_WEIGHTING: Weighting = { between: () => PLAIN_FACTORS };

/** Whether a span of bars holds a moment. */
export function holds(span: Span, moment: Moment): boolean {
  const { bar } = (moment.notes[0] as MomentNote).source;
  return bar >= span.fromBar && bar <= span.toBar;
}

/**
 * The factors that a brief asks for. A charge lies in the passage of its later note; an accepted rule charges nothing
 * where all notes of the charge lie in the span; in a passage marked struggling what the writer gave charges nothing.
 *
 * @param rules the book, for which rules are of movement and which are matters of taste
 */
export function weightingOf(brief: Brief, moments: readonly Moment[], rules: readonly Rule[]): Weighting {
  if (brief.passages.length + brief.accept.length + Object.keys(brief.weights).length === 0) return PLAIN_WEIGHTING;
  const known = new Map<string, Factors>();
  const within = moments.map((moment) => ({
    passages: brief.passages.map((passage) => holds(passage, moment)),
    accept: brief.accept.map((acceptance) => holds(acceptance, moment)),
    given: isGiven(moment),
  }));
  return {
    between: (from, at) => {
      const a = within[from] as (typeof within)[number];
      const b = within[at] as (typeof within)[number];
      const flowing = brief.passages.some((passage, i) => passage.character === "flowing" && b.passages[i]);
      const meant =
        a.given &&
        b.given &&
        brief.passages.some((one, i) => one.character === "struggling" && a.passages[i] && b.passages[i]);
      const accepted = brief.accept.filter((_, i) => a.accept[i] && b.accept[i]).map((one) => one.rule);
      const key = `${flowing}/${meant}/${accepted.join()}`;
      const factors = known.get(key) ?? makeFactors(key, { flowing, meant, accepted, weights: brief.weights }, rules);
      known.set(key, factors);
      return factors;
    },
  };
}

interface Here {
  readonly flowing: boolean;
  readonly meant: boolean;
  readonly accepted: readonly string[];
  readonly weights: Brief["weights"];
}

function makeFactors(key: string, here: Here, rules: readonly Rule[]): Factors {
  const factors = new Map(rules.map((rule) => [rule.id, factorOf(rule, here)]));
  return { key, of: (rule) => factors.get(rule) ?? 1 };
}

function factorOf(rule: RuleProse, here: Here): number {
  if (here.accepted.includes(rule.id) || (here.meant && isTaste(rule))) return 0;
  return (here.weights[rule.id] ?? 1) * (here.flowing && rule.movement === true ? FLOWING_FACTOR : 1);
}

/** Awkwardness can be meant; a wrong place or a note out of reach cannot. */
export function isTaste(rule: Pick<RuleProse, "kind">): boolean {
  return rule.kind === "idiom" || rule.kind === "efficiency" || rule.kind === "character";
}

/** The writer said how to play it: string and stroke, or the sound without a pluck. */
export function isGiven(moment: Moment): boolean {
  return moment.notes.every(({ given }) => {
    const plucked = given.arrival === null || given.arrival === "plucked";
    return plucked ? given.string !== null && given.stroke !== null : true;
  });
}
