// SPDX-License-Identifier: AGPL-3.0-or-later
// A matter of taste, as JSON prints it: for whom a written fingering is the best, and what a slightly other taste changes.

import type { ChangedNote } from "../check/comparison.js";
import { GREATEST_FACTOR, LEAST_FACTOR } from "../check/cuts.js";
import type { Flip } from "../check/flips.js";
import type { WrittenTaste } from "../check/taste.js";
import type { ChangedWeight } from "../check/weighing.js";
import { inCharacters } from "../model/characters.js";
import type { FlipJson, NoteJson, TasteJson, WrittenTasteJson } from "../report.js";
import type { Rule } from "../rule/types.js";
import { type Phrase, phrase, phraseOf, type Said } from "../words.js";
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
  const n = changes.length;
  const given = weightWords(weight, told.rules);
  const sentence = phrase(
    `Give ${given.en}, and ${count(n, "moment")} ${n === 1 ? "is" : "are"} best played another way.`,
    `若${given.zh}，则有${n}处换一种弹法更好。`,
  );
  return { ...weight, to: rounded(weight.to), changes: changedNotes(changes, told.notes), sentence };
}

const rounded = (weight: number): number => Math.round(weight * 1e6) / 1e6;

function writtenSentence(taste: WrittenTaste, { source, rules, notes }: Told): Phrase {
  const completed = source === "completed";
  const line = completed ? "the fingering as it is completed here" : "the written fingering";
  const own = line.replace(/^t/, "T");
  const it = completed ? "这里补全的指法" : "所写指法";
  const none = phrase(`No taste makes ${line} the best one`, `无论怎样取舍，${it}都不是最佳`);
  switch (taste.outcome) {
    case "best":
      return phrase(`${own} is the best one as the rules weigh here.`, `照现在各规则的权重，${it}就是最佳。`);
    case "weighed": {
      const weights = listed(taste.weights.map((one) => weightWords(one, rules)));
      return phrase(
        `${own} would be the best one for somebody who gives ${weights.en}.`,
        `谁若${weights.zh}，${it}对他就是最佳。`,
      );
    }
    case "blocked":
      return phrase(
        `${none.en}: ${count(taste.more, "move")} in it cannot be played, and another fingering avoids ${taste.more === 1 ? "that" : "them"}.`,
        `${none.zh}：其中有${taste.more}个动作无法做到，而另有指法可以避开。`,
      );
    case "wrong-places":
      return phrase(
        `${none.en}: ${count(taste.more, "note")} ${taste.more === 1 ? "lies" : "lie"} where another note sounds.`,
        `${none.zh}：有${taste.more}个音按在发别的音的位置上。`,
      );
    case "dominated": {
      const changes = dominatedWords(taste.changes, notes);
      const topics = listed(taste.rules.map((rule) => topicOf(rule, rules)));
      return phrase(
        `${none.en}: with ${changes.en} it costs more under no rule, and less in ${topics.en}.`,
        `${none.zh}：改为${changes.zh}，没有一条规则更费力，而在${topics.zh}上更省。`,
      );
    }
    case "never":
      return phrase(
        `${none.en}: whatever the rules weigh, if each weighs something, ${taste.rivals === 1 ? "another fingering" : `one of ${taste.rivals} others`} costs less.`,
        `${none.zh}：只要每条规则都有分量，不论轻重，总有${taste.rivals === 1 ? "另一种指法" : `另外${taste.rivals}种指法之一`}更省力。`,
      );
    case "out-of-bounds":
      return phrase(
        `${own} is not the best one with any weights from ${LEAST_FACTOR} to ${GREATEST_FACTOR} times those of now.`,
        `权重在现在的${LEAST_FACTOR}至${GREATEST_FACTOR}倍之间时，${it}都不是最佳。`,
      );
    case "unsettled":
      return phrase(
        `Whether ${line} would be the best one with other weights was not settled in ${count(taste.rounds, "search", "searches")}.`,
        `换别的权重${it}能否成为最佳，${taste.rounds}次搜索后仍未定。`,
      );
  }
}

/** "san mo 6 instead of san tiao 6 in bar 1 and 2 more changes". */
function dominatedWords(changes: readonly ChangedNote[], notes: readonly NoteJson[]): Phrase {
  const [first] = changedNotes(changes, notes);
  if (first === undefined) return phrase("changes", "几处改动");
  const more = changes.length - 1;
  const { from, to, bar, beat } = first;
  return phrase(
    `${to || "nothing"} instead of ${from || "nothing"} in bar ${bar}, beat ${beat}${more === 0 ? "" : ` and ${count(more, "more change")}`}`,
    `第${bar}小节第${beat}拍弹“${inCharacters(to) || "不弹"}”而非“${inCharacters(from) || "不弹"}”${more === 0 ? "" : `，并另改${more}处`}`,
  );
}

/** "leaps over the strings half the weight". */
function weightWords({ rule, from, to }: ChangedWeight, rules: readonly Rule[]): Phrase {
  const topic = topicOf(rule, rules);
  const share = shareWords(to / from);
  return phraseOf({ en: (say) => `${say(topic)} ${share.en}`, zh: (say) => `把“${say(topic)}”${share.zh}` });
}

function shareWords(share: number): Phrase {
  if (share === 0.5) return phrase("half the weight", "看轻一半");
  if (share === 2) return phrase("twice the weight", "看重一倍");
  const times = Math.round(share * 100) / 100;
  return phrase(`${times} times the weight`, `的权重改为${times}倍`);
}

function topicOf(rule: string, rules: readonly Rule[]): Said {
  const found = rules.find(({ id }) => id === rule);
  return found?.topic ?? found?.title ?? rule;
}

function listed(parts: readonly Said[]): Phrase {
  return phraseOf({
    en: (say) =>
      parts.length < 2
        ? parts.map(say).join("")
        : `${parts.slice(0, -1).map(say).join(", ")} and ${say(parts.at(-1) as Said)}`,
    zh: (say) => parts.map(say).join("、"),
  });
}
