// SPDX-License-Identifier: AGPL-3.0-or-later
// The cell under a note. It reads from top to bottom as a player says it: the left hand above a line that stands for
// the string, the touch on the line, the right hand and the string's number below it.
import { PINCHES } from "../model/fingering.js";
import type { NoteJson } from "../report.js";
import { escapeMarkup } from "./svg-tree.js";

/** Size of a cell at full scale, in px. */
export const CELL_SIZE_PX = { width: 40, height: 50 } as const;

/** What a cell shows of a note. */
export type CellNote = Pick<
  NoteJson,
  | "sound"
  | "string"
  | "position"
  | "writtenPosition"
  | "finger"
  | "contact"
  | "arrival"
  | "stroke"
  | "compound"
  | "spoken"
>;

/** A drawn cell: an SVG `<symbol>`, for reuse by every note played the same way. */
export interface Cell {
  readonly id: string;
  readonly symbol: string;
}

/**
 * Draws the cell of a note. Notes that are played alike get the same id.
 *
 * @example drawCell(note).id // "cell-da-7.6-tiao-4"
 */
export function drawCell(note: CellNote): Cell {
  const id = `cell-${[note.spoken ?? "none", note.arrival === "plucked" ? null : note.string]
    .filter((part) => part !== null)
    .join("-")
    .replace(/[^A-Za-z0-9.]+/g, "-")}`;
  const { width, height } = CELL_SIZE_PX;
  const drawing = note.sound === null ? noPlace() : leftHand(note) + touch(note) + rightHand(note);
  return { id, symbol: `<symbol id="${id}" viewBox="0 0 ${width} ${height}">${drawing}</symbol>` };
}

const CENTRE = 20;
const STRING_Y = 32;

/** Narrow cells: a long word is pressed together rather than run into its neighbour. */
function pressed(text: string, size: number): string {
  return text.length * size * 0.54 > 36 ? ' textLength="36" lengthAdjust="spacingAndGlyphs"' : "";
}

function word(text: string, y: number, size: number, extra = ""): string {
  return `<text x="${CENTRE}" y="${y}" font-size="${size}" text-anchor="middle"${pressed(text, size)}${extra}>${escapeMarkup(text)}</text>`;
}

/** A place that cannot be found: a broken frame. */
function noPlace(): string {
  return `<rect x="3" y="4" width="34" height="42" rx="4" fill="none" stroke="currentColor" stroke-width="1.4" stroke-dasharray="3 3"/>${word("no", 23, 11)}${word("place", 35, 11)}`;
}

/** The words before the position: san, fan, the finger with joint or kneeling, or the left hand's own sound. */
function leftWord(note: CellNote): string {
  const spoken = note.spoken ?? "";
  const plucked = spoken.lastIndexOf(` ${strokeWords(note)} `);
  const ornament = / [a-z]+$/.exec(spoken)?.[0] ?? "";
  const left = note.arrival === "plucked" ? spoken.slice(0, plucked) + ornament : spoken;
  return left
    .split(" ")
    .filter((part) => !/^[\d.]+$/.test(part))
    .join(" ");
}

/** The stroke or the compound, as it is spoken; of a pinch the stroke on this string. */
function strokeWords({ stroke, compound }: CellNote): string {
  const pinched = PINCHES.some((pinch) => pinch === compound);
  return compound === null || pinched ? (stroke ?? "") : compound.replaceAll("-", " ");
}

function leftHand(note: CellNote): string {
  const said = leftWord(note);
  const place = note.arrival === "pulled-off" || note.sound === "open" ? null : (note.writtenPosition ?? note.position);
  if (place === null) return word(said, 21, said.length > 4 ? 11 : 13);
  return word(said, 10, 10.5) + word(String(place), 25, 15.5, ' font-weight="600"');
}

/** The line of the string with its touch: filled for stopped, a ring for open, a diamond for harmonics; a slope for slides. */
function touch(note: CellNote): string {
  const slope = note.arrival === "slid" ? (leftWord(note).startsWith("xia") ? 3 : -3) : 0;
  const line = `<path d="M3 ${STRING_Y - slope}L37 ${STRING_Y + slope}" stroke="currentColor" stroke-width="1"/>`;
  return line + touchMark(note);
}

function touchMark({ sound }: CellNote): string {
  switch (sound) {
    case "open":
      return `<circle class="hollow" cx="${CENTRE}" cy="${STRING_Y}" r="3.6" stroke="currentColor" stroke-width="1.5"/>`;
    case "harmonic":
      return `<path class="hollow" d="M${CENTRE} ${STRING_Y - 4.8}l4.8 4.8-4.8 4.8-4.8-4.8z" stroke="currentColor" stroke-width="1.5"/>`;
    default:
      return `<circle cx="${CENTRE}" cy="${STRING_Y}" r="3.8" fill="currentColor"/>`;
  }
}

/** Stroke and string; of a compound over several strings the first and the last. */
function rightHand(note: CellNote): string {
  const plucked = note.arrival === "plucked" && note.stroke !== null;
  const said = plucked ? strokeWords(note) : "·";
  const strings = plucked
    ? ((note.spoken ?? "").match(/[1-7](?: [1-7])?(?=$| [a-z]+$)/)?.[0] ?? "")
    : String(note.string);
  const number = `<tspan font-weight="600">${strings}</tspan>`;
  const extra = plucked && said !== note.stroke ? pressed(`${said} ${strings}`, 12) : "";
  return `<text x="${CENTRE}" y="47" font-size="12" text-anchor="middle"${extra}>${said} ${number}</text>`;
}
