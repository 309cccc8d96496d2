// SPDX-License-Identifier: AGPL-3.0-or-later
// The grammar is this project's own writing of spoken readings: common practice, no source.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CONTACTS, FINGERS, NOTHING_GIVEN, STROKES, spokenForm } from "../../src/model/fingering.js";
import { isForm, readSpoken } from "../../src/read/fingering.js";
import { given as givenBy } from "../support/shorthand.js";
import { quarter, readBar, readFixture } from "./helpers.js";

const single = { figure: null, across: null, entry: null, ornament: null } as const;

describe("the spoken form", () => {
  test.each([
    ["san gou 1", { sound: "open", stroke: "gou", string: 1, arrival: "plucked" }],
    [
      "da 7.6 tiao 4",
      {
        sound: "stopped",
        finger: "thumb",
        contact: "tip",
        position: 7.6,
        stroke: "tiao",
        string: 4,
        arrival: "plucked",
      },
    ],
    [
      "ming jie 10 gou 3",
      {
        sound: "stopped",
        finger: "ring",
        contact: "joint",
        position: 10,
        stroke: "gou",
        string: 3,
        arrival: "plucked",
      },
    ],
    [
      "ming gui 7 mo 2",
      {
        sound: "stopped",
        finger: "ring",
        contact: "kneeling",
        position: 7,
        stroke: "mo",
        string: 2,
        arrival: "plucked",
      },
    ],
    ["fan 9 tiao 5", { sound: "harmonic", position: 9, stroke: "tiao", string: 5, arrival: "plucked" }],
    [
      "da 10 da 1",
      { sound: "stopped", finger: "thumb", contact: "tip", position: 10, stroke: "da", string: 1, arrival: "plucked" },
    ],
    ["san pi 6", { sound: "open", stroke: "bo", string: 6, arrival: "plucked" }],
    ["gou 3", { stroke: "gou", string: 3, arrival: "plucked" }],
    ["da 4", { stroke: "da", string: 4, arrival: "plucked" }],
    ["da 7.9", { sound: "stopped", finger: "thumb", contact: "tip", position: 7.9 }],
    ["fan 7", { sound: "harmonic", position: 7 }],
    ["san", { sound: "open" }],
    ["shang 7", { sound: "stopped", position: 7, arrival: "slid" }],
    ["xia 9", { sound: "stopped", position: 9, arrival: "slid" }],
    ["yan 9", { sound: "stopped", position: 9, arrival: "hammered" }],
    ["dai qi", { sound: "open", arrival: "pulled-off" }],
    ["zhua qi", { sound: "open", arrival: "pulled-off" }],
    ["qia qi", { sound: "stopped", finger: "ring", arrival: "pulled-off" }],
    ["  SAN-Gou\u00a01 ", { sound: "open", stroke: "gou", string: 1, arrival: "plucked" }],
  ])("%s", (text, given) => {
    expect(givenBy(text)).toEqual({ ...NOTHING_GIVEN, ...given, written: true, text: text.trim() });
  });

  test.each([
    ["san guo 1", "san gou 1"],
    ["san gou 9", "san gou 7"],
    ["da 17 tiao 4", "da 13.9 tiao 4"],
    ["da 7,9 tiao 4", "da 7.9 tiao 4"],
    ["ming jei 10 gou 3", "ming jie 10 gou 3"],
    ["fan 7.5 gou 2", "fan 8 gou 2"],
    ["fan 14", "fan 13"],
    ["dai qu", "dai qi"],
    ["san 1", "san bo 1"],
  ])("%s is not understood; nearest is %s", (text, nearest) => {
    const read = readSpoken(text);
    expect(read).toEqual({ nearest, unjudged: null });
    expect(isForm(readSpoken(nearest))).toBe(true);
  });

  test("whatever the text, the nearest form is itself understood", () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.stringMatching(/^(da|ming|san|gou|jie|fan|qi|[0-9.,]{1,5}| ){0,8}$/)),
        (text) => {
          const read = readSpoken(text);
          return isForm(read) || isForm(readSpoken(read.nearest));
        },
      ),
    );
  });

  test("what is written out is read back the same", () => {
    const strike = { stroke: fc.constantFrom(...STROKES), string: fc.integer({ min: 1, max: 7 }) };
    const tenths = fc.integer({ min: 10, max: 139 }).map((n) => n / 10);
    const stopped = fc.record({
      ...strike,
      sound: fc.constant("stopped" as const),
      position: tenths,
      finger: fc.constantFrom(...FINGERS),
      contact: fc.constantFrom(...CONTACTS),
    });
    const harmonic = fc.record({
      ...strike,
      sound: fc.constant("harmonic" as const),
      position: fc.integer({ min: 1, max: 13 }),
      finger: fc.constant(null),
      contact: fc.constant(null),
    });
    fc.assert(
      fc.property(fc.oneof(stopped, harmonic), (place) => {
        const form = spokenForm({ ...place, ...single, arrival: "plucked", previous: null });
        expect(givenBy(form)).toEqual({
          ...NOTHING_GIVEN,
          ...place,
          arrival: "plucked",
          written: true,
          text: form,
        });
      }),
    );
  });
});

describe("fingering lines", () => {
  test("a lyric line of spoken forms is fingering; sung words beside it are not", () => {
    const { notes, oddMarks } = readFixture("spoken-lyrics.musicxml");
    expect(notes.map(({ given }) => given.text)).toEqual([
      "san gou 1",
      "da 7.6 tiao 3",
      "ming-jie-10-gou-5",
      "shang 9",
      "fan 7 tiao 4",
      "",
    ]);
    expect(oddMarks).toEqual([
      { note: "p1b2n2", text: "whistle it", trouble: "unreadable", nearest: expect.any(String) },
    ]);
    expect(notes[0]?.lyrics).toEqual([
      { verse: "1", text: "san gou 1" },
      { verse: "2", text: "come" },
    ]);
  });

  test("words beside a note count when they are a spoken form, and are never odd", () => {
    const words = (text: string): string =>
      `<direction><direction-type><words>${text}</words></direction-type></direction>`;
    const { notes, oddMarks } = readBar(words("san gou 1") + quarter("C", 2) + words("slowly") + quarter("D", 2));
    expect(notes.map(({ given }) => given.string)).toEqual([1, null]);
    expect(oddMarks).toEqual([]);
  });

  test("each note of a chord carries its own form", () => {
    const lyric = (text: string): string => `<lyric><text>${text}</text></lyric>`;
    const { notes } = readBar(quarter("C", 3, lyric("san tiao 6")) + quarter("C", 2, lyric("san gou 1"), "<chord/>"));
    expect(notes.map(({ given }) => given.string)).toEqual([1, 6]);
  });
});

describe("technical marks", () => {
  test("strings count from the highest in MusicXML and from the lowest among players", () => {
    const { notes, oddMarks } = readFixture("technical-marks.musicxml");
    expect(notes[0]?.given).toMatchObject({
      sound: "open",
      string: 1,
      stroke: "gou",
      arrival: "plucked",
      written: true,
    });
    expect(notes[1]?.given).toMatchObject({
      sound: "stopped",
      string: 3,
      position: 7.6,
      finger: "ring",
      contact: "joint",
      stroke: "tiao",
      written: false,
    });
    expect(notes[2]?.given).toEqual(NOTHING_GIVEN);
    expect(notes[3]?.given).toMatchObject({ string: 5, stroke: "bo", finger: null });
    expect(oddMarks).toEqual([
      { note: "p1b1n3", text: "string 9", trouble: "unreadable", nearest: "string 4" },
      { note: "p1b1n3", text: "fingering 3", trouble: "unreadable", nearest: "ring joint" },
      { note: "p1b1n4", text: "da 7.6 tiao 5", trouble: "contradicted", nearest: "bo 5" },
    ]);
  });

  test("a harmonic with a string is a fingering, one alone is a wish", () => {
    const with_ = "<notations><technical><harmonic><natural/></harmonic><string>7</string></technical></notations>";
    const alone = "<notations><technical><harmonic><natural/></harmonic></technical></notations>";
    const { notes } = readBar(quarter("C", 4, with_) + quarter("C", 4, alone));
    expect(notes.map(({ given, marks }) => [given.sound, marks.harmonic])).toEqual([
      ["harmonic", true],
      [null, true],
    ]);
  });
});
