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

/**
 * Marks that ask for a way of playing or for time, and that neither the melody keeps nor a rule judges. Marks of stress
 * are not among them: they are plain in any hand.
 */
const NOT_JUDGED = new Set([
  ...["hammer-on", "pull-off", "tap", "thumb-position", "fingernails", "golpe", "hole", "arrow", "handbell"],
  ...["stopped", "open", "half-muted", "harmon-mute", "heel", "toe", "flip", "smear", "brass-bend"],
  ...["breath-mark", "caesura", "other-articulation", "other-ornament", "other-notation", "non-arpeggiate"],
]);

/** Tells what is odd about a note that is read. */
export function tellPlaying(note: XmlElement, bar: number, unread: UnreadList): void {
  if (note.getAttribute("print-object") === "no") unread.add("hidden", bar);
  const head = child(note, "notehead")?.textContent.trim() ?? "";
  if (NO_PITCH_HEADS.has(head)) unread.add("slashed", bar);
  if (child(note, "grace")?.getAttribute("make-time") != null) unread.add("graceTime", bar);
  if (child(note, "notations") === null) return;
  for (const mark of marksOn(note))
    if (NOT_JUDGED.has(mark.nodeName) && mark.getAttribute("type") !== "stop")
      unread.add("otherMark", bar, mark.nodeName);
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
  for (const { nodeName } of marksOn(rest)) if (!OF_DURATION.has(nodeName)) unread.add("restMark", bar, nodeName);
  if (child(rest, "lyric") !== null) unread.add("restMark", bar, "lyric");
}

/** All notations of a note, those in groups one by one. */
function marksOn(note: XmlElement): readonly XmlElement[] {
  const marks = children(note, "notations").flatMap((notations) => notations.children);
  return marks.flatMap((mark) => (HOLDERS.has(mark.nodeName) ? mark.children : [mark]));
}
