// SPDX-License-Identifier: AGPL-3.0-or-later
// What the score says of every note's fingering: technical marks, then lyric lines, then words.
import { type GivenFingering, NOTHING_GIVEN } from "../model/fingering.js";
import type { Lyric, OddMark } from "../model/score.js";
import { isGiven, parseSpoken } from "./fingering.js";
import type { MelodyNote } from "./melody.js";
import { type Odd, overlay, type TechnicalFacts } from "./technical.js";

/** The fingering given for every note of the melody, and what was not understood. */
export interface GivenLine {
  readonly given: readonly GivenFingering[];
  readonly oddMarks: OddMark[];
}

/**
 * Merges the sources. A lyric line counts as fingering when half of its texts are spoken forms or one is whole, so that sung
 * words are left in peace; words beside a note count only when they are one.
 *
 * @param words the words at a note, by its id; for a chord by its lowest note's, one form per note from the lowest up
 */
export function readGiven(
  melody: readonly MelodyNote[],
  technical: readonly TechnicalFacts[],
  lyrics: readonly (readonly Lyric[])[],
  words: ReadonlyMap<string, readonly string[]>,
): GivenLine {
  const lines = fingeringLines(lyrics);
  const beside = formsBeside(melody, words);
  const oddMarks: OddMark[] = [];
  const given = melody.map((note, index) => {
    const facts = technical[index];
    const odd: Odd[] = [...(facts?.odd ?? [])];
    let merged = facts?.given ?? null;
    for (const { verse, text } of lyrics[index] ?? []) if (lines.has(verse)) merged = joined(merged, text, odd);
    const form = beside[index];
    if (form !== undefined) merged = joined(merged, form, odd);
    oddMarks.push(...odd.map((one) => ({ note: note.head.id, trouble: "unreadable" as const, ...one })));
    return merged ?? NOTHING_GIVEN;
  });
  return { given, oddMarks };
}

function joined(before: GivenFingering | null, text: string, odd: Odd[]): GivenFingering | null {
  const read = parseSpoken(text);
  if (isGiven(read)) return before === null ? read : overlay(before, read, odd);
  odd.push({ text, nearest: read.nearest });
  return before;
}

/** The spoken form among the words beside each note; those at a chord are dealt out from its lowest note up. */
function formsBeside(
  melody: readonly MelodyNote[],
  words: ReadonlyMap<string, readonly string[]>,
): (string | undefined)[] {
  let left: string[] = [];
  return melody.map((note) => {
    const isFirst = note.chord === null || note.chord === note.head.id;
    if (isFirst) left = (words.get(note.head.id) ?? []).filter((text) => isGiven(parseSpoken(text)));
    return left.shift();
  });
}

/**
 * The verses that are fingering lines: half their texts are spoken forms, or one is a whole form with place, stroke and
 * string, which nobody sings.
 */
function fingeringLines(lyrics: readonly (readonly Lyric[])[]): ReadonlySet<string> {
  const texts = new Map<string, { all: number; understood: number; whole: number }>();
  for (const { verse, text } of lyrics.flat()) {
    const count = texts.get(verse) ?? { all: 0, understood: 0, whole: 0 };
    const read = parseSpoken(text);
    count.all++;
    if (isGiven(read)) count.understood++;
    if (isGiven(read) && read.sound !== null && read.stroke !== null) count.whole++;
    texts.set(verse, count);
  }
  const isLine = (count: { all: number; understood: number; whole: number }): boolean =>
    count.whole > 0 || 2 * count.understood >= count.all;
  return new Set([...texts].filter(([, count]) => isLine(count)).map(([verse]) => verse));
}
