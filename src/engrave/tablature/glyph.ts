// SPDX-License-Identifier: AGPL-3.0-or-later
// The tablature glyph of a note: a symbol made of parts that other glyphs use as well.
import { spokenForm } from "../../model/fingering.js";
import { GLYPH_SIZE, layOut, type TablatureReading } from "./layout.js";
import { drawPart, type Part, partId } from "./part.js";

/** A note's glyph. */
export interface TablatureGlyph {
  /** the symbol's name: equal for readings that are said alike */
  readonly id: string;
  /** the reading in words, for whoever does not see the glyph; a page says it where it uses the symbol */
  readonly spoken: string;
  readonly parts: readonly Part[];
}

/**
 * Composes the glyph of a reading.
 *
 * @throws RangeError for a string or place that no instrument has
 * @example composeGlyph({ sound: "open", stroke: "gou", string: 1, ... }).id // "jz-san-gou-1"
 */
export function composeGlyph(reading: TablatureReading): TablatureGlyph {
  const spoken = spokenForm(reading);
  const name = spokenForm({ ...reading, thumbStroke: "bo" });
  const id = ["jz", ...name.split(" "), ...(reading.pinch === null ? [] : [reading.pinch])].join("-");
  return { id, spoken, parts: layOut(reading) };
}

/**
 * The parts of glyphs, each once, and the glyphs as symbols: to stand in an SVG's `defs`.
 *
 * @param more parts to define besides
 */
export function glyphDefinitions(glyphs: readonly TablatureGlyph[], more: readonly Part[] = []): string {
  const all = [...glyphs.flatMap((glyph) => glyph.parts), ...more];
  const parts = new Map(all.map((part) => [partId(part), part]));
  const symbols = new Map(glyphs.map((glyph) => [glyph.id, glyph]));
  return [...parts.values()].map(drawPart).join("") + [...symbols.values()].map(glyphSymbol).join("");
}

function glyphSymbol({ id, parts }: TablatureGlyph): string {
  const uses = parts.map((part) => `<use href="#${partId(part)}" x="${part.box.x}" y="${part.box.y}"/>`).join("");
  const { width, height } = GLYPH_SIZE;
  return `<symbol id="${id}" viewBox="0 0 ${width} ${height}">${uses}</symbol>`;
}
