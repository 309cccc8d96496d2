// SPDX-License-Identifier: AGPL-3.0-or-later
// What the score says of every note's fingering: technical marks, then lyric lines, then words.
import { type GivenFingering, NOTHING_GIVEN } from "../model/fingering.js";
import type { Lyric, OddMark } from "../model/score.js";
import { readTogether, type WrittenNote } from "./context.js";
import { isForm, readSpoken, type SpokenForm, understood, unjudgedIn } from "./fingering.js";
import { heightOf, type MelodyNote } from "./melody.js";
import { type Odd, oddOf, overlay, type TechnicalFacts } from "./technical.js";

/** The fingering given for every note of the melody, and what was not understood. */
export interface GivenLine {
  readonly given: readonly GivenFingering[];
  /** whether a note stands between the signs of harmonics */
  readonly harmonics: readonly boolean[];
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
  const alone = melody.map(({ head, chord }, index): WrittenNote & Alone => ({
    height: heightOf(head.sounding),
    chord,
    ...aloneIn(technical[index] as TechnicalFacts, textsAt(lyrics[index] ?? [], lines, beside[index] ?? [])),
  }));
  const line = readTogether(alone);
  for (const [i, note] of melody.entries())
    for (const odd of [alone[i]?.odd ?? [], line.odd[i] ?? []])
      for (const one of odd) oddMarks.push({ note: note.head.id, trouble: "unreadable", ...one });
  return { given: line.given, harmonics: line.harmonics, oddMarks };
}

/** What the marks and the texts at one note say. */
interface Alone {
  readonly given: GivenFingering;
  readonly forms: readonly SpokenForm[];
  readonly odd: readonly Odd[];
}

function aloneIn(facts: TechnicalFacts, texts: readonly string[]): Alone {
  let { given } = facts;
  if (texts.length === 0) return { given: given ?? NOTHING_GIVEN, forms: facts.forms, odd: facts.odd };
  const odd = [...facts.odd];
  const forms = [...facts.forms];
  for (const text of texts) {
    const form = readSpoken(text);
    odd.push(...oddOf(text, form));
    if (!isForm(form)) continue;
    given = given === null ? form.given : overlay(given, form.given, odd);
    forms.push(form);
  }
  return { given: given ?? NOTHING_GIVEN, forms, odd };
}

/** The lyrics of fingering lines, then the words beside the note. */
function textsAt(lyrics: readonly Lyric[], lines: ReadonlySet<string>, beside: readonly string[]): readonly string[] {
  if (lyrics.length === 0) return beside;
  return [...lyrics.filter(({ verse }) => lines.has(verse)).map(({ text }) => text), ...beside];
}

/** The spoken forms among the words beside each note; those at a chord are dealt out from its lowest note up. */
function formsBeside(
  melody: readonly MelodyNote[],
  words: ReadonlyMap<string, readonly string[]>,
): (readonly string[])[] {
  if (words.size === 0) return [];
  let left: string[] = [];
  return melody.map((note) => {
    const isFirst = note.chord === null || note.chord === note.head.id;
    if (isFirst) left = (words.get(note.head.id) ?? []).filter(isFingering);
    return left.splice(0, 1);
  });
}

/** Words beside a note that are meant for its fingering, read or not. */
const isFingering = (text: string): boolean => understood(text) !== null || unjudgedIn(text) !== null;

/**
 * The verses that are fingering lines: half their texts are spoken forms, or one is a whole form with place, stroke and
 * string, which nobody sings.
 */
function fingeringLines(lyrics: readonly (readonly Lyric[])[]): ReadonlySet<string> {
  const texts = new Map<string, { all: number; understood: number; whole: number }>();
  for (const { verse, text } of lyrics.flat()) {
    const count = texts.get(verse) ?? { all: 0, understood: 0, whole: 0 };
    const form = understood(text);
    count.all++;
    if (form !== null) count.understood++;
    if (form !== null && form.given.sound !== null && form.given.stroke !== null) count.whole++;
    texts.set(verse, count);
  }
  const isLine = (count: { all: number; understood: number; whole: number }): boolean =>
    count.whole > 0 || 2 * count.understood >= count.all;
  return new Set([...texts].filter(([, count]) => isLine(count)).map(([verse]) => verse));
}
