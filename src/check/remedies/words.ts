// SPDX-License-Identifier: AGPL-3.0-or-later
// Changes of a fingering in words.
import { quotedReading, stringInCharacters } from "../../model/characters.js";
import { barAndBeat } from "../../model/place-words.js";
import type { Played } from "../../search/charges.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../../words.js";
import { readingAt } from "../check.js";
import type { Remediable } from "./line.js";

/** A remedy names so many changed notes; a larger change is counted. */
const NAMED_CHANGES = 4;

/** A moment that is played in another way, with both readings as sentences quote them; empty where nothing sounds. */
export interface Change {
  readonly at: number;
  readonly old: Said;
  readonly now: Said;
}

/** Moments that are played in another way; where all sounds stay the same, those with another waiting finger. */
export function changesBetween(played: Played, then: Played): readonly Change[] {
  const moments = played.moments.map((_, at) => at);
  const sounds = moments.filter((at) => readingAt(played, at) !== readingAt(then, at));
  if (sounds.length > 0)
    return sounds.map((at) => ({
      at,
      old: quotedReading(readingAt(played, at)),
      now: quotedReading(readingAt(then, at)),
    }));
  return moments
    .filter((at) => plantedAt(played, at) !== plantedAt(then, at))
    .map((at) => ({ at, old: withWaiting(played, at), now: withWaiting(then, at) }));
}

/** The string on which the middle finger waits; 0 for none. */
const plantedAt = ({ rights }: Played, at: number): number => rights[at]?.planted ?? 0;

function withWaiting(played: Played, at: number): Phrase {
  const planted = plantedAt(played, at);
  const reading = quotedReading(readingAt(played, at));
  const finger =
    planted === 0
      ? phrase("no finger waiting", "（无停指）")
      : phrase(`the middle finger waiting on string ${planted}`, `（中指停在${stringInCharacters(planted)}）`);
  return joined([reading, finger], phrase(" with ", ""));
}

/** The changes that are named: those nearest to a moment, nearest first. */
export function nearestTo<T extends { readonly at: number }>(near: number, changes: readonly T[]): readonly T[] {
  const far = (change: T): number => Math.abs(change.at - near);
  return [...changes].sort((a, b) => far(a) - far(b)).slice(0, NAMED_CHANGES);
}

/** The changes in words, those nearest to a moment by name; a bar is named once. */
export function changeWords(changes: readonly Change[], near: number, line: Remediable): Phrase {
  const nearest = new Set(nearestTo(near, changes));
  let known = "";
  const named = changes
    .filter((change) => nearest.has(change))
    .map((change) => {
      const { bar, beat } = placeAt(change.at, line);
      const where = bar === known ? phrase(`beat ${beat}`, `第${beat}拍`) : barAndBeat(bar, beat);
      known = bar;
      return changeAt(where, change);
    });
  const rest = changes.length - named.length;
  const more = phrase(`; and ${rest} more ${rest === 1 ? "note" : "notes"} with it`, `；另有${rest}个音随之改动`);
  return joined([joined(named, phrase("; ", "；")), rest > 0 ? more : ""]);
}

function changeAt(where: Phrase, { old, now }: Change): Phrase {
  return phraseOf({
    en: (say) => `${say(where)}, ${say(now)} instead of ${say(old) || "nothing"}`,
    zh: (say) => `${say(where)}${say(old) === "" ? "弹作" : `${say(old)}改为`}${say(now) || "不出声"}`,
  });
}

/** Bar and beat of a moment. */
export function placeAt(
  at: number,
  line: Pick<Remediable, "score" | "played">,
): { readonly bar: string; readonly beat: string } {
  const note = line.played.moments[at]?.notes[0]?.source;
  return { bar: note === undefined ? "" : (line.score.bars[note.bar]?.label ?? ""), beat: note?.beat ?? "" };
}

/** "bar 3, beat 2"; empty for no note. */
export function placeWords(note: string | undefined, line: Pick<Remediable, "score">): Said {
  const source = line.score.notes.find(({ id }) => id === note);
  return source === undefined ? "" : barAndBeat(line.score.bars[source.bar]?.label ?? "", source.beat);
}
