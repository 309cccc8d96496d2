// SPDX-License-Identifier: AGPL-3.0-or-later
// The rule book with the handbook's tables as a plain value: what `huipath guide --format json` prints, and what page and Markdown are made from.

import type { Hand } from "../src/model/setting.js";
import type { Example, LocalRuleBody, Parameter, Rule, RuleKind, Severity } from "../src/rule/types.js";
import type { Said } from "../src/words.js";
import { type HandbookJson, handbookJson } from "./handbook/json.js";
import { KINDS } from "./words.js";

/** From which number on a finding has which severity. */
export interface StepJson {
  readonly from: number;
  readonly severity: Severity;
}

/** When a rule reports. */
export interface ReportingJson {
  /** beyond this number a place is reported; null where the charge alone decides */
  readonly limit: number | null;
  /** the side of the limit that breaks the rule */
  readonly breaks: "above" | "below";
  /** true where single notes have a limit of their own */
  readonly limitVaries: boolean;
  /** what the severities go by: the measured number, or the spare moves charged */
  readonly by: "number" | "charge";
  readonly severities: readonly StepJson[];
  /** whether a place can be impossible to play by this rule */
  readonly blocks: boolean;
}

/** A number of a rule. */
export interface ParameterJson {
  readonly name: string;
  readonly default: number | readonly number[];
  readonly unit: string;
  readonly doc: Said;
  readonly evidence: Parameter["evidence"];
}

/** An example of a rule. */
export interface ExampleJson {
  readonly shows: Said;
  readonly kind: Example["kind"];
  /** notes in shorthand: "D3" one beat, "D3:2" two, "r" a rest, "(D3 F3)" a slur, "C2+C3" together */
  readonly melody: string;
  /** quarter notes a minute; null for a score that gives none */
  readonly tempo: number | null;
  readonly tuning: string;
  readonly hand: string;
  readonly temperament: string;
  /** spoken forms, one a note; "-" leaves the note to the search */
  readonly fingering: readonly string[];
  readonly finds: readonly {
    /** number of the note, from 1; null for the whole line */
    readonly note: number | null;
    readonly severity: Severity;
    readonly message: Said;
  }[];
}

/** One rule, complete. */
export interface GuideRuleJson {
  readonly id: string;
  readonly kind: RuleKind;
  readonly title: Said;
  readonly principle: Said;
  readonly why: Said;
  readonly whenRight: Said;
  readonly remedy: Said;
  readonly reach: Rule["reach"];
  /** unit of the measured number; null where it only holds or does not */
  readonly unit: string | null;
  /** null for a rule about the whole line, which sets its findings itself */
  readonly reporting: ReportingJson | null;
  readonly parameters: readonly ParameterJson[];
  readonly sources: readonly Said[];
  readonly examples: readonly ExampleJson[];
}

/** `huipath guide --format json`. */
export interface GuideJson {
  readonly schema: 1;
  readonly tool: { readonly name: string; readonly version: string };
  readonly command: "guide";
  /** the hand that the limits hold for */
  readonly hand: Hand;
  /** in the order of the groups, within a group in the order in which a teacher checks */
  readonly rules: readonly GuideRuleJson[];
  /** the tables: places, tunings, comparisons, range, strokes and signs */
  readonly handbook: HandbookJson;
}

/** What a guide is made from. */
export interface GuideSource {
  /** the book made for a setting */
  readonly rules: readonly Rule[];
  readonly hand: Hand;
  readonly version: string;
  /** charges from which on a rule without severities of its own reports */
  readonly byCharge: readonly (readonly [charge: number, severity: Severity])[];
}

/** The guide as a value. Nothing is said here of a rule that the rule files do not say. */
export function guideJson(source: GuideSource): GuideJson {
  return {
    schema: 1,
    tool: { name: "huipath", version: source.version },
    command: "guide",
    hand: source.hand,
    rules: KINDS.flatMap(({ kind }) => source.rules.filter((rule) => rule.kind === kind)).map((rule) =>
      ruleJson(rule, source),
    ),
    handbook: handbookJson(),
  };
}

function ruleJson(rule: Rule, { byCharge }: GuideSource): GuideRuleJson {
  const { id, kind, title, principle, why, whenRight, remedy, reach, unit, sources } = rule;
  return {
    ...{ id, kind, title, principle, why, whenRight, remedy, reach, unit },
    reporting: rule.reach === "passage" ? null : reporting(rule, byCharge),
    parameters: Object.entries(rule.parameters).map(([name, parameter]) => ({ name, ...parameter })),
    sources,
    examples: rule.examples.map(exampleJson),
  };
}

function reporting(body: LocalRuleBody, byCharge: GuideSource["byCharge"]): ReportingJson {
  const steps = body.severities ?? byCharge;
  return {
    limit: body.limit,
    breaks: body.breaks,
    limitVaries: body.reach === "place" && body.limitAt !== undefined,
    by: body.severities === undefined ? "charge" : "number",
    severities: steps.map(([from, severity]) => ({ from, severity })),
    blocks: body.blocks !== undefined,
  };
}

function exampleJson(example: Example): ExampleJson {
  return {
    shows: example.shows,
    kind: example.kind,
    melody: example.melody,
    tempo: example.tempo === undefined ? 60 : example.tempo,
    tuning: example.tuning ?? "zhengdiao",
    hand: example.hand ?? "medium",
    temperament: example.temperament ?? "pythagorean",
    fingering: example.fingering,
    finds: example.finds.map(([note, severity, message]) => ({
      note: note === 0 ? null : note,
      severity,
      message,
    })),
  };
}
