// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { type CellNote, drawCell } from "../../src/engrave/cell.js";
import { parseSvg, textOf } from "../../src/engrave/svg-tree.js";

const STOPPED: CellNote = {
  sound: "stopped",
  string: 4,
  position: 7.6,
  writtenPosition: null,
  finger: "thumb",
  contact: "tip",
  arrival: "plucked",
  stroke: "tiao",
  compound: null,
  spoken: "da 7.6 tiao 4",
};
const OPEN: CellNote = {
  ...STOPPED,
  sound: "open",
  string: 1,
  position: null,
  finger: null,
  contact: null,
  stroke: "gou",
  compound: null,
  spoken: "san gou 1",
};
const HARMONIC: CellNote = {
  ...OPEN,
  sound: "harmonic",
  string: 5,
  position: 9,
  stroke: "tiao",
  compound: null,
  spoken: "fan 9 tiao 5",
};
const SLID: CellNote = { ...STOPPED, position: 9, arrival: "slid", stroke: null, spoken: "xia 9" };
const NONE: CellNote = { ...OPEN, sound: null, string: null, arrival: null, stroke: null, spoken: null };

/** The words of a cell from top to bottom. */
function words(note: CellNote): string {
  const texts = [...drawCell(note).symbol.matchAll(/<text [^>]*y="(\d+)"[^>]*>(.*?)<\/text>/g)];
  const sorted = texts.sort((a, b) => Number(a[1]) - Number(b[1]));
  return sorted.map((text) => textOf(parseSvg(`<t>${text[2]}</t>`))).join(" ");
}

describe("a cell", () => {
  it.each([
    [STOPPED, "da 7.6 tiao 4"],
    [OPEN, "san gou 1"],
    [HARMONIC, "fan 9 tiao 5"],
    [{ ...STOPPED, contact: "joint", spoken: "da jie 7.6 tiao 4" } as const, "da jie 7.6 tiao 4"],
    [{ ...STOPPED, stroke: "da", spoken: "da 7.6 da 4" } as const, "da 7.6 da 4"],
    [{ ...STOPPED, stroke: "zhai", compound: "lun", spoken: "chuo da 7.6 lun 4" } as const, "chuo da 7.6 lun 4"],
    [{ ...OPEN, string: 7, stroke: "tiao", compound: "li", spoken: "san li 7 5" } as const, "san li 7 5"],
    [{ ...OPEN, compound: "large-cuo" } as const, "san gou 1"],
    [SLID, "xia 9 · 4"],
    [{ ...OPEN, arrival: "pulled-off", stroke: null, spoken: "dai qi" } as const, "dai qi · 1"],
    [NONE, "no place"],
  ])("reads from top to bottom as it is said: $1", (note, said) => {
    expect(words(note)).toBe(said);
  });

  it("differs in shape, not in colour, between open, stopped, harmonic and slid", () => {
    const shapes = [STOPPED, OPEN, HARMONIC, SLID].map((note) =>
      drawCell(note)
        .symbol.replace(/<text.*?<\/text>/g, "")
        .replace(/ id="[^"]*"/, ""),
    );
    expect(new Set(shapes).size).toBe(4);
    for (const shape of shapes) expect(shape).not.toMatch(/#[0-9a-f]{3,6}|rgb\(/i);
  });

  it("is shared by notes that are played alike, and by no others", () => {
    expect(drawCell({ ...STOPPED }).id).toBe(drawCell(STOPPED).id);
    expect(drawCell({ ...SLID, string: 5 }).id).not.toBe(drawCell(SLID).id);
    expect(drawCell(OPEN).id).not.toBe(drawCell(HARMONIC).id);
  });
});
