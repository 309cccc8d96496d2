// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import type { Sound } from "../../src/model/fingering.js";
import { spell } from "../../src/model/pitch.js";
import type { Strung } from "../../src/model/places.js";
import { TEMPERAMENTS } from "../../src/model/temperament.js";
import { findTuning, STANDARD, TUNINGS } from "../../src/model/tuning.js";
import { compass, parseQuestion, spotsOf } from "../../src/model/where.js";

const STANDARD_STRUNG: Strung = { tuning: STANDARD, temperament: "pythagorean" };
const SOUND_ORDER: readonly Sound[] = ["open", "stopped", "harmonic"];

describe("the question", () => {
  test.each([
    ["D4", { about: "note", name: "D4", semitone: 62 }],
    ["bb2", { about: "note", name: "Bb2", semitone: 46 }],
    ["F♯3", { about: "note", name: "F#3", semitone: 54 }],
    ["4 7.9", { about: "place", string: 4, position: 7.9 }],
    ["4 14", { about: "place", string: 4, position: 14 }],
    ["4", { about: "place", string: 4, position: 14 }],
    ["4 open", { about: "place", string: 4, position: 14 }],
    ["4 san", { about: "place", string: 4, position: 14 }],
  ])("%s", (text, question) => {
    expect(parseQuestion(text.split(" "))).toEqual(question);
    expect(parseQuestion([text])).toEqual(question);
  });

  test.each([
    [["D"], /"D" has no octave; say which one, such as D3/],
    [["H4"], /"H4" is no note/],
    [[""], /"" is no note/],
    [["0", "7"], /no string "0"/],
    [["-1", "7"], /no string "-1"/],
    [["4.5", "7"], /no string "4.5"/],
    [["12", "7"], /no string "12"/],
    [["4", "7,9"], /no place "7,9"/],
    [["4", "0.9"], /no place "0.9"/],
    [["4", "14.1"], /no place "14.1"/],
    [["4", "seven"], /no place "seven"/],
    [["D4", "7.9"], /"7.9" is one word too many/],
    [["4", "7", "9"], /"9" is one word too many/],
  ])("%j cannot be used", (words, message) => {
    expect(() => parseQuestion(words)).toThrow(message);
  });
});

describe("the places of a note", () => {
  /** Places as "string sound position". */
  const listed = (note: string, strung = STANDARD_STRUNG): readonly string[] =>
    spotsOf(parseQuestion([note]), strung).map(({ string, sound, position }) => `${string} ${sound} ${position ?? ""}`);

  // Tuning by unisons: the open string against hui 9, 10 or 10.8 of another, and by harmonics at hui 7 and 9
  // (common practice, no source).
  test("open strings and the stops that are compared with them in tuning", () => {
    expect(listed("C3")).toEqual(expect.arrayContaining(["6 open ", "3 stopped 9", "4 stopped 10"]));
    expect(listed("D3")).toEqual(expect.arrayContaining(["7 open ", "4 stopped 9", "5 stopped 10"]));
    expect(listed("G2")).toEqual(expect.arrayContaining(["4 open ", "1 stopped 9", "2 stopped 10"]));
    expect(listed("D4")).toEqual(expect.arrayContaining(["7 harmonic 7", "4 harmonic 9", "2 harmonic 10"]));
  });

  test("none beyond the compass, at least one for every semitone within, in every tuning", () => {
    for (const tuning of TUNINGS) {
      const strung: Strung = { tuning, temperament: "equal" };
      const low = Math.min(...tuning.semitones);
      const high = Math.max(...tuning.semitones) + 36;
      for (let semitone = low - 1; semitone <= high + 1; semitone++) {
        const spots = spotsOf({ about: "note", name: spell(semitone), semitone }, strung);
        expect(spots.length > 0, `${tuning.name} ${spell(semitone)}`).toBe(semitone >= low && semitone <= high);
      }
    }
    expect(compass(STANDARD_STRUNG)).toEqual({ lowest: "C2", highest: "D6" });
    expect(compass({ tuning: findTuning("qiliang"), temperament: "just" })).toEqual({ lowest: "C2", highest: "D6" });
  });

  test("string 1 first, then open, stopped, harmonic", () => {
    for (let semitone = 36; semitone <= 86; semitone++) {
      const spots = spotsOf({ about: "note", name: spell(semitone), semitone }, STANDARD_STRUNG);
      const ranks = spots.map(({ string, sound }) => 10 * string + SOUND_ORDER.indexOf(sound));
      expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    }
  });

  test("each place, asked back, sounds the note again", () => {
    for (const temperament of TEMPERAMENTS) {
      const strung: Strung = { tuning: STANDARD, temperament };
      for (let semitone = 36; semitone <= 74; semitone++) {
        const name = spell(semitone, true);
        for (const spot of spotsOf({ about: "note", name, semitone }, strung)) {
          const back = spotsOf({ about: "place", string: spot.string, position: spot.position ?? 14 }, strung);
          const same = back.find(({ sound }) => sound === spot.sound);
          expect(same?.pitch, `${name} on ${spot.string} at ${spot.position}`).toBe(name);
        }
      }
    }
  });
});

describe("what a place sounds", () => {
  const sounds = (text: string): readonly string[] =>
    spotsOf(parseQuestion([text]), STANDARD_STRUNG).map(({ sound, pitch }) => `${sound} ${pitch}`);

  test("a whole hui is stopped and a harmonic, a tenth is stopped only, the nut is the open string", () => {
    expect(sounds("4 7")).toEqual(["stopped G3", "harmonic G3"]);
    expect(sounds("4 9")).toEqual(["stopped D3", "harmonic D4"]);
    expect(sounds("4 7.9")).toEqual(["stopped E3"]);
    expect(sounds("4 14")).toEqual(["open G2"]);
  });

  test("how far it is off", () => {
    // Fraction 0.59 of the string: 1200 log2(1/0.59) = 913.456 cents; the Pythagorean sixth 27/16 is 905.865.
    const [spot] = spotsOf(parseQuestion(["4", "7.9"]), STANDARD_STRUNG);
    expect(spot?.cents).toBeCloseTo(913.456, 3);
    expect(spot?.offCents).toBeCloseTo(7.591, 3);
  });

  test("flats where the scale on gong has them", () => {
    expect(sounds("5 13.6")).toEqual(["stopped Bb2"]);
    const sharp: Strung = { tuning: findTuning("manjue"), temperament: "pythagorean" };
    expect(spotsOf(parseQuestion(["5", "13.6"]), sharp)[0]?.pitch).toBe("A#2");
  });
});
