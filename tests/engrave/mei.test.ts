// SPDX-License-Identifier: AGPL-3.0-or-later
// The engraver's document, read back by Verovio 6.3.0 (an independent reader): every note must sound at the moment, and
// with the pitch, that the score says.
import fc from "fast-check";
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";
import { beforeAll, describe, expect, it } from "vitest";
import { writeMei } from "../../src/engrave/mei.js";
import { semitoneOf } from "../../src/model/pitch.js";
import type { Score } from "../../src/model/score.js";
import { melody } from "./melody.js";

const NO_ROWS = { cells: new Set<string>(), marked: new Set<string>() };

let verovio: VerovioToolkit;
beforeAll(async () => {
  verovio = new VerovioToolkit(await createModule());
});

/** Onset in quarters by note id, as Verovio reads the document. */
function readBack(score: Score): ReadonlyMap<string, number> {
  verovio.setOptions({ expandNever: true });
  if (!verovio.loadData(writeMei(score, NO_ROWS).xml)) throw new Error("Verovio refused the document");
  const events = verovio.renderToTimemap({});
  return new Map(events.flatMap(({ on, qstamp }) => (on ?? []).map((id) => [id, qstamp] as const)));
}

function expectSameNotes(score: Score): void {
  const onsets = readBack(score);
  score.notes.forEach((note, i) => {
    if (note.grace) return;
    expect(onsets.get(`n${i}`), `note ${i}`).toBeCloseTo(note.onset.valueOf(), 4);
  });
}

describe("the document", () => {
  it.each([
    ["plain values, dots and rests", "C4:1 D4:3/2 r:1/2 E4:1 | r:4 | F4:5/2 G4:3/2"],
    ["triplets, quintuplets and a tie inside", "C4:1/3 D4:1/3 E4:1/3 F4:2/5 G4:1/5 A4:2/5 B4:1 C5:4/3~ C5:2/3"],
    ["ties over bar lines", "C4:2 D4:2~ | D4:4~ | D4:1/2 E4:1/2 F4:3"],
    ["chords, and a chord that is tied", "C3+G3:1 D3:1 E3+B3:2~ | E3+B3:2 C3:2"],
    ["notes shorter than a beat", "C4:1/4 D4:1/4 E4:1/2 F4:1/8 G4:1/8 A4:1/4 B4:1/2 C5:2"],
  ])("keeps %s", (_, text) => {
    expectSameNotes(melody(text));
  });

  it("keeps the moments of random melodies", () => {
    const length = fc.constantFrom("1/4", "1/3", "1/2", "2/3", "3/4", "1", "4/3", "3/2", "2", "2/5", "1/6", "5/2");
    const note = fc.tuple(fc.constantFrom("C3", "D3", "F#3", "G3", "Bb3", "r"), length, fc.boolean());
    const bar = fc.array(note, { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(fc.array(bar, { minLength: 1, maxLength: 4 }), (bars) => {
        const text = bars.map((notes) => notes.map(([name, size]) => `${name}:${size}`).join(" ")).join(" | ");
        expectSameNotes(melody(text));
      }),
      { numRuns: 60 },
    );
  });

  it("prints accidentals that make the pitch", () => {
    // One flat in the key; a natural, a sharp that holds to the bar line, and the key again after it.
    const score = melody("Bb3:1 B3:1 F#3:1 F#3:1 | F3:1 Bb3:1 B3:1 Bb3:1", { fifths: -1 });
    const printed = [...writeMei(score, NO_ROWS).xml.matchAll(/<note [^>]*?(?:accid="(\w+)")?\/>/g)].map((m) => m[1]);
    expect(printed).toEqual([undefined, "n", "s", undefined, undefined, undefined, "n", "f"]);
    readBack(score);
    const withKey = score.notes.map((note, i) => [note.written.step, verovio.getMIDIValuesForElement(`n${i}`).pitch]);
    score.notes.forEach((note, i) => {
      if (printed[i] !== undefined) expect(withKey[i]?.[1]).toBe(semitoneOf(note.written));
    });
  });

  it("beams within the beat, and keeps tuplets together", () => {
    const xml = writeMei(melody("C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/3 A4:1/3 B4:1/3 C5:1/2 r:1/2"), NO_ROWS).xml;
    expect(xml.match(/<beam>/g)).toHaveLength(2);
    expect(xml).toContain('<tuplet num="3" numbase="2"><beam>');
  });

  it("writes repeats, endings, key and meter changes", () => {
    const score = melody("C4:4 | D4:4 | E4:4 | F4:3", {
      bars: [
        { repeatStart: true },
        { endings: [1], repeatTimes: 2 },
        { endings: [2] },
        { meter: { beats: 3, beatType: 4 }, key: { fifths: 2, mode: null } },
      ],
    });
    const { xml } = writeMei(score, NO_ROWS);
    expect(xml).toContain('left="rptstart"');
    expect(xml).toMatch(/<ending n="1"[^>]*><measure[^>]*right="rptend"/);
    expect(xml).toMatch(/<ending n="2"/);
    expect(xml).toContain('<scoreDef keysig="2s" meter.count="3" meter.unit="4"/>');
    expectSameNotes(score);
  });

  it.each([
    ["C2:4", 'clef.shape="F"'],
    ["C5:4", 'clef.shape="G" clef.line="2" keysig'],
    ["C4:1 G3:1 A3:1 E4:1", 'clef.dis="8"'],
  ])("takes a clef that suits the range of %s", (text, expected) => {
    expect(writeMei(melody(text), NO_ROWS).xml).toContain(expected);
  });

  it("escapes bar labels", () => {
    const { xml } = writeMei(melody("C4:4", { bars: [{ label: '"><script>' }] }), NO_ROWS);
    expect(xml).not.toContain("<script>");
  });
});
