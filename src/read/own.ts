// SPDX-License-Identifier: AGPL-3.0-or-later
// The elements that huipath itself put into the notes of an annotated score.
import { OWN_LINE } from "../model/annotation.js";
import { isForm, readSpoken } from "./fingering.js";
import { children, childText, type XmlElement } from "./xml.js";

/** The marks that huipath writes, the spoken form last. */
const OWN_MARKS = new Set(["string", "open-string", "harmonic", "fingering", "pluck", "other-technical"]);

/** Whether a notations element is printed, so that what it holds is a wish of the writer. */
export function isPrinted(notations: XmlElement): boolean {
  return notations.getAttribute("print-object") !== "no";
}

/** The notations that huipath wrote: not printed, nothing but technical marks, with a spoken form that is understood. */
export function ownNotations(note: XmlElement): XmlElement[] {
  return children(note, "notations").filter((notations) => formIn(notations) !== null);
}

/** The spoken form in notations of huipath's own; null in others. */
function formIn(notations: XmlElement): string | null {
  const [technical, ...more] = notations.children;
  if (isPrinted(notations) || technical?.nodeName !== "technical" || more.length > 0) return null;
  if (technical.children.some((mark) => !OWN_MARKS.has(mark.nodeName))) return null;
  const form = childText(technical, "other-technical");
  return form !== null && isForm(readSpoken(form)) ? form : null;
}

/**
 * The lyrics of the line that huipath wrote. An editor may lose the line's name: then the last lyric that says the same
 * as the marks is it, since huipath's line stands below the writer's.
 */
export function ownLyrics(note: XmlElement): XmlElement[] {
  const lyrics = children(note, "lyric");
  const named = lyrics.filter((lyric) => lyric.getAttribute("name") === OWN_LINE);
  if (named.length > 0) return named;
  const forms = ownForms(note);
  return lyrics.filter((lyric) => forms.includes(lyricText(lyric))).slice(-1);
}

/** A note's lyrics without those that only repeat what huipath's own marks say. */
export function writtenLyrics(note: XmlElement): XmlElement[] {
  const forms = ownForms(note);
  const repeated = forms.length === 0 ? [] : ownLyrics(note).filter((lyric) => forms.includes(lyricText(lyric)));
  return children(note, "lyric").filter((lyric) => !repeated.includes(lyric));
}

function ownForms(note: XmlElement): string[] {
  return children(note, "notations").flatMap((notations) => formIn(notations) ?? []);
}

/** What a lyric says; several syllables on one note are joined. */
export function lyricText(lyric: XmlElement): string {
  return lyric.children
    .filter((part) => part.nodeName === "text" || part.nodeName === "elision")
    .map((part) => (part.nodeName === "elision" ? part.textContent || " " : part.textContent))
    .join("")
    .trim();
}
