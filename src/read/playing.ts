// SPDX-License-Identifier: AGPL-3.0-or-later
// What a note element asks of a player that the melody does not keep: told, so that nothing is lost in silence.
import type { UnreadList } from "./unread.js";
import { child, children, type XmlElement } from "./xml.js";

/** Heads that stand for a rhythm, a ghost note or a noise rather than a pitch. */
const NO_PITCH_HEADS = new Set(["slash", "slashed", "x", "cross", "circle-x"]);
/** Pitches of a harmonic other than the one that sounds. */
const HELD = ["base-pitch", "touching-pitch"];
/** Notations that show how durations are grouped or joined, which the durations say themselves. */
const OF_DURATION = new Set(["tuplet", "tied", "footnote", "level"]);
/** Groups of marks. */
const HOLDERS = new Set(["articulations", "ornaments", "technical"]);

/** Tells what is odd about a note that is read. */
export function tellPlaying(note: XmlElement, bar: number, unread: UnreadList): void {
  if (note.getAttribute("print-object") === "no") unread.add("hidden", bar);
  const head = child(note, "notehead")?.textContent.trim() ?? "";
  if (NO_PITCH_HEADS.has(head)) unread.add("slashed", bar);
  if (child(note, "grace")?.getAttribute("make-time") != null) unread.add("graceTime", bar);
  const technical = children(note, "notations").flatMap((notations) => children(notations, "technical"));
  const harmonics = technical.flatMap((marks) => children(marks, "harmonic"));
  if (harmonics.some((harmonic) => HELD.some((name) => child(harmonic, name) !== null))) unread.add("heldPitch", bar);
  if (technical.some(isFretted) && technical.some((marks) => child(marks, "string") !== null))
    unread.add("fretted", bar);
}

/** Marks of a fretted instrument, whose string numbers are not the guqin's. */
export function isFretted(technical: XmlElement): boolean {
  return child(technical, "fret") !== null;
}

/** Tells the marks that stand at a rest. */
export function tellRestMarks(rest: XmlElement, bar: number, unread: UnreadList): void {
  const marks = children(rest, "notations").flatMap(({ children: all }) => all);
  for (const mark of marks)
    for (const { nodeName } of HOLDERS.has(mark.nodeName) ? mark.children : [mark])
      if (!OF_DURATION.has(nodeName)) unread.add("restMark", bar, nodeName);
  if (child(rest, "lyric") !== null) unread.add("restMark", bar, "lyric");
}
