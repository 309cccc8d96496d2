// SPDX-License-Identifier: AGPL-3.0-or-later
// The legend under the score: only what the score uses, and how print and sound differ.

import { describe, expect, it } from "vitest";
import { SIGNS, soundingWords, viewSigns } from "../../reports/check-signs.js";
import type { NoteJson } from "../../src/report.js";
import { inWords } from "../../src/words.js";
import { sampleReport } from "./sample.js";

const [sample] = sampleReport().json.fingering.notes as [NoteJson];
const plucked: NoteJson = { ...sample, arrival: "plucked", compound: null, grace: false };

describe("the legend of signs", () => {
  const meanings = (more: Partial<NoteJson>): readonly string[] =>
    viewSigns(SIGNS, [plucked, { ...plucked, ...more }], new Map()).map(
      ({ meaning }) => String(meaning).split(/[:.]/)[0] ?? "",
    );

  it("is empty for plain plucks", () => {
    expect(meanings({})).toEqual([]);
  });

  it.each([
    [{ arrival: "slid" }, "slide"],
    [{ arrival: "pulled-off" }, "pull-off"],
    [{ arrival: "hammered" }, "hammer-on"],
    [{ compound: "large-cuo" }, "pinch"],
    [{ compound: "lun" }, "compound stroke"],
    [{ grace: true }, "a smaller glyph"],
    [{ sound: null, spoken: null }, "a note that cannot be played on this instrument as set up here"],
  ] as const)("explains %j", (more, word) => {
    expect(meanings(more)).toEqual([word]);
  });
});

describe("the sentence above the staff", () => {
  const said = (...pairs: readonly (readonly [string, string])[]): string =>
    inWords(soundingWords(pairs.map(([written, sounding]) => ({ ...sample, written, sounding }))), "en");

  it("is left out where the notes sound as printed", () => {
    expect(said(["D4", "D4"], ["Bb2", "Bb2"])).toBe("");
  });

  it.each([
    ["D4", "D3", "an octave lower"],
    ["Bb4", "Eb3", "an octave and a fifth lower"],
    ["F#3", "G#3", "a whole tone higher"],
  ])("says how far %s and %s are apart", (written, sounding, words) => {
    expect(said([written, sounding])).toBe(
      `The staff shows the notes as they are printed in the score; on the guqin they sound ${words}.`,
    );
  });

  it("leads to the table where the notes are shifted by different intervals", () => {
    expect(said(["D4", "D3"], ["D4", "D4"])).toContain("names both pitches");
  });
});
