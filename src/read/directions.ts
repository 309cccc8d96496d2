// SPDX-License-Identifier: AGPL-3.0-or-later
// Directions of a part: tempo, words, dynamics, octave signs, and what of them is not read.
import { type Quarters, quarters } from "../model/time.js";
import { printedTempo } from "./metronome.js";
import type { UnreadList } from "./unread.js";
import type { Placed } from "./walk.js";
import { child, children, childText, type XmlElement } from "./xml.js";

/** What one direction says. */
export interface DirectionFacts {
  /** index in the walked part: directions come before the note that they stand at */
  readonly order: number;
  readonly bar: number;
  /** from the start of the bar */
  readonly at: Quarters;
  /** null where the file does not say: then it holds for all staves */
  readonly staff: string | null;
  readonly voice: string | null;
  readonly words: readonly string[];
  /** names such as "p", in file order */
  readonly dynamics: readonly string[];
  /** beginnings and ends of hairpins */
  readonly wedges: readonly WedgeSign[];
  readonly quartersPerMinute: number | null;
  /** where that tempo begins, from the start of the bar */
  readonly tempoAt: Quarters;
  /** octaves that an octave sign beginning here asks to play above the print; 0 where one ends; null without one */
  readonly octaves: number | null;
}

/** One end of a hairpin. */
export interface WedgeSign {
  readonly type: string;
  readonly number: string;
  /** from the start of the bar, where it is printed */
  readonly at: Quarters;
}

/** Attributes of a sound element that lead elsewhere or mark where to, and what musicians call them. */
const JUMPS = [
  ...[
    ["dacapo", "da capo"],
    ["dalsegno", "dal segno"],
    ["tocoda", "to coda"],
    ["coda", "coda"],
    ["segno", "segno"],
  ],
  ...[
    ["fine", "fine"],
    ["forward-repeat", "repeat sign"],
  ],
] as const satisfies readonly (readonly [attribute: string, name: string])[];

function jumpsIn(sound: XmlElement): string[] {
  return JUMPS.flatMap(([attribute, name]) => ((sound.getAttribute(attribute) ?? "no") === "no" ? [] : [name]));
}

/** Reads the directions and free sound elements among the elements of a part. */
export function readDirections(placed: readonly Placed[], unread: UnreadList): DirectionFacts[] {
  return placed.flatMap((one, order) => {
    if (one.element.nodeName === "direction") return [directionFacts(one, order, unread)];
    if (one.element.nodeName === "sound") return [soundFacts(one, order, unread)];
    return [];
  });
}

function soundFacts({ element, bar, at, divisions }: Placed, order: number, unread: UnreadList): DirectionFacts {
  noteSound(element, bar, unread);
  const here = at.add(offsetOf(element, divisions));
  return {
    ...{ order, bar, at: here, tempoAt: here, staff: null, voice: null },
    ...{ words: [], dynamics: [], wedges: [], octaves: null },
    quartersPerMinute: playedTempo(element, bar, unread),
  };
}

function directionFacts({ element, bar, at, divisions }: Placed, order: number, unread: UnreadList): DirectionFacts {
  const sound = child(element, "sound");
  if (sound !== null) noteSound(sound, bar, unread);
  noteUnread(element, bar, unread);
  const words = typesOf(element, "words").map(oneLine).filter(Boolean);
  const offset = children(element, "offset").find((one) => one.getAttribute("sound") === "yes");
  const here = offset === undefined ? at : at.add(offsetOf(element, divisions));
  // Words that a sound element puts into effect are told with that.
  const told = sound !== null && jumpsIn(sound).length > 0;
  for (const text of told ? [] : words.filter((one) => JUMP_WORDS.test(one))) unread.addOnce("jump", bar, text);
  return {
    order,
    bar,
    at: here,
    // A sound's own offset goes before that of its direction.
    tempoAt: sound !== null && child(sound, "offset") !== null ? at.add(offsetOf(sound, divisions)) : here,
    staff: childText(element, "staff"),
    voice: childText(element, "voice"),
    words,
    dynamics: typesOf(element, "dynamics").flatMap(dynamicNames),
    wedges: typesOf(element, "wedge").map((wedge) => ({
      type: wedge.getAttribute("type") ?? "",
      number: wedge.getAttribute("number") ?? "1",
      at: at.add(offsetOf(element, divisions)),
    })),
    quartersPerMinute: tempoOf(element, bar, unread),
    octaves: octavesOf(element, bar, unread),
  };
}

/** The children of all direction types of that name. */
function typesOf(direction: XmlElement, name: string): XmlElement[] {
  return children(direction, "direction-type").flatMap((type) => children(type, name));
}

function oneLine(element: XmlElement): string {
  return element.textContent.replace(/\s+/g, " ").trim();
}

/** The names of the marks inside a `<dynamics>`; free text stands for itself. */
export function dynamicNames(element: XmlElement): string[] {
  return element.children
    .map((mark) => (mark.nodeName === "other-dynamics" ? oneLine(mark) : mark.nodeName))
    .filter((name) => name !== "");
}

function offsetOf(element: XmlElement, divisions: Quarters): Quarters {
  const text = childText(element, "offset") ?? "0";
  return /^[+-]?\d{1,9}(\.\d{1,9})?$/.test(text) ? quarters(text.replace("+", "")).div(divisions) : quarters(0);
}

/** The playback tempo where it is given, else the printed one. */
function tempoOf(element: XmlElement, bar: number, unread: UnreadList): number | null {
  const sound = child(element, "sound");
  const played = sound === null ? null : playedTempo(sound, bar, unread);
  if (played !== null) return played;
  const marks = typesOf(element, "metronome");
  const printed = marks.map(printedTempo).find((tempo) => tempo !== null) ?? null;
  if (marks.length > 0 && printed === null) unread.add("tempoWithoutNumber", bar);
  return printed;
}

const PLAIN_TEMPO = /^\d{1,6}(\.\d{1,30})?$/;

/** The tempo of a sound element, if it holds the first time that its place is played. */
function playedTempo(sound: XmlElement, bar: number, unread: UnreadList): number | null {
  const text = sound.getAttribute("tempo")?.trim() ?? null;
  const tempo = text !== null && PLAIN_TEMPO.test(text) && Number(text) > 0 ? Number(text) : null;
  if (text !== null && tempo === null) unread.add("tempoWithoutNumber", bar);
  const times = sound.getAttribute("time-only");
  if (tempo === null || times === null || times.split(",").some((time) => time.trim() === "1")) return tempo;
  unread.add("tempoTimeOnly", bar);
  return null;
}

/**
 * MusicXML names the way the print is moved: "down" prints the notes below where they sound.
 */
function octavesOf(element: XmlElement, bar: number, unread: UnreadList): number | null {
  const sign = typesOf(element, "octave-shift")[0];
  const type = sign?.getAttribute("type");
  if (sign === undefined || type === "continue") return null;
  if (type === "stop") return 0;
  const size = (Number(sign.getAttribute("size") ?? "8") - 1) / 7;
  if (!Number.isInteger(size) || size < 1 || size > 3 || (type !== "down" && type !== "up")) {
    unread.add("octaveShiftUnusual", bar);
    return null;
  }
  return type === "down" ? size : -size;
}

function noteSound(sound: XmlElement, bar: number, unread: UnreadList): void {
  const swing = child(sound, "swing");
  if (swing !== null && child(swing, "straight") === null) unread.add("swing", bar);
  for (const jump of jumpsIn(sound)) unread.addOnce("jump", bar, jump);
}

/** Jumps that are written in words alone. */
const JUMP_WORDS =
  /^(fine|coda)\.?$|(^|[^\p{L}])(d\. ?[cs]\.|d[cs] al|da capo|dal segno|(to|al|alla) coda|al fine)($|[^\p{L}])/iu;

const READ_OR_SILENT = new Set([
  "words",
  "dynamics",
  "metronome",
  "octave-shift",
  "rehearsal",
  "dashes",
  "bracket",
  // A hairpin that cannot be read is told where hairpins are put together.
  "wedge",
]);

function noteUnread(element: XmlElement, bar: number, unread: UnreadList): void {
  for (const type of children(element, "direction-type"))
    for (const { nodeName } of type.children) {
      if (nodeName === "segno" || nodeName === "coda") unread.addOnce("jump", bar, nodeName);
      else if (nodeName === "pedal" || nodeName === "scordatura") unread.add(nodeName, bar);
      else if (!READ_OR_SILENT.has(nodeName)) unread.add("otherDirection", bar, nodeName);
    }
}
