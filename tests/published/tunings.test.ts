// SPDX-License-Identifier: AGPL-3.0-or-later
// Tunings: their pitches and degrees after J. Thompson, silkqin.com (pages on the tunings of 1425 and 1525 and the list of
// 39 tunings), and Ling Tingkan, Yanyue kaoyuan; side tuning (ceshang) and wumei from memory. Which degree each open
// string is follows from pitches and gong and is computed; the sources print the same for those marked "printed".
import { describe, expect, test } from "vitest";
import { DEGREES, degreeAbove, isCore } from "../../src/model/note-table.js";
import { parsePitch, semitoneOf } from "../../src/model/pitch.js";
import { findTuning, TUNINGS } from "../../src/model/tuning.js";

/** name, pitches of string 1 to 7, gong, degrees, whether all open strings are tones of the pentatonic scale, printed */
const OPEN_STRINGS = [
  ["zhengdiao", "C2 D2 F2 G2 A2 C3 D3", "F", "5 6 1 2 3 5 6", true, "printed"],
  ["ruibin", "C2 D2 F2 G2 Bb2 C3 D3", "Bb", "2 3 5 6 1 2 3", true, "printed"],
  ["manjue", "C2 D2 E2 G2 A2 C3 D3", "C", "1 2 3 5 6 1 2", true, "printed"],
  ["mangong", "B1 D2 E2 G2 A2 B2 D3", "G", "3 5 6 1 2 3 5", true, "printed"],
  ["yizejun", "C2 Eb2 F2 Ab2 Bb2 C3 Eb3", "Ab", "3 5 6 1 2 3 5", true, "printed"],
  ["qingshang", "C2 Eb2 F2 G2 Bb2 C3 Eb3", "Eb", "6 1 2 3 5 6 1", true, "printed"],
  ["qiliang", "C2 Eb2 F2 G2 Bb2 C3 D3", "Bb", "2 4 5 6 1 2 3", false, "printed"],
  ["huangzhong", "Bb1 D2 F2 G2 Bb2 C3 D3", "Bb", "1 3 5 6 1 2 3", true, "printed"],
  ["manshang", "C2 C2 F2 G2 A2 C3 D3", "F", "5 5 1 2 3 5 6", true, "computed"],
  ["yunu", "B1 D2 E2 G2 A2 C3 D3", "G", "3 5 6 1 2 4 5", false, "computed"],
  ["qingdiao", "C2 D2 F2 G2 Bb2 C3 Eb3", "Bb", "2 3 5 6 1 2 4", false, "computed"],
  ["ceshang", "C2 D2 E2 F#2 A2 B2 D3", "D", "♭7 1 2 3 5 6 1", false, "computed"],
  ["wumei", "C2 D2 E2 G2 A2 B2 D3", "G", "4 5 6 1 2 3 5", false, "computed"],
] as const;

const semitone = (name: string): number => {
  const pitch = parsePitch(name);
  if (pitch === null) throw new Error(`no pitch: ${name}`);
  return semitoneOf(pitch);
};

test("every tuning is checked", () => {
  expect(TUNINGS.map(({ name }) => name).sort()).toEqual(OPEN_STRINGS.map(([name]) => name).sort());
});

describe.each(OPEN_STRINGS)("%s", (name, pitches, gong, degrees, pentatonic) => {
  const tuning = findTuning(name);

  test("has its pitches and its gong", () => {
    expect(tuning.strings.join(" ")).toBe(pitches);
    expect(tuning.semitones).toEqual(pitches.split(" ").map(semitone));
    expect(tuning.gong).toBe(semitone(`${gong}4`) % 12);
  });

  test("has its degrees", () => {
    const degreeOf = (open: number): string | undefined =>
      DEGREES.find(({ semitones }) => semitones === degreeAbove(open, tuning.gong))?.degree;
    expect(tuning.semitones.map(degreeOf).join(" ")).toBe(degrees);
    expect(tuning.semitones.every((open) => isCore(open, tuning.gong))).toBe(pentatonic);
  });
});

test("slack 1-3-6 a semitone up is tight 2-4-5-7 (both recipes of one tuning in the 1425 and 1525 handbooks)", () => {
  const up = findTuning("slack 1-3-6").semitones.map((open) => open + 1);
  expect(up).toEqual(findTuning("tight 2-4-5-7").semitones);
});

test("the gong of the Song and Yuan scheme stands on string 1, 2, 3, 4 or 5 (Ling Tingkan)", () => {
  const gongString = (name: string): number => {
    const { gong, semitones } = findTuning(name);
    return semitones.findIndex((open) => open % 12 === gong) + 1;
  };
  expect(["manjue", "qingshang", "zhengdiao", "mangong", "ruibin"].map(gongString)).toEqual([1, 2, 3, 4, 5]);
});
