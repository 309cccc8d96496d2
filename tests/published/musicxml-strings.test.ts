// SPDX-License-Identifier: AGPL-3.0-or-later
// W3C MusicXML 4.0 (musicxml.xsd): string numbers go from high to low, 1 for the highest full-length string. Players of
// the guqin count the other way, 1 for the lowest (J. Thompson, silkqin.com), so n in the file is string 8 - n. Octave 4
// begins at middle C; fingering, pluck and open-string are marks under <technical>.
import { describe, expect, test } from "vitest";
import { semitoneOf } from "../../src/model/pitch.js";
import { readScore } from "../../src/read/score.js";

function readNote(technical: string, pitch = "<step>C</step><octave>3</octave>") {
  const notations = `<notations><technical>${technical}</technical></notations>`;
  const text = `<?xml version="1.0"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Qin</part-name>
    </score-part></part-list><part id="P1"><measure number="1"><attributes><divisions>1</divisions></attributes>
    <note><pitch>${pitch}</pitch><duration>4</duration>${notations}</note></measure></part></score-partwise>`;
  const [note] = readScore(new TextEncoder().encode(text), "one-note.musicxml").score.notes;
  if (note === undefined) throw new Error("no note was read");
  return note;
}

describe("string numbers", () => {
  test.each([1, 2, 3, 4, 5, 6, 7])("%i in the file", (number) => {
    expect(readNote(`<string>${number}</string>`).given.string).toBe(8 - number);
  });

  test("an eighth string is no string", () => {
    expect(readNote("<string>8</string>").given.string).toBeNull();
  });
});

test("marks under technical are read", () => {
  const { given } = readNote("<string>4</string><fingering>ring joint</fingering><pluck>gou</pluck>");
  expect(given).toMatchObject({ string: 4, finger: "ring", contact: "joint", stroke: "gou", written: true });
  expect(readNote("<open-string/>").given.sound).toBe("open");
});

test.each([
  ["<step>C</step><octave>4</octave>", 60],
  ["<step>C</step><octave>2</octave>", 36],
  ["<step>B</step><alter>-1</alter><octave>2</octave>", 46],
])("%s", (pitch, note) => {
  expect(semitoneOf(readNote("<open-string/>", pitch).sounding)).toBe(note);
});
