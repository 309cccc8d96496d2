// SPDX-License-Identifier: AGPL-3.0-or-later
// Directions of a part: tempo, words, dynamics, octave signs, and what of them is not read.
import type { Direction, Metronome } from "musicxml-interfaces";
import { type Quarters, quarters } from "../model/time.js";
import { musicxml, parseDirection, parseSound } from "./bridge.js";
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

const JUMPS = ["dacapo", "dalsegno", "tocoda", "coda", "segno", "fine", "forward-repeat"];

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
  return {
    ...{ order, bar, at: at.add(offsetOf(element, divisions)), staff: null, voice: null },
    ...{ words: [], dynamics: [], wedges: [], octaves: null },
    quartersPerMinute: positive(parseSound(element).tempo),
  };
}

function directionFacts({ element, bar, at, divisions }: Placed, order: number, unread: UnreadList): DirectionFacts {
  const parsed = parseDirection(element);
  const sound = child(element, "sound");
  if (sound !== null) noteSound(sound, bar, unread);
  noteUnread(element, bar, unread);
  const offset = children(element, "offset").find((one) => one.getAttribute("sound") === "yes");
  return {
    order,
    bar,
    at: offset === undefined ? at : at.add(offsetOf(element, divisions)),
    staff: childText(element, "staff"),
    voice: childText(element, "voice"),
    words: typesOf(element, "words").map(oneLine).filter(Boolean),
    dynamics: typesOf(element, "dynamics").flatMap(dynamicNames),
    wedges: typesOf(element, "wedge").map((wedge) => ({
      type: wedge.getAttribute("type") ?? "",
      number: wedge.getAttribute("number") ?? "1",
      at: at.add(offsetOf(element, divisions)),
    })),
    quartersPerMinute: tempoOf(parsed, element, bar, unread),
    octaves: octavesOf(parsed, bar, unread),
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

function positive(text: string | undefined): number | null {
  const value = text === undefined || !/^\d{1,6}(\.\d{1,9})?$/.test(text.trim()) ? 0 : Number(text);
  return value > 0 ? value : null;
}

/** The playback tempo where it is given, else the printed one. */
function tempoOf(parsed: Direction | null, element: XmlElement, bar: number, unread: UnreadList): number | null {
  const played = positive(parsed?.sound?.tempo);
  if (played !== null) return played;
  const marks = parsed?.directionTypes?.flatMap((type) => type.metronome ?? []) ?? [];
  const printed = marks.map(metronomeTempo).find((tempo) => tempo !== null) ?? null;
  const present = typesOf(element, "metronome").length > 0;
  if (present && printed === null) unread.add("tempoWithoutNumber", bar);
  return printed;
}

/** Lengths of beat units in quarter notes, by their MusicXML names. */
const UNIT_QUARTERS: Readonly<Record<string, number>> = {
  maxima: 32,
  long: 16,
  breve: 8,
  whole: 4,
  half: 2,
  quarter: 1,
  eighth: 1 / 2,
  "16th": 1 / 4,
  "32nd": 1 / 8,
  "64th": 1 / 16,
};

/** A range or an approximation counts by its first number: "c. 72", "60-66". */
function metronomeTempo(mark: Metronome): number | null {
  const unit = UNIT_QUARTERS[mark.beatUnit ?? ""];
  const number = /\d{1,4}(\.\d{1,6})?/.exec(mark.perMinute?.data ?? "");
  if (unit === undefined || number === null || mark.beatUnitChange !== undefined) return null;
  const dotted = unit * (2 - 0.5 ** (mark.beatUnitDots?.length ?? 0));
  return Number(number[0]) > 0 ? Number(number[0]) * dotted : null;
}

/**
 * MusicXML names the way the print is moved: "down" prints the notes below where they sound.
 */
function octavesOf(parsed: Direction | null, bar: number, unread: UnreadList): number | null {
  const sign = parsed?.directionTypes?.flatMap((type) => type.octaveShift ?? [])[0];
  if (sign === undefined || sign.type === musicxml.OctaveShiftType.Continue) return null;
  if (sign.type === musicxml.OctaveShiftType.Stop) return 0;

  const size = ((Number.isFinite(sign.size) ? sign.size : 8) - 1) / 7;
  if (!Number.isInteger(size) || size < 1 || size > 3) {
    unread.add("octaveShiftUnusual", bar);
    return null;
  }
  return sign.type === musicxml.OctaveShiftType.Down ? size : -size;
}

function noteSound(sound: XmlElement, bar: number, unread: UnreadList): void {
  if (child(sound, "swing") !== null) unread.add("swing", bar);
  if (JUMPS.some((jump) => sound.getAttribute(jump) !== null)) unread.addWhole(PLAYED_ONCE);
}

/** Said once where a score repeats or jumps. */
export const PLAYED_ONCE = "repeated sections are played once, as printed, and jumps such as da capo are not followed";

const READ_OR_SILENT = new Set([
  "words",
  "dynamics",
  "metronome",
  "octave-shift",
  "rehearsal",
  "dashes",
  "bracket",
  "image",
  "symbol",
  // A hairpin that cannot be read is told where hairpins are put together.
  "wedge",
]);

function noteUnread(element: XmlElement, bar: number, unread: UnreadList): void {
  for (const type of children(element, "direction-type"))
    for (const { nodeName } of type.children) {
      if (nodeName === "segno" || nodeName === "coda") unread.addWhole(PLAYED_ONCE);
      else if (nodeName === "pedal" || nodeName === "scordatura") unread.add(nodeName, bar);
      else if (!READ_OR_SILENT.has(nodeName)) unread.add("otherDirection", bar, nodeName);
    }
}
