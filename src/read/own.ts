// SPDX-License-Identifier: AGPL-3.0-or-later
// The elements that huipath itself put into the notes of an annotated score.
import { OWN_LINE } from "../model/annotation.js";
import { understood } from "./fingering.js";
import { child, children, childText, type XmlElement } from "./xml.js";

/** The marks that huipath writes, the spoken form last. */
const OWN_MARKS = new Set(["string", "open-string", "harmonic", "fingering", "pluck", "other-technical"]);

/** Whether a notations element is printed, so that what it holds is a wish of the writer. */
export function isPrinted(notations: XmlElement): boolean {
  return notations.getAttribute("print-object") !== "no";
}

/** What of a note huipath wrote, and the rest of its lyrics. */
export interface OwnElements {
  readonly notations: readonly XmlElement[];
  readonly lyrics: readonly XmlElement[];
  /** the lyrics without those that only repeat what huipath's own marks say */
  readonly otherLyrics: readonly XmlElement[];
}

/**
 * Tells huipath's own elements from the writer's. Its notations are not printed and hold nothing but technical marks
 * with a spoken form; they count as its own in a document that keeps a setting, or beside its own lyric. An editor may
 * lose that line's name: then the last lyric that says the same as the marks is it, since it stands below the writer's.
 *
 * @param annotated the document keeps a setting
 */
export function ownElements(note: XmlElement, annotated: boolean): OwnElements {
  const lyrics = children(note, "lyric");
  if (lyrics.length === 0 && !(annotated && child(note, "notations") !== null)) return NOTHING_OWN;
  const named = lyrics.filter((lyric) => lyric.getAttribute("name") === OWN_LINE);
  if (!annotated && named.length === 0) return { notations: [], lyrics: [], otherLyrics: lyrics };
  // The last of its kind: what a writer has of that kind stands before it.
  const notations = children(note, "notations")
    .filter((one) => formIn(one) !== null)
    .slice(-1);
  const forms = notations.map(formIn);
  const repeating = (lyric: XmlElement): boolean => forms.includes(lyricText(lyric));
  const own = named.length > 0 ? named : lyrics.filter(repeating).slice(-1);
  const otherLyrics = lyrics.filter((lyric) => !own.includes(lyric) || !repeating(lyric));
  return { notations, lyrics: own, otherLyrics };
}

/** Of a note that carries nothing, as most do. */
const NOTHING_OWN: OwnElements = { notations: [], lyrics: [], otherLyrics: [] };

/** The spoken form in notations of huipath's kind; null in others. */
function formIn(notations: XmlElement): string | null {
  const [technical, ...more] = notations.children;
  if (isPrinted(notations) || technical?.nodeName !== "technical" || more.length > 0) return null;
  if (technical.children.some((mark) => !OWN_MARKS.has(mark.nodeName))) return null;
  const form = childText(technical, "other-technical");
  return form !== null && understood(form) !== null ? form : null;
}

/** What a lyric says; several syllables on one note are joined. */
export function lyricText(lyric: XmlElement): string {
  return lyric.children
    .filter((part) => part.nodeName === "text" || part.nodeName === "elision")
    .map((part) => (part.nodeName === "elision" ? part.textContent || " " : part.textContent))
    .join("")
    .trim();
}
