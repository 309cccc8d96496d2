// SPDX-License-Identifier: AGPL-3.0-or-later
// Every word that a reading can say is explained where it is said.
import { describe, expect, it } from "vitest";
import { allTerms, termsOf } from "../../reports/terms.js";
import { ENTRIES, FIGURES, PINCHES, STROKES } from "../../src/model/fingering.js";
import type { NoteJson } from "../../src/report.js";
import { sampleReport } from "./sample.js";

const [sample] = sampleReport().json.fingering.notes as [NoteJson];
const note = (spoken: string, more: Partial<NoteJson> = {}): NoteJson => ({ ...sample, spoken, ...more });
const names = (notes: readonly NoteJson[]): readonly string[] =>
  Object.values(termsOf(notes)).flatMap((terms) => terms.map(({ term }: { term: string }) => term));

describe("the terms", () => {
  it.each([...PINCHES, ...FIGURES])("explain the compound stroke %s", (compound) => {
    const [term] = termsOf([note("san x 3", { compound })]).compounds;
    expect(String(term?.characters)).toMatch(/^\p{Script=Han}{1,2}$/u);
    expect(String(term?.meaning)).toMatch(/^[a-z].+[^.]$/);
  });

  it.each(STROKES)("explain the stroke %s, and do not take it for a word of the left hand", (stroke) => {
    const { strokes, left } = termsOf([note(`san ${stroke} 3`, { stroke, compound: null })]);
    expect(strokes.map(({ term }) => term)).toEqual([stroke]);
    expect(left.map(({ term }) => term)).toEqual(["san"]);
  });

  it.each(ENTRIES)("explain the entry %s", (entry) => {
    expect(names([note(`${entry} da 9 tiao 6`, { stroke: "tiao" })])).toEqual([entry, "da", "tiao"]);
  });

  it("tell the fingers apart from the strokes and compounds of the same name", () => {
    expect(names([note("da 10 da 1", { stroke: "da" })])).toEqual(["da", "da"]);
    expect(names([note("san da yuan 3 6", { stroke: "tiao", compound: "da-yuan" })])).toEqual([
      "san",
      "tiao",
      "da yuan",
    ]);
  });

  it("explain what the left hand does alone", () => {
    const alone = { stroke: null, compound: null };
    expect(names([note("shang 7", alone), note("zhua qi", alone)])).toEqual(["shang", "zhua qi"]);
  });

  it("stand once each in the guide", () => {
    const { left, strokes, compounds } = allTerms();
    for (const terms of [left, strokes, compounds])
      expect(new Set(terms.map(({ term }) => term)).size).toBe(terms.length);
    expect(compounds).toHaveLength(new Set([...PINCHES, ...FIGURES]).size);
  });
});
