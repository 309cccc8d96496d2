// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { CELL_SIZE_PX, type CellNote, drawCells, readingOf } from "../../src/engrave/cell.js";
import { composeGlyph } from "../../src/engrave/tablature/glyph.js";
import { GLYPH_SIZE, type TablatureReading } from "../../src/engrave/tablature/layout.js";
import { spokenForm } from "../../src/model/fingering.js";
import { harmonic, open, plainReadings, richReadings, stopped, unpluckedReadings } from "../support/tablature.js";

/** A reading as JSON prints it. */
function printed(reading: TablatureReading): CellNote {
  const { sound, string, position, finger, contact, arrival, stroke, figure, pinch } = reading;
  const note = { sound, string, position, writtenPosition: null, finger, contact, arrival, stroke };
  return { ...note, compound: figure ?? pinch, spoken: spokenForm(reading) };
}

const NONE: CellNote = { ...printed(open({})), sound: null, string: null, arrival: null, spoken: null };

describe("a cell", () => {
  it("shows the glyph of what the note is, read back from its JSON", () => {
    const readings = [...plainReadings().filter((_, i) => i % 7 === 0), ...richReadings(), ...unpluckedReadings()];
    const ids = readings.map((reading) => composeGlyph(reading).id);
    const back = readings.map((reading) => {
      const read = readingOf(printed(reading));
      return read === null ? null : composeGlyph(read).id;
    });
    expect(back.filter((id, i) => id !== ids[i])).toEqual([]);
  });

  it("shows the place as its writer wrote it", () => {
    const note = printed(stopped({ position: 10.8, stroke: "gou", string: 3 }));
    const read = readingOf({ ...note, writtenPosition: 11, spoken: "da 11 gou 3" });
    expect(read?.position).toBe(11);
  });

  it("has the glyph of bo where the stroke is called pi", () => {
    const note = printed(open({ stroke: "bo", string: 6, thumbStroke: "pi" }));
    expect(note.spoken).toBe("san pi 6");
    expect(drawCells([note]).ids).toEqual(["jz-san-bo-6"]);
  });

  it("is shared by notes that are said alike, and defined once", () => {
    const notes = [
      printed(stopped({ position: 7.6, stroke: "tiao", string: 4 })),
      printed(open({ stroke: "gou", string: 1 })),
      printed(stopped({ position: 7.6, stroke: "tiao", string: 4 })),
      printed(harmonic({ position: 9, stroke: "tiao", string: 5 })),
    ];
    const { ids, symbols } = drawCells(notes);
    expect(ids).toEqual(["jz-da-7.6-tiao-4", "jz-san-gou-1", "jz-da-7.6-tiao-4", "jz-fan-9-tiao-5"]);
    for (const id of ids) expect(symbols.split(`id="${id}"`)).toHaveLength(2);
  });

  it("is a broken frame where the note has no place, and defines that only then", () => {
    expect(drawCells([NONE])).toEqual({ ids: ["jz-no-place"], symbols: expect.stringContaining("stroke-dasharray") });
    expect(drawCells([printed(open({ stroke: "gou", string: 1 }))]).symbols).not.toContain("jz-no-place");
  });

  it("has the shape of its glyph", () => {
    expect(CELL_SIZE_PX.width / CELL_SIZE_PX.height).toBe(GLYPH_SIZE.width / GLYPH_SIZE.height);
  });
});
