// SPDX-License-Identifier: AGPL-3.0-or-later
// What a note element carries that tells its line from others: words to sing, or a guqin fingering.
import { holdNamed, strokeNamed, understood } from "./fingering.js";
import { lyricText } from "./own.js";
import type { XmlElement } from "./xml.js";

/** What a note element carries. */
export interface Carried {
  /** syllables to sing */
  readonly words: boolean;
  /** marks or lyrics that are a guqin fingering, which no other instrument's can be taken for */
  readonly fingering: boolean;
}

/** Looks at the lyrics and technical marks of a note element. */
export function carriedBy(note: XmlElement): Carried {
  let [words, fingering] = [false, false];
  for (const one of note.children) {
    if (one.nodeName === "lyric") {
      const text = lyricText(one);
      if (isWholeForm(text)) fingering = true;
      else words ||= text !== "";
    }
    if (one.nodeName === "notations")
      fingering ||= one.children.some(
        (marks) => marks.nodeName === "technical" && marks.children.some(isFingeringMark),
      );
  }
  return { words, fingering };
}

function isFingeringMark(mark: XmlElement): boolean {
  switch (mark.nodeName) {
    case "pluck":
      return strokeNamed(mark.textContent) !== null;
    case "fingering":
      return holdNamed(mark.textContent) !== null;
    case "other-technical":
      return isWholeForm(mark.textContent);
    default:
      return false;
  }
}

/** What a form of several words has at least: a character that is no letter of an alphabet. Most syllables have none. */
const SEVERAL_WORDS = /[^\p{L}\p{M}]|\p{Script=Han}/u;

/** Whether a text says place and stroke: nobody sings that. */
export function isWholeForm(text: string): boolean {
  if (text.length < 2 || !SEVERAL_WORDS.test(text)) return false;
  const given = understood(text)?.given;
  return given !== undefined && given.sound !== null && given.stroke !== null;
}
