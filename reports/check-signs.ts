// SPDX-License-Identifier: AGPL-3.0-or-later
// What the signs of a score mean: only those that it uses, each with an example from it.
import { PINCHES } from "../src/model/fingering.js";
import { intervalBetween, transpositionWords } from "../src/model/transposition-words.js";
import type { NoteJson } from "../src/report.js";
import { OwnMarkup } from "./template.js";

/** An example cell with its reading and what its sign means. */
export interface SignView {
  readonly cell: OwnMarkup;
  readonly spoken: string;
  /** empty where the text beside the legend says it */
  readonly meaning: string;
}

interface Sign {
  readonly meaning: string;
  shows(note: NoteJson): boolean;
}

const isPinch = ({ compound }: NoteJson): boolean => PINCHES.some((pinch) => pinch === compound);

/** The three kinds of sound, explained in the text of the legend. */
export const SOUNDS: readonly Sign[] = [
  { meaning: "", shows: ({ sound, arrival }) => sound === "open" && arrival === "plucked" },
  { meaning: "", shows: ({ sound, arrival }) => sound === "stopped" && arrival === "plucked" },
  { meaning: "", shows: ({ sound }) => sound === "harmonic" },
];

/** Signs beyond the three kinds of sound. */
export const SIGNS: readonly Sign[] = [
  {
    meaning:
      "slide: the finger moves up or down the string while it still sounds. A dot stands in place of the stroke, since the right hand does nothing.",
    shows: ({ arrival }) => arrival === "slid",
  },
  {
    meaning: "pull-off: a finger of the left hand plucks the string as it lifts. The right hand does nothing.",
    shows: ({ arrival }) => arrival === "pulled-off",
  },
  {
    meaning:
      "hammer-on: a finger of the left hand comes down so firmly that the string sounds. The right hand does nothing.",
    shows: ({ arrival }) => arrival === "hammered",
  },
  { meaning: "pinch: two cells, one above the other, are struck at once.", shows: isPinch },
  {
    meaning: "compound stroke: several movements of the right hand under one name, explained below.",
    shows: (note) => note.compound !== null && !isPinch(note),
  },
  { meaning: "a smaller cell: a grace note, played just before the note that follows.", shows: ({ grace }) => grace },
  {
    meaning:
      "a note that cannot be played on this instrument as set up here. It is left out; the line goes on without it.",
    shows: ({ sound }) => sound === null,
  },
];

/**
 * An example of each sign that the notes show.
 *
 * @param cells the symbol of each note's cell, by note id
 */
export function viewSigns(
  signs: readonly Sign[],
  notes: readonly NoteJson[],
  cells: ReadonlyMap<string, string>,
): readonly SignView[] {
  return signs.flatMap(({ meaning, shows }) => {
    const note = notes.find(shows);
    if (note === undefined) return [];
    const use = `<svg class="cell" viewBox="0 0 40 50" width="52" height="65" aria-hidden="true"><use href="#${cells.get(note.id)}"/></svg>`;
    return [{ cell: new OwnMarkup(use), spoken: note.spoken ?? "no place", meaning }];
  });
}

/** How the notes on the staff and what sounds differ; empty where they do not. */
export function soundingWords(notes: readonly NoteJson[]): string {
  const shifts = notes.map(({ written, sounding }) => intervalBetween(written, sounding));
  const [first] = shifts;
  if (first === undefined || shifts.every(({ semitones }) => semitones === 0)) return "";
  const staff = "The staff shows the notes as they are printed in the score";
  if (shifts.every(({ semitones }) => semitones === first.semitones))
    return `${staff}; on the guqin they sound ${transpositionWords(first)}.`;
  return `${staff}; some sound in another octave or key, and the table note by note then names both pitches.`;
}
