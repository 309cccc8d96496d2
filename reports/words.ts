// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of the report page that depend on a value: labels of severities and groups, numbers with their units.
import type { RuleKind } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import type { Said } from "../src/words.js";

/** A severity in plain words, worst first. The key also names its shape and colour. */
export const SEVERITY_WORD: Readonly<Record<Severity, string>> = {
  blocker: "cannot be played",
  problem: "a player would ask",
  caution: "noticeable",
  note: "worth knowing",
};

/** The same of places that are counted: "1 place a player would ask about, 22 worth knowing". */
export const SEVERITY_PLACES: Readonly<Record<Severity, string>> = {
  ...SEVERITY_WORD,
  problem: "a player would ask about",
};

/** Severities from the worst to the mildest. */
export const WORST_FIRST: readonly Severity[] = ["blocker", "problem", "caution", "note"];

/** What a group of rules is about, in the order of the page. */
export const KINDS: readonly { readonly kind: RuleKind; readonly title: Said; readonly about: string }[] = [
  { kind: "range", title: "Range", about: "What lies on the strings, and what does not." },
  { kind: "intonation", title: "Intonation", about: "What would sound out of tune." },
  { kind: "idiom", title: "Idiom", about: "What sounds like the guqin, and what works against it." },
  { kind: "efficiency", title: "Efficiency", about: "Movements that make no sound, and how to save them." },
  { kind: "character", title: "Character", about: "Awkwardness that may be meant." },
  { kind: "notation", title: "Notation", about: "What the score leaves open." },
];

/** What a player says of a place that breaks this rule, where it is not simply a matter of moves. */
const EFFECT: Readonly<Record<string, string>> = {
  "travel-under-sound": "breaks the sound",
  "tip-and-joint": "breaks the sound",
  "damped-neighbour": "breaks the sound",
  "fading-note": "breaks the sound",
  knot: "ask",
  "knot-in-song": "ask",
};

/** "needs a move", "breaks the sound" or "ask"; empty where neither word fits the rule. */
export function effectOf(rule: string, kind: RuleKind): string {
  return EFFECT[rule] ?? (kind === "efficiency" ? "needs a move" : "");
}

/** How a fingering came about. */
export const SOURCE_WORDS = {
  submitted: "This is the fingering that the score gives.",
  completed: "The score gives part of the fingering; the rest was found by search.",
  searched: "The score gives no fingering; this one was found by search, as the line with the least effort.",
} as const;

/** How the sum of the bill came about. */
export const SUM_WORDS = {
  submitted: "This is the sum for the fingering that the score gives.",
  completed: "Of all fingerings that keep what the score gives, the one shown has the smallest sum.",
  searched: "Of all fingerings, the one shown has the smallest sum.",
} as const;

/** Effort with its unit, to hundredths: the tables have the thousandths. @example moves(0.5) // "0.5 spare moves" */
export function moves(effort: number): string {
  return `${hundredths(effort)} spare ${effort === 1 ? "move" : "moves"}`;
}

/** A number with at most two digits after the point. */
export function hundredths(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** A number with at most three digits after the point. */
export function number(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

/** ", chosen as the best of 637 settings"; empty where the setting was named. */
export function chosenWords({ chosenFrom }: { readonly chosenFrom: number | null }): string {
  return chosenFrom === null ? "" : `, chosen as the best of ${count(chosenFrom, "setting")}`;
}

/** "1 place", "3 places". */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}
