// SPDX-License-Identifier: AGPL-3.0-or-later
// The fingering as JSON prints it: its notes, its bill, and the lines beside it.
import type { Alternative } from "../check/alternatives.js";
import type { Verdicts } from "../check/check.js";
import { type BetterLine, changesBetween } from "../check/comparison.js";
import type { Way } from "../check/ways.js";
import type { Score } from "../model/score.js";
import type { BetterJson, BillJson, CheckJson, CostJson, NoteJson, ObjectiveJson, WayJson } from "../report.js";
import type { Cost } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import type { Charge, Played } from "../search/charges.js";
import { changedNotes, changeEntries } from "./changes.js";
import { noteEntries, sourceOf, spareMoves } from "./notes.js";
import { type Taste, tasteJson } from "./taste.js";

/** What the search was asked for, and what the other wish would have given. */
export interface Aim {
  readonly wanted: "total" | "worst";
  /** the dearest single charge of the line */
  readonly worst: Charge | null;
  /** the line of least total, where the easiest worst moment was wanted */
  readonly instead: { readonly total: Cost; readonly worst: number } | null;
}

/** Figures that were kept alike on purpose. */
export interface KeptAlike {
  /** what one figure was allowed to cost, in thousandths */
  readonly price: number;
  readonly made: number;
  readonly left: number;
  /** what the whole line costs more than the best one, in thousandths */
  readonly more: number;
}

/** A judged line with the lines beside it. */
export interface Fingered {
  readonly score: Score;
  readonly rules: readonly Rule[];
  readonly played: Played;
  readonly verdicts: Verdicts;
  readonly alternatives: readonly (readonly (readonly Alternative[])[])[];
  /** null where nothing was written */
  readonly better: readonly BetterLine[] | null;
  readonly aim: Aim;
  /** null where none were asked for */
  readonly ways: readonly Way[] | null;
  readonly keptAlike: KeptAlike | null;
  /** null where it was not asked for */
  readonly taste: Taste | null;
}

/** The fingering's part of the JSON. */
export function fingeringJson(line: Fingered): CheckJson["fingering"] {
  const { score, rules, played, verdicts, alternatives, better, aim, ways, keptAlike, taste } = line;
  const notes = noteEntries(score, played, verdicts, alternatives);
  const source = sourceOf(played);
  return {
    source,
    total: costJson(verdicts.total),
    notes,
    bill: verdicts.bill.map(billLine),
    better: better?.map((one) => betterEntry(one, line, notes)) ?? null,
    objective: objectiveJson(aim),
    ways: ways?.map((way) => wayEntry(way, line, notes)) ?? null,
    sameFigures:
      keptAlike === null
        ? null
        : { ...keptAlike, price: spareMoves(keptAlike.price), more: spareMoves(keptAlike.more) },
    taste: taste === null ? null : tasteJson(taste, { source, rules, notes }),
  };
}

/** A cost as JSON prints it. */
export function costJson(cost: Cost): CostJson {
  return { blocked: cost.blocked, effort: spareMoves(cost.effort) };
}

function billLine(charge: Charge): BillJson {
  return { rule: charge.rule.id, notes: charge.notes, ...costJson(charge.cost) };
}

function objectiveJson({ wanted, worst, instead }: Aim): ObjectiveJson {
  return {
    wanted,
    worst: worst === null ? null : { rule: worst.rule.id, notes: worst.notes, effort: spareMoves(worst.cost.effort) },
    instead: instead === null ? null : { total: costJson(instead.total), worst: spareMoves(instead.worst) },
  };
}

function betterEntry(better: BetterLine, { score, played }: Fingered, notes: readonly NoteJson[]): BetterJson {
  return {
    total: costJson(better.total),
    changes: changedNotes(better.changes, notes),
    places: changeEntries(better.runs, { a: played, b: better.played, score }),
  };
}

function wayEntry(way: Way, { score, played }: Fingered, notes: readonly NoteJson[]): WayJson {
  return {
    total: costJson(way.total),
    traits: way.traits,
    elsewhere: Math.round(way.elsewhere * 1000) / 1000,
    changes: changedNotes(changesBetween(played, way.played), notes),
    places: changeEntries(way.runs, { a: played, b: way.played, score }),
  };
}
