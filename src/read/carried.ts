// SPDX-License-Identifier: AGPL-3.0-or-later
// What a note element carries that tells its line from others: words to sing, or a guqin fingering.
import { holdNamed, strokeNamed, understood } from "./fingering.js";
import { lyricText } from "./own.js";
import type { XmlElement } from "./xml.js";

/** Whether a note carries syllables to sing. */
export function isWorded(note: XmlElement): boolean {
  return note.children.some((one) => {
    if (one.nodeName !== "lyric") return false;
    const text = lyricText(one);
    return text !== "" && !isWholeForm(text);
  });
}

/** Whether a note's marks or lyrics are a guqin fingering, which no other instrument's can be taken for. */
export function isFingered(note: XmlElement): boolean {
  return note.children.some((one) => {
    if (one.nodeName === "lyric") return isWholeForm(lyricText(one));
    if (one.nodeName !== "notations") return false;
    return one.children.some((marks) => marks.nodeName === "technical" && marks.children.some(isFingeringMark));
  });
}

function isFingeringMark(mark: XmlElement): boolean {
  const text = mark.textContent;
  switch (mark.nodeName) {
    case "pluck":
      return strokeNamed(text) !== null;
    case "fingering":
      return holdNamed(text) !== null;
    case "other-technical":
      return isWholeForm(text);
    default:
      return false;
  }
}

/** Whether a text says place and stroke: nobody sings that. */
export function isWholeForm(text: string): boolean {
  const given = understood(text)?.given;
  return given !== undefined && given.sound !== null && given.stroke !== null;
}
