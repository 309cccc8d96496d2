// SPDX-License-Identifier: AGPL-3.0-or-later
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CONTACTS, FINGERS, type SpokenNote, STROKES, spokenForm } from "../../src/model/fingering.js";
import { isForm, readSpoken } from "../../src/read/fingering.js";
import { given } from "../support/shorthand.js";

const tenth = fc.integer({ min: 10, max: 139 }).map((tenths) => tenths / 10);
const single = { figure: null, across: null, entry: null, ornament: null } as const;
const plain = { ...single, previous: null, finger: null, contact: null } as const;

const open = fc.constant({ ...plain, sound: "open" as const, position: null });
const harmonic = fc
  .integer({ min: 1, max: 13 })
  .map((position) => ({ ...plain, sound: "harmonic" as const, position }));
const stopped = fc.record({
  figure: fc.constant(null),
  across: fc.constant(null),
  entry: fc.constant(null),
  ornament: fc.constant(null),
  sound: fc.constant("stopped" as const),
  position: tenth,
  finger: fc.constantFrom(...FINGERS),
  contact: fc.constantFrom(...CONTACTS),
  previous: fc.constant(null),
});

const plucked: fc.Arbitrary<SpokenNote> = fc
  .tuple(fc.oneof(open, harmonic, stopped), fc.constantFrom(...STROKES), fc.integer({ min: 1, max: 7 }))
  .map(([place, stroke, string]) => ({ ...place, stroke, string, arrival: "plucked" }));

const slid: fc.Arbitrary<SpokenNote> = fc
  .tuple(stopped, tenth)
  .filter(([place, from]) => place.position !== from)
  .map(([place, from]) => ({
    ...place,
    string: 4,
    stroke: null,
    arrival: "slid",
    previous: { position: from, finger: place.finger },
  }));

describe("the spoken form", () => {
  test("of a plucked note is read back whole", () => {
    fc.assert(
      fc.property(plucked, (note) => {
        const { previous: _, figure: __, ...whole } = note;
        expect(given(spokenForm(note))).toMatchObject(whole);
      }),
      { numRuns: 1000 },
    );
  });

  test("of a slid note gives where to; string and finger are those of the note before", () => {
    fc.assert(
      fc.property(slid, (note) => {
        const read = given(spokenForm(note));
        expect(read).toMatchObject({ arrival: "slid", sound: "stopped", position: note.position, stroke: null });
        expect(read).toMatchObject({ finger: null, string: null });
      }),
    );
  });

  test("of a note that the left hand sounds is read back as such", () => {
    const note: SpokenNote = {
      ...plain,
      sound: "open",
      position: null,
      string: 3,
      stroke: null,
      arrival: "pulled-off",
    };
    const letGo = (finger: "thumb" | "ring") => spokenForm({ ...note, previous: { position: 9, finger } });
    expect([letGo("thumb"), letGo("ring")]).toEqual(["zhua qi", "dai qi"]);
    for (const text of [letGo("thumb"), letGo("ring")])
      expect(given(text)).toMatchObject({ arrival: "pulled-off", sound: "open" });
    const hammered: SpokenNote = {
      ...note,
      sound: "stopped",
      position: 7,
      finger: "thumb",
      contact: "tip",
      arrival: "hammered",
    };
    expect(given(spokenForm(hammered))).toMatchObject({ arrival: "hammered", sound: "stopped", position: 7 });
    const held: SpokenNote = { ...hammered, position: 9, finger: "ring", arrival: "pulled-off" };
    expect(given(spokenForm(held))).toMatchObject({ arrival: "pulled-off", sound: "stopped", finger: "ring" });
  });

  test("never breaks the reader, and what it does not understand is answered with something that it does", () => {
    const words = fc.constantFrom(
      "san",
      "fan",
      "da",
      "ming",
      "jie",
      "gou",
      "tiao",
      "shang",
      "qi",
      "7",
      "7.6",
      "9,",
      "x",
    );
    fc.assert(
      fc.property(fc.array(words, { maxLength: 6 }), (list) => {
        const read = readSpoken(list.join(" "));
        const understood = isForm(read) ? read : readSpoken(read.nearest);
        expect(isForm(understood)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });
});
