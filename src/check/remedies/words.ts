// SPDX-License-Identifier: AGPL-3.0-or-later
// Changes of a fingering in words.
import type { Played } from "../../search/charges.js";
import { readingAt } from "../check.js";
import type { Remediable } from "./line.js";

/** A remedy names so many changed notes; a larger change is counted. */
const NAMED_CHANGES = 4;

/** A moment that is played in another way. */
export interface Change {
  readonly at: number;
  readonly old: string;
  readonly now: string;
}

/** Moments that are played in another way; where all sounds stay the same, those with another waiting finger. */
export function changesBetween(played: Played, then: Played): readonly Change[] {
  const sounds = differing(played, then, readingAt);
  return sounds.length > 0 ? sounds : differing(played, then, withWaiting);
}

function differing(played: Played, then: Played, words: (played: Played, at: number) => string): readonly Change[] {
  return played.moments.flatMap((_, at) => {
    const old = words(played, at);
    const now = words(then, at);
    return old === now ? [] : [{ at, old, now }];
  });
}

function withWaiting(played: Played, at: number): string {
  const planted = played.rights[at]?.planted ?? 0;
  const finger = planted === 0 ? "no finger waiting" : `the middle finger waiting on string ${planted}`;
  return `${readingAt(played, at)} with ${finger}`;
}

/** The changes in words, those nearest to a moment by name; a bar is named once. */
export function changeWords(changes: readonly Change[], near: number, line: Remediable): string {
  const far = (change: Change): number => Math.abs(change.at - near);
  const nearest = new Set([...changes].sort((a, b) => far(a) - far(b)).slice(0, NAMED_CHANGES));
  let bar = "";
  const named = changes
    .filter((change) => nearest.has(change))
    .map(({ at, old, now }) => {
      const place = placeAt(at, line);
      const where = place.bar === bar ? `beat ${place.beat}` : `bar ${place.bar}, beat ${place.beat}`;
      bar = place.bar;
      return `${where}, ${now} instead of ${old || "nothing"}`;
    });
  const rest = changes.length - named.length;
  const more = rest > 0 ? `; and ${rest} more ${rest === 1 ? "note" : "notes"} with it` : "";
  return `${named.join("; ")}${more}`;
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
export function placeWords(note: string | undefined, line: Pick<Remediable, "score">): string {
  const source = line.score.notes.find(({ id }) => id === note);
  return source === undefined ? "" : `bar ${line.score.bars[source.bar]?.label ?? ""}, beat ${source.beat}`;
}
