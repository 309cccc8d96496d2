// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of the guide that depend on a value, shared by the page and the Markdown.
import type { Said } from "../src/words.js";
import type { Hand } from "../src/model/setting.js";
import type { GuideJson, GuideRuleJson, ParameterJson, StepJson } from "./guide-json.js";
import { KINDS, number, SEVERITY_WORD } from "./words.js";

/** The caution that stands before the rules. */
export const STRAIN_WORDS =
  "The limits here are defaults for an assumed hand, no medical advice. Wide stretches, deep presses and long or fast repetition can hurt. Pain, numbness or tiredness is a reason to stop, and a teacher who sees the hand decides, not this book.";

/** What the book is, before the first rule. */
export const ABOUT_WORDS = [
  "Each rule is one principle of guqin playing. huipath adds up what the rules charge, takes the cheapest fingering of a melody, and reports what a player would notice. Nothing else is charged.",
  "Charges are counted in spare moves: a spare move is one movement of a hand or finger that makes no sound and that an ideal line would not need. A rule is a guide, and each one says when breaking it is right.",
  "Strings count from 1, the lowest and farthest from the player, to 7. Places are counted in hui, the thirteen studs along the board, and in tenths of the way to the next: 7.9 lies nine tenths of the way from hui 7 to hui 8.",
] as const;

/** What a rule sees of a line. */
const REACH_WORDS: Readonly<Record<GuideRuleJson["reach"], string>> = {
  place: "One note as the left hand places it.",
  strike: "One stroke on its string.",
  "hand-move": "Two places of the left hand in a row, and the time between.",
  "stroke-move": "Two strokes in a row with the waiting finger, and the time between.",
  passage: "The whole line. It informs and charges nothing, since the search cannot see so far.",
};

/** What a rule looks at, in plain words. */
export function reachWords(rule: GuideRuleJson): string {
  return REACH_WORDS[rule.reach];
}

/** "noticeable beyond 10 cents, a player would ask beyond 20": the unit stands once. */
function stepWords(steps: readonly StepJson[], word: "beyond" | "below" | "from", unit: string): string {
  return steps
    .map(
      ({ from, severity }, at) => `${SEVERITY_WORD[severity]} ${word} ${at === 0 ? amount(from, unit) : number(from)}`,
    )
    .join(", ");
}

/** A number with its unit, in the singular for one: "1 string", "2 strings", "1 s". */
function amount(value: number, unit: string): string {
  return `${number(value)} ${value === 1 ? unit.replace(/(?<=^[a-z ]{3,})s$/, "") : unit}`.trim();
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** When a rule reports and how much it weighs; empty for a rule about the whole line. */
export function reportingWords(rule: GuideRuleJson): string {
  const { reporting, unit } = rule;
  if (reporting === null) return "";
  const { limit, breaks, by, severities, blocks } = reporting;
  const word = breaks === "above" ? "beyond" : "below";
  const varies = reporting.limitVaries ? " (some notes have a limit of their own)" : "";
  const from = limit === null ? "" : `${word} ${amount(limit, unit ?? "")}${varies}`;
  if (by === "charge") {
    const apart = blocks ? "; what cannot be played is counted apart" : "";
    return `${capital(`${from === "" ? "" : `${from}, `}by what it charges`)}${apart}.`;
  }
  const steps = stepWords(severities, word, unit ?? "");
  const implied = limit === severities[0]?.from;
  return `${capital(implied ? steps + varies : `reported ${from}: ${steps}`)}.`;
}

/** How a charge becomes a severity where a rule names no thresholds, from the first rule that does so; empty without one. */
export function chargeWords(guide: GuideJson): string {
  const steps = guide.rules.find((rule) => rule.reporting?.by === "charge")?.reporting?.severities;
  if (steps === undefined) return "";
  return `Where a rule names no thresholds, the charge says how much a place weighs: ${stepWords(steps, "from", "spare moves")}. Smaller charges are added up but not reported.`;
}

/** What the numbers of a hand mean. */
const HAND_WORDS: Readonly<Record<Exclude<keyof Hand, "name">, readonly [doc: string, unit: string]>> = {
  frameNearCm: ["from the thumb to the ring finger, which lies nearer the nut: the least that costs nothing", "cm"],
  frameFarCm: ["the same: the most that costs nothing", "cm"],
  frameNearHighCm: ["the same: the least with the thumb above hui 7, where places lie closer", "cm"],
  comfortableSpanCm: ["the widest stretch called comfortable", "cm"],
  spanLimitCm: ["the widest stretch at all; beyond it the hand moves", "cm"],
  freeShiftCm: ["what the hand moves along the strings without a shift", "cm"],
  comfortableCmPerSecond: ["the hand along the strings at ease", "cm/s"],
  plucksPerSecond: ["strokes in and out by turns at ease", "plucks/s"],
  plucksPerSecondOneFinger: ["one finger repeating its stroke at ease", "plucks/s"],
  plucksPerSecondWithShift: ["plucks where each needs a shift of the left hand", "plucks/s"],
  jointAndKneelingExtra: ["charged on top for joints and kneeling, which take practice", "spare moves"],
};

/** The numbers of the hand that the limits hold for. */
export function handRows(
  hand: Hand,
): readonly { readonly doc: string; readonly value: string; readonly unit: string }[] {
  return (Object.keys(HAND_WORDS) as (keyof typeof HAND_WORDS)[]).map((name) => {
    const [doc, unit] = HAND_WORDS[name];
    return { doc, value: String(hand[name]), unit };
  });
}

/** What is said above the numbers of a hand. */
export function handWords(hand: Hand): string {
  return `Where a rule speaks of a hand, it means hand ${hand.name}. We know of no published measures of players' hands: these are defaults of huipath, by our judgement.`;
}

/** A parameter's value or row of values. */
export function valueWords({ default: value }: ParameterJson): string {
  return typeof value === "number" ? number(value) : value.map(number).join(", ");
}

/** Kinds of examples in plain words. */
export const EXAMPLE_WORDS: Readonly<Record<GuideRuleJson["examples"][number]["kind"], string>> = {
  passes: "keeps the rule",
  breaks: "breaks the rule",
  exception: "an exception",
};

/** What of an example's setting is not the usual; empty where all is. */
export function settingWords(example: GuideRuleJson["examples"][number]): string {
  return [
    ...(example.tempo === null ? ["no tempo given"] : example.tempo === 60 ? [] : [`${example.tempo} beats a minute`]),
    ...(example.tuning === "zhengdiao" ? [] : [`tuning ${example.tuning}`]),
    ...(example.hand === "medium" ? [] : [`hand ${example.hand}`]),
    ...(example.temperament === "pythagorean" ? [] : [`${example.temperament} temperament`]),
  ].join(", ");
}

/** Where a finding of an example stands. */
export function findingWords(find: GuideRuleJson["examples"][number]["finds"][number]): string {
  const where = find.note === null ? "whole line" : `note ${find.note}`;
  return `${where}, ${SEVERITY_WORD[find.severity]}`;
}

/** The groups that have rules, in the order of the report. */
export function groups(guide: GuideJson): readonly {
  readonly kind: string;
  readonly title: Said;
  readonly about: Said;
  readonly rules: readonly GuideRuleJson[];
}[] {
  return KINDS.map((group) => ({ ...group, rules: guide.rules.filter((rule) => rule.kind === group.kind) })).filter(
    ({ rules }) => rules.length > 0,
  );
}
