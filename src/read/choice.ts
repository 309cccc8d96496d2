// SPDX-License-Identifier: AGPL-3.0-or-later
// Which part and which of its voices is the melody.
import type { Score } from "../model/score.js";
import { InputProblem } from "../problem.js";
import type { MusicDocument, PartElements } from "./document.js";
import type { Placed } from "./walk.js";
import { child, childText, type XmlElement } from "./xml.js";

/** Parts and voices that were not chosen. */
type LeftOut = Score["leftOut"];

/** Whether a note element sounds in a melody: pitched and not a cue. */
export function isMelodic(note: XmlElement): boolean {
  return child(note, "pitch") !== null && child(note, "cue") === null;
}

/**
 * Finds the part by id, name or number; the first without a wish.
 *
 * @throws InputProblem when there is none such, listing those that exist, or when it holds no notes
 */
export function choosePart(document: MusicDocument, wish: string | undefined, file: string): PartElements {
  const { parts } = document;
  const listed = parts.filter((part) => notesOf(part) > 0);
  if (listed.length === 0)
    throw new InputProblem("no-notes", file, "it holds no notes", "choose a score with a melody");
  const chosen = wish === undefined ? parts[0] : partNamed(parts, wish.trim());
  const others = listed.map(partTitle).join(", ");
  if (chosen === undefined)
    throw new InputProblem("no-part", file, `there is no part "${wish}"`, `the parts with notes are ${others}`);
  if (notesOf(chosen) > 0) return chosen;
  const which = wish === undefined ? "the first part" : `the part "${wish}"`;
  throw new InputProblem("no-notes", file, `${which} holds no notes`, `choose one with --part: ${others}`);
}

function partNamed(parts: readonly PartElements[], wish: string): PartElements | undefined {
  const same = (text: string | null): boolean => text?.trim().toLowerCase() === wish.toLowerCase();
  return (
    parts.find((part) => part.id === wish) ??
    parts.find((part) => same(part.name)) ??
    parts.find((part) => String(part.number) === wish) ??
    parts.find((part) => same(part.id))
  );
}

/** The part as messages name it. */
function partTitle(part: PartElements): string {
  return part.name === null ? part.id : `${part.id} (${part.name})`;
}

function notesOf(part: PartElements): number {
  let notes = 0;
  for (const { element } of part.bars)
    for (const inner of element.children) if (inner.nodeName === "note" && isMelodic(inner)) notes++;
  return notes;
}

/**
 * The voice of every note element, by its index among the walked elements; null for other elements and where the part
 * names no voices. Where one voice name serves two staves at the same time, the voices are kept apart by staff.
 */
export function voicesOf(placed: readonly Placed[]): readonly (string | null)[] {
  const notes = placed.filter(({ element }) => element.nodeName === "note");
  const anyNamed = notes.some(({ element }) => childText(element, "voice") !== null);
  const nameOf = (element: XmlElement): string | null => childText(element, "voice") ?? (anyNamed ? "1" : null);
  const shared = voicesOnTwoStaves(notes, nameOf);
  return placed.map(({ element }) => {
    if (element.nodeName !== "note") return null;
    const name = nameOf(element);
    const home = shared.get(name);
    const staff = staffOf(element);
    return home === undefined || home === staff ? name : `${name ?? "1"} (staff ${staff})`;
  });
}

/** The staff of a note element; "1" where it says nothing. */
export function staffOf(note: XmlElement): string {
  return childText(note, "staff") ?? "1";
}

/** Voices whose notes on different staves overlap in time, with the staff that each begins on. */
function voicesOnTwoStaves(
  notes: readonly Placed[],
  nameOf: (element: XmlElement) => string | null,
): Map<string | null, string> {
  const shared = new Map<string | null, string>();
  const home = new Map<string | null, string>();
  const latest = new Map<string | null, Placed>();
  for (const note of notes) {
    const name = nameOf(note.element);
    const staff = staffOf(note.element);
    if (!home.has(name)) home.set(name, staff);
    const before = latest.get(name);
    if (before !== undefined && before.bar === note.bar && staffOf(before.element) !== staff) {
      const overlaps = note.at.compare(before.at.add(before.duration)) < 0;
      if (overlaps && child(note.element, "chord") === null) shared.set(name, home.get(name) as string);
    }
    latest.set(name, note);
  }
  return shared;
}

/** The chosen voice and what is left out. */
export interface ChosenVoice {
  readonly voice: string | null;
  readonly leftOut: LeftOut;
}

/**
 * Finds the voice; the first that has notes without a wish.
 *
 * @throws InputProblem when there is none such, listing those that exist
 */
export function chooseVoice(
  document: MusicDocument,
  part: PartElements,
  placed: readonly Placed[],
  voices: readonly (string | null)[],
  wish: string | undefined,
  file: string,
): ChosenVoice {
  const counts = new Map<string | null, number>();
  for (const [index, { element }] of placed.entries()) {
    const voice = voices[index] ?? null;
    if (element.nodeName === "note" && isMelodic(element)) counts.set(voice, (counts.get(voice) ?? 0) + 1);
  }
  const [first = null] = counts.keys();
  const wished = wish?.trim();
  const voice =
    wished === undefined ? first : counts.has(wished) ? wished : first === null && wished === "1" ? null : undefined;
  if (voice === undefined) {
    const names = [...counts.keys()].map((name) => name ?? "1").join(", ");
    throw new InputProblem(
      "no-voice",
      file,
      `part ${partTitle(part)} has no voice "${wish}"`,
      `its voices are ${names}`,
    );
  }
  const otherVoices = [...counts].filter(([name]) => name !== voice);
  const otherParts = document.parts.filter((other) => other !== part && notesOf(other) > 0);
  return {
    voice,
    leftOut: [
      ...otherVoices.map(([name, notes]) => ({ part: partTitle(part), voice: name, notes })),
      ...otherParts.map((other) => ({ part: partTitle(other), voice: null, notes: notesOf(other) })),
    ],
  };
}
