// SPDX-License-Identifier: AGPL-3.0-or-later
// The cell under a note: its tablature glyph.
import { ENTRIES, FIGURES, ORNAMENTS, PINCHES } from "../model/fingering.js";
import type { PlacedNote } from "../report.js";
import { composeGlyph, glyphDefinitions, type TablatureGlyph } from "./tablature/glyph.js";
import { GLYPH_SIZE, type TablatureReading } from "./tablature/layout.js";

/** Size of a cell at full scale, in px: readable from 28 px of width on. */
export const CELL_SIZE_PX = { width: 40, height: 50 } as const;

/** What a cell shows of a note. */
export type CellNote = Omit<PlacedNote, "id" | "chord" | "planted">;

/** The cells of notes. */
export interface Cells {
  /** the symbol of each note's cell, in the notes' order; notes that are said alike share one */
  readonly ids: readonly string[];
  /** what the cells refer to: once per page, inside an `<svg>` */
  readonly symbols: string;
}

/**
 * Draws the cells of notes.
 *
 * @example drawCells([note]).ids // ["jz-da-7.6-tiao-4"]
 */
export function drawCells(notes: readonly CellNote[]): Cells {
  const glyphs = notes.map((note) => {
    const reading = readingOf(note);
    return reading === null ? null : composeGlyph(reading);
  });
  const drawn = glyphs.filter((glyph): glyph is TablatureGlyph => glyph !== null);
  return {
    ids: glyphs.map((glyph) => glyph?.id ?? NO_PLACE_ID),
    symbols: glyphDefinitions(drawn) + (drawn.length === notes.length ? "" : noPlace()),
  };
}

const NO_PLACE_ID = "jz-no-place";

/** A place that cannot be found: a broken frame with nothing in it. */
function noPlace(): string {
  const { width, height } = GLYPH_SIZE;
  return `<symbol id="${NO_PLACE_ID}" viewBox="0 0 ${width} ${height}"><path d="M75 100h850v1050H75zM300 425l400 400m0-400L300 825" fill="none" stroke="currentColor" stroke-width="36" stroke-dasharray="75"/></symbol>`;
}

const oneOf = <T extends string>(list: readonly T[], word: string | null | undefined): T | null =>
  list.find((one) => one === word) ?? null;

/** Towards hui 1 from beyond the nut, and away from it from beyond hui 1. */
const BEYOND = { nut: 14, bridge: 0 } as const;

/**
 * The reading of a printed note, null where it has no place. What JSON has no field for (entry, ornament, the strings of
 * a sweep, which way a slide goes) is in the words that it is said with.
 */
export function readingOf(note: CellNote): TablatureReading | null {
  const { sound, string, arrival, spoken, stroke, compound, finger, contact } = note;
  if (sound === null || string === null || arrival === null || spoken === null) return null;
  const words = spoken.split(" ");
  const ornament = oneOf(ORNAMENTS, words.at(-1));
  const strings = (ornament === null ? words : words.slice(0, -1)).slice(-2).filter((word) => /^[1-7]$/.test(word));
  const figure = oneOf(FIGURES, compound);
  return {
    sound,
    string,
    position: sound === "open" ? null : (note.writtenPosition ?? note.position),
    finger,
    contact,
    stroke,
    arrival,
    figure,
    across: figure !== null && strings.length === 2 ? strings.map(Number) : null,
    entry: oneOf(ENTRIES, words[0]),
    ornament,
    previous: {
      position: words[0] === "xia" ? BEYOND.bridge : BEYOND.nut,
      finger: words[0] === "zhua" ? "thumb" : null,
    },
    pinch: oneOf(PINCHES, compound),
  };
}
