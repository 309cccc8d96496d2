// SPDX-License-Identifier: AGPL-3.0-or-later
// How many parts, bars, voices and notes a score may have, and how long its texts may be where they are passed on.
import type { Score } from "../model/score.js";
import { InputProblem } from "../problem.js";
import { phrase } from "../words.js";
import type { PartElements } from "./document.js";
import {
  MAX_BARS,
  MAX_DIRECTIONS,
  MAX_ELEMENTS,
  MAX_LABEL_CHARACTERS,
  MAX_MELODY_NOTES,
  MAX_NOTES,
  MAX_NOTES_AT_ONCE,
  MAX_PART_ELEMENTS,
  MAX_PARTS,
  MAX_SHOWN_CHARACTERS,
  MAX_VOICES,
} from "./limits.js";
import type { MelodyNote } from "./melody.js";
import type { UnreadList } from "./unread.js";
import { children, childText, type XmlElement } from "./xml.js";

/**
 * Counts a document's parts and bars before anything is made of them.
 *
 * @throws InputProblem above a limit, with the line of the first element too many
 */
export function guardShape(root: XmlElement, file: string): void {
  const timewise = root.nodeName === "score-timewise";
  const measures = timewise ? children(root, "measure") : [];
  const parts = children(root, "part");
  const ids = new Set(measures.flatMap((measure) => children(measure, "part").map((part) => part.getAttribute("id"))));
  const count = timewise ? ids.size : parts.length;
  if (count > MAX_PARTS)
    throw tooMany(parts[MAX_PARTS] ?? root, file, `${MAX_PARTS} parts`, "export the melody's part alone");
  for (const bars of timewise ? [measures] : parts.map((part) => children(part, "measure"))) {
    const first = bars[MAX_BARS];
    if (first !== undefined) throw tooMany(first, file, `${MAX_BARS} bars`, "export fewer bars");
  }
  // A bar by bar score has every part in every bar, written or not.
  if (count * measures.length > MAX_ELEMENTS)
    throw tooMany(root, file, `${MAX_ELEMENTS} bars in all its parts`, "export the melody's part alone");
}

/** @throws InputProblem when a part has too many notes, voices, directions or others, with the line of the first too many */
export function guardPart({ bars }: PartElements, file: string): void {
  const voices = new Set<string>();
  const counted = { notes: 0, directions: 0, all: 0 };
  for (const { element } of bars)
    for (const inner of element.children) {
      const beyond = (limit: string, cure = "export fewer bars"): InputProblem =>
        tooMany(inner, file, `${limit} in one part`, cure);
      if (++counted.all > MAX_PART_ELEMENTS) throw beyond(`${MAX_PART_ELEMENTS} elements`);
      const isDirection = inner.nodeName === "direction" || inner.nodeName === "sound";
      if (isDirection && ++counted.directions > MAX_DIRECTIONS) throw beyond(`${MAX_DIRECTIONS} directions`);
      if (inner.nodeName !== "note") continue;
      voices.add(`${childText(inner, "voice")} ${childText(inner, "staff")}`);
      if (++counted.notes > MAX_NOTES) throw beyond(`${MAX_NOTES} notes`);
      if (voices.size > MAX_VOICES) throw beyond(`${MAX_VOICES} voices`, "export one voice alone");
    }
}

/** @throws InputProblem when more notes sound or crowd before one note than a player has strings for, with the line */
export function guardTogether(melody: readonly MelodyNote[], file: string): void {
  let together = 0;
  for (const [index, note] of melody.entries()) {
    const before = melody[index - 1];
    together = before?.head.onset.equals(note.head.onset) ? together + 1 : 1;
    if (together > MAX_NOTES_AT_ONCE)
      throw tooMany(note.head.element, file, `${MAX_NOTES_AT_ONCE} notes at one moment`, "export the melody alone");
  }
}

/** @throws InputProblem when a melody is too long to be searched. @param notes its note elements, tied ones included */
export function guardLength(notes: number, file: string): void {
  if (notes > MAX_MELODY_NOTES)
    throw new InputProblem(
      "too-large",
      file,
      `the melody holds ${notes} notes, above the limit of ${MAX_MELODY_NOTES}`,
      "choose fewer bars with --bars",
    );
}

function tooMany(element: XmlElement, file: string, limit: string, cure: string): InputProblem {
  return new InputProblem(
    "too-large",
    `${file} line ${element.line}`,
    `the score holds more than the limit of ${limit}`,
    cure,
  );
}

/** A text as it may be passed on. */
export function shown(text: string, limit: number = MAX_SHOWN_CHARACTERS): string {
  if (text.length <= limit) return text;
  const kept = text.slice(0, limit - 1);
  // Half a character is none.
  return `${/[\ud800-\udbff]$/.test(kept) ? kept.slice(0, -1) : kept}…`;
}

type Texts = Pick<Score, "title" | "creator" | "part" | "voice" | "bars" | "notes" | "oddMarks" | "leftOut">;

/** Shortens what a score says in words, and tells that. */
export function shortened<T extends Texts>(score: T, unread: UnreadList): T {
  let any = false;
  const cut = <S extends string | null>(text: S, limit?: number): S => {
    const short = text === null ? null : shown(text, limit);
    any ||= short !== text;
    return short as S;
  };
  const texts: Texts = {
    title: cut(score.title),
    creator: cut(score.creator),
    part: { id: cut(score.part.id), name: cut(score.part.name) },
    voice: cut(score.voice),
    bars: score.bars.map((bar) => ({ ...bar, label: cut(bar.label, MAX_LABEL_CHARACTERS) })),
    notes: score.notes.map((note) =>
      note.lyrics.length === 0 && note.words.length === 0
        ? note
        : {
            ...note,
            lyrics: note.lyrics.map(({ verse, text }) => ({
              verse: cut(verse, MAX_LABEL_CHARACTERS),
              text: cut(text),
            })),
            words: note.words.map((text) => cut(text)),
          },
    ),
    oddMarks: score.oddMarks.map((odd) => ({ ...odd, text: cut(odd.text) })),
    leftOut: score.leftOut.map((one) => ({ ...one, part: cut(one.part), voice: cut(one.voice) })),
  };
  if (any)
    unread.addWhole(
      phrase(
        `texts longer than the limit of ${MAX_SHOWN_CHARACTERS} characters are shortened`,
        `超过${MAX_SHOWN_CHARACTERS}字的文字已截短`,
      ),
    );
  return { ...score, ...texts };
}
