// SPDX-License-Identifier: AGPL-3.0-or-later
// A matter of taste, as JSON prints it: for whom a written fingering is the best, and what a slightly other taste changes.

import type { ChangedNote } from "../check/comparison.js";
import { GREATEST_FACTOR, LEAST_FACTOR } from "../check/cuts.js";
import type { Flip } from "../check/flips.js";
import type { WrittenTaste } from "../check/taste.js";
import type { ChangedWeight } from "../check/weighing.js";
import type { FlipJson, NoteJson, TasteJson, WrittenTasteJson } from "../report.js";
import type { Rule } from "../rule/types.js";
import type { Said } from "../words.js";
import { changedNotes } from "./changes.js";
import { count } from "./wording.js";

/** What is known of taste. */
export interface Taste {
  /** null where nothing was written */
  readonly written: WrittenTaste | null;
  /** null where everything was written */
  readonly flips: readonly Flip[] | null;
}

/** What words and places are taken from. */
interface Told {
  readonly source: "submitted" | "completed" | "searched";
  readonly rules: readonly Rule[];
  readonly notes: readonly NoteJson[];
}

/** Taste as JSON prints it. */
export function tasteJson({ written, flips }: Taste, told: Told): TasteJson {
  const flipped = new Set(flips?.flatMap(({ changes }) => changes.map(({ note }) => note)));
  return {
    written: written === null ? null : writtenJson(written, told),
    flips: flips?.map((flip) => flipJson(flip, told)) ?? null,
    robust: flips === null ? null : told.notes.filter(({ id, chord }) => !flipped.has(chord ?? id)).length,
  };
}

function writtenJson(taste: WrittenTaste, told: Told): WrittenTasteJson {
  const { outcome, rounds } = taste;
  const settled = outcome === "best" || outcome === "weighed";
  return {
    possible: outcome === "unsettled" ? null : settled,
    weights: outcome === "weighed" ? taste.weights : [],
    dominated:
      outcome === "dominated" ? { rules: taste.rules, changes: changedNotes(taste.changes, told.notes) } : null,
    sentence: writtenSentence(taste, told),
    rounds,
  };
}

function flipJson({ weight, changes }: Flip, told: Told): FlipJson {
  const sentence = `Give ${weightWords(weight, told.rules)}, and ${count(changes.length, "moment")} ${changes.length === 1 ? "is" : "are"} best played another way.`;
  return { ...weight, to: rounded(weight.to), changes: changedNotes(changes, told.notes), sentence };
}

const rounded = (weight: number): number => Math.round(weight * 1e6) / 1e6;

function writtenSentence(taste: WrittenTaste, { source, rules, notes }: Told): string {
  const line = source === "completed" ? "the fingering as it is completed here" : "the written fingering";
  const own = line.replace(/^t/, "T");
  const none = `No taste makes ${line} the best one`;
  switch (taste.outcome) {
    case "best":
      return `${own} is the best one as the rules weigh here.`;
    case "weighed":
      return `${own} would be the best one for somebody who gives ${listed(taste.weights.map((one) => weightWords(one, rules)))}.`;
    case "blocked":
      return `${none}: ${count(taste.more, "move")} in it cannot be played, and another fingering avoids ${taste.more === 1 ? "that" : "them"}.`;
    case "wrong-places":
      return `${none}: ${count(taste.more, "note")} ${taste.more === 1 ? "lies" : "lie"} where another note sounds.`;
    case "dominated":
      return `${none}: with ${dominatedWords(taste.changes, notes)} it costs more under no rule, and less in ${listed(taste.rules.map((rule) => topicOf(rule, rules)))}.`;
    case "never":
      return `${none}: whatever the rules weigh, if each weighs something, ${taste.rivals === 1 ? "another fingering" : `one of ${taste.rivals} others`} costs less.`;
    case "out-of-bounds":
      return `${own} is not the best one with any weights from ${LEAST_FACTOR} to ${GREATEST_FACTOR} times those of now.`;
    case "unsettled":
      return `Whether ${line} would be the best one with other weights was not settled in ${count(taste.rounds, "search", "searches")}.`;
  }
}

/** "san mo 6 instead of san tiao 6 in bar 1 and 2 more changes". */
function dominatedWords(changes: readonly ChangedNote[], notes: readonly NoteJson[]): string {
  const [first] = changedNotes(changes, notes);
  if (first === undefined) return "changes";
  const more = changes.length === 1 ? "" : ` and ${count(changes.length - 1, "more change")}`;
  return `${first.to || "nothing"} instead of ${first.from || "nothing"} in bar ${first.bar}, beat ${first.beat}${more}`;
}

/** "leaps over the strings half the weight". */
function weightWords({ rule, from, to }: ChangedWeight, rules: readonly Rule[]): string {
  return `${topicOf(rule, rules)} ${shareWords(to / from)}`;
}

function shareWords(share: number): string {
  if (share === 0.5) return "half the weight";
  if (share === 2) return "twice the weight";
  return `${Math.round(share * 100) / 100} times the weight`;
}

function topicOf(rule: string, rules: readonly Rule[]): Said {
  const found = rules.find(({ id }) => id === rule);
  return found?.topic ?? found?.title ?? rule;
}

function listed(parts: readonly Said[]): string {
  return parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
}
