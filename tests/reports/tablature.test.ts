// SPDX-License-Identifier: AGPL-3.0-or-later
// The specimen of the tablature in the handbook: nothing left out, everything said in words.
import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { COMPONENT_FACTS, viewTablature } from "../../reports/handbook/tablature.js";
import type { OwnMarkup } from "../../reports/template.js";
import { COMPONENTS, drawingOf } from "../../src/engrave/tablature/components.js";
import { drawSpecimen } from "../../src/engrave/tablature/specimen.js";
import { FIGURES, ORNAMENTS, STROKES } from "../../src/model/fingering.js";
import { inLanguage, Phrase } from "../../src/words.js";

interface View {
  readonly symbols: OwnMarkup;
  readonly groups: readonly { readonly title: Phrase; readonly components: readonly ComponentView[] }[];
  readonly grids: readonly {
    readonly id: string;
    readonly title: Phrase;
    readonly words: Phrase;
    readonly head: readonly string[];
    readonly rows: readonly { readonly cells: readonly { readonly glyph: OwnMarkup; readonly spoken: string }[] }[];
  }[];
}

interface ComponentView {
  readonly drawing: OwnMarkup;
  readonly of: string;
  readonly meaning: Phrase;
  readonly grounds: unknown;
}

const specimen = drawSpecimen();
const view = viewTablature(specimen) as View;
const spoken = specimen.grids.flatMap(({ rows }) => rows.flatMap(({ cells }) => cells.map((cell) => cell.spoken)));

describe("the specimen", () => {
  it("shows every component once, with its meaning in both languages and where that comes from", () => {
    const shown = view.groups.flatMap(({ components }) => components);
    expect(shown).toHaveLength(COMPONENTS.length);
    expect(new Set(shown.map(({ drawing }) => drawing.markup)).size).toBe(COMPONENTS.length);
    for (const { meaning, grounds } of shown) {
      expect(meaning).toBeInstanceOf(Phrase);
      expect(meaning.zh).toMatch(/\p{Script=Han}/u);
      expect(String(grounds)).not.toBe("");
    }
  });

  it("names the character that a component is or is part of", () => {
    const same = COMPONENTS.filter((name) => {
      const drawing = drawingOf(name);
      return "character" in drawing && drawing.character === COMPONENT_FACTS[name].of;
    });
    // Numerals and signs that are written whole; of all others the full character is named.
    const whole = "half thumb middle reverse chang suo quan shang xia dai qia";
    expect(same).toEqual(`zero one two three four five six seven eight nine ten ${whole}`.split(" "));
  });

  it("has every stroke on every string, every compound and every ornament", () => {
    for (const stroke of STROKES)
      for (const string of [1, 2, 3, 4, 5, 6, 7]) expect(spoken).toContain(`san ${stroke} ${string}`);
    for (const figure of FIGURES)
      expect(spoken.some((said) => said.includes(` ${figure.replaceAll("-", " ")} `))).toBe(true);
    for (const ornament of ORNAMENTS) expect(spoken.some((said) => said.endsWith(` ${ornament}`))).toBe(true);
    for (const said of ["shang 7.6", "xia 10.8", "yan 9", "dai qi", "zhua qi", "qia qi"])
      expect(spoken).toContain(said);
  });

  it("shows every component in some glyph, too", () => {
    const used = new Set([...specimen.symbols.matchAll(/<use href="#jz-([a-z-]+)-\d/g)].map(([, name]) => name));
    expect(COMPONENTS.filter((name) => name !== "zero" && !used.has(name))).toEqual([]);
  });

  it("says each glyph beside it and refers only to what is defined", () => {
    const ids = new Set([...specimen.symbols.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
    const markups = [
      ...view.groups.flatMap(({ components }) => components.map(({ drawing }) => drawing.markup)),
      ...view.grids.flatMap(({ rows }) => rows.flatMap(({ cells }) => cells.map(({ glyph }) => glyph.markup))),
      specimen.symbols,
    ];
    for (const markup of markups) for (const [, id] of markup.matchAll(/href="#([^"]+)"/g)) expect(ids).toContain(id);
    expect(spoken.filter((said) => said === "")).toEqual([]);
    for (const { head, rows } of view.grids) for (const { cells } of rows) expect(cells).toHaveLength(head.length);
  });

  it("is written in Chinese as well", () => {
    const zh = inLanguage(view, "zh") as unknown as { grids: { title: string; words: string }[] };
    for (const { title, words } of zh.grids) for (const text of [title, words]) expect(text).toMatch(/\p{Script=Han}/u);
  });

  it("stays within 280 kilobytes, 60 packed", () => {
    expect(specimen.symbols.length).toBeLessThan(280_000);
    expect(gzipSync(specimen.symbols).length).toBeLessThan(60_000);
  });
});
