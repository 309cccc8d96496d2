// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, it, vi } from "vitest";
import { type Engraving, EngravingProblem, engrave } from "../../src/engrave/staff.js";
import { parseSvg } from "../../src/engrave/svg-tree.js";
import type { Score } from "../../src/model/score.js";
import { sampleReport } from "../reports/sample.js";
import { melody } from "./melody.js";

function draw(score: Score, marked: readonly string[] = []): Promise<Engraving> {
  const cells = new Map(score.notes.map((note) => [note.id, "cell-test"]));
  return engrave(score, cells, { marked: new Set(marked) });
}

const DENSE = "C3:1/4 D3:1/4 F#3:1/4 G3:1/4 A3:1/4 C4:1/4 D4:1/4 E4:1/4 C3:1/2 Bb2:1/2 G2:1/3 A2:1/3 C3:1/3";
/** A cell's drawing is 36 of its 40 px wide; 25 units are one px. */
const DRAWN_WIDTH_UNITS = 900;

describe("cells under the notes", () => {
  it.each([
    ["the sample tune", sampleReport().score],
    ["a dense bar", melody(`${DENSE} | ${DENSE} | C3:4`)],
    ["whole notes, chords and low notes", melody("C2:4 | C2+C3:2 G2+D3:2 | A1:1 B1:1 C2:2")],
    ["a bar of sixty-fourths", melody(Array.from({ length: 32 }, () => "C3:1/16").join(" "))],
  ])("stand centred under their noteheads, apart from each other: %s", async (_, score) => {
    const { systems } = await draw(score);
    for (const system of systems) {
      expect(system.smallestGapUnits).toBeGreaterThan(DRAWN_WIDTH_UNITS);
      // The alarm for a change in the engraver: its placeholders must stay where the noteheads are.
      for (const { note, cell, head } of system.centres) expect(Math.abs(cell - head), note).toBeLessThanOrEqual(2);
    }
    const placed = systems.flatMap((system) => system.centres.map(({ note }) => note));
    const leads = score.notes.filter((note) => !note.grace && (note.chord === null || note.chord === note.id));
    expect(placed).toEqual(leads.map((note) => note.id));
  });

  it("stand on one line in every line of music, but for chords", async () => {
    const { systems } = await draw(melody("C2:1 C4:1 G2:1 D4:1 | A3:4"));
    for (const { svg } of systems) {
      const rows = new Set([...svg.matchAll(/class="cell"[^>]* y="(-?\d+)"/g)].map((match) => match[1]));
      expect(rows.size).toBe(1);
    }
  });

  it("are stacked for a chord, highest note on top", async () => {
    const { systems } = await draw(melody("C3+G3:4"));
    const cells = [...(systems[0]?.svg ?? "").matchAll(/class="cell" data-note="(\w+)"[^>]* y="(-?\d+)"/g)];
    expect(cells.map((match) => match[1])).toEqual(["n1", "n0"]);
    expect(Number(cells[0]?.[2])).toBeLessThan(Number(cells[1]?.[2]));
  });

  it("leave room for grace notes on the left", async () => {
    const { systems } = await draw(melody("C3:1 g:D3 g:E3 F3:1 C3:2"));
    const xs = [...(systems[0]?.svg ?? "").matchAll(/class="cell"[^>]* x="(-?\d+)"[^>]* width="(\d+)"/g)]
      .map((match) => ({ from: Number(match[1]), to: Number(match[1]) + Number(match[2]) }))
      .sort((a, b) => a.from - b.from);
    expect(xs).toHaveLength(5);
    xs.slice(1).forEach((cell, i) => {
      expect(cell.from).toBeGreaterThanOrEqual((xs[i]?.to ?? 0) - 100);
    });
  });
});

describe("cells of grace notes", () => {
  it.each([
    ["opening a bar", "C3:4 | g:D3 C3:4"],
    ["two opening a bar", "C3:4 | g:D3 g:E3 C3:4"],
    ["three opening a bar, low", "C3:4 | g:A1 g:B1 g:D2 C2:4"],
    ["after a rest", "C3:4 | r:1/4 g:D3 C3:1/4 D3:1/2 E3:1 F3:2"],
    ["after a tied note", "C3:4~ | C3:1/4 g:D3 g:E3 C3:1/4 D3:1/2 E3:1 F3:2"],
    ["in a crowded bar", `C3:1 g:D3 C3:3 | g:D3 C3:1/16 ${Array.from({ length: 24 }, () => "C3:1/8").join(" ")}`],
  ])("stay on their side of the bar line: %s", async (_, text) => {
    const score = melody(text);
    const { systems } = await draw(score);
    for (const { svg, bars, notes, widthPx } of systems) {
      const edges = [...svg.matchAll(/class="cell" data-note="(\w+)"[^>]* x="(-?[\d.]+)"/g)];
      for (const [, note = "", x] of edges) {
        const bar = bars.find((one) => one.bar === score.notes.find(({ id }) => id === note)?.bar);
        expect(Number(x), note).toBeGreaterThanOrEqual((bar?.from ?? 1) * widthPx * 25 - 20);
        expect(notes.get(note)).toBeGreaterThan(bar?.from ?? 1);
        expect(notes.get(note)).toBeLessThan(bar?.to ?? 0);
      }
    }
  });

  it("have their full size at the start of a bar", async () => {
    const { systems } = await draw(melody("C3:4 | g:D3 g:E3 C3:4 | g:D3 C3:4"));
    const widths = systems.flatMap(({ svg }) =>
      [...svg.matchAll(/class="cell"[^>]* width="([\d.]+)"/g)].map((match) => Number(match[1])),
    );
    expect(widths).toEqual([1000, 750, 750, 1000, 750, 1000]);
  });
});

describe("the drawing", () => {
  it("is the same every time", async () => {
    const score = sampleReport().score;
    expect(JSON.stringify(await draw(score))).toBe(JSON.stringify(await draw(score)));
  });

  it("places every bar and every mark", async () => {
    const score = sampleReport().score;
    const marked = score.notes.filter((note, i) => i % 3 === 0 && !note.grace).map((note) => note.id);
    const { systems } = await draw(score, marked);
    expect(systems.flatMap((system) => system.bars.map(({ bar }) => bar))).toEqual(
      score.bars.map(({ index }) => index),
    );
    expect(systems.flatMap((system) => system.marks.flatMap(({ notes }) => notes)).sort()).toEqual([...marked].sort());
    for (const mark of systems.flatMap((system) => system.marks)) {
      expect(mark.x).toBeGreaterThan(0);
      expect(mark.x).toBeLessThan(1);
      expect(mark.y).toBeGreaterThan(0);
      expect(mark.y).toBeLessThan(0.5);
    }
  });

  it("refers only to its own glyphs and cells, and is well-formed", async () => {
    const { systems, glyphs } = await draw(sampleReport().score);
    const defined = new Set([...glyphs.join("").matchAll(/ id="([^"]+)"/g)].map((match) => `#${match[1]}`));
    for (const { svg } of systems) {
      expect(() => parseSvg(svg)).not.toThrow();
      expect(svg).not.toMatch(/ id="/);
      for (const [, href] of svg.matchAll(/ href="([^"]+)"/g))
        expect(href === "#cell-test" || defined.has(href ?? "")).toBe(true);
    }
  });

  it("escapes ids and labels that come from the score", async () => {
    const score = melody("C4:4", { bars: [{ label: "<b>&" }] });
    const [first] = score.notes;
    if (first === undefined) throw new Error("no note");
    const hostile = { ...score, notes: [{ ...first, id: '"><script>alert(1)</script>' }] };
    const { systems } = await draw(hostile);
    expect(systems[0]?.svg).not.toContain("<script>");
    expect(systems[0]?.svg).not.toContain("<b>");
  });

  it("of a crowded line writes nothing to the console", async () => {
    const spies = (["log", "info", "warn", "error", "debug"] as const).map((name) => vi.spyOn(console, name));
    // So many rests between the notes that the bar must be pressed together, of which Verovio warns.
    await draw(melody(Array.from({ length: 128 }, () => "r:1/16 C3:1/64 r:1/64").join(" ")));
    const words = spies.flatMap((spy) => spy.mock.calls.map(String));
    for (const spy of spies) spy.mockRestore();
    expect(words).toEqual([]);
  });

  it("says so when the melody cannot be drawn, and goes on with the next", async () => {
    await expect(draw(melody("C4:1/3000 D4:3"))).rejects.toThrow(EngravingProblem);
    expect((await draw(melody("C4:4"))).systems).toHaveLength(1);
  });
});
