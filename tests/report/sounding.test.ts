// SPDX-License-Identifier: AGPL-3.0-or-later
// The line as it is to sound. Pitches follow from lengths of string (hui in Zhu Fengjie, Yuguzhai qinpu, 1855) and from
// partials; what rings and what is damped is common practice, no source.
import { describe, expect, it, test } from "vitest";
import type { Score } from "../../src/model/score.js";
import { quarters } from "../../src/model/time.js";
import { soundingLine } from "../../src/report/sounding.js";
import type { SoundLine, Tone } from "../../src/sound/line.js";
import { packLine, unpackLine } from "../../src/sound/pack.js";
import { timedTones } from "../../src/sound/timing.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { play, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

/** A quarter note lasts a second. */
function lineOf(score: Score, setting = settingOf()): SoundLine {
  return soundingLine(score, play(score, setting).played, setting);
}

const tonesOf = (melody: string, ...fingering: string[]): readonly Tone[] =>
  lineOf(shortScore(melody, fingering)).tones;

const cents = (hz: number, other: number): number => 1200 * Math.log2(other / hz);

describe("pitch", () => {
  it("of an open string is that of the temperament: F at its equal-tempered pitch, the others by pure fifths from it", () => {
    const { strings } = lineOf(shortScore("C2"));
    const f = 440 * 2 ** ((41 - 69) / 12);
    const ratios = [3 / 4, 27 / 32, 1, 9 / 8, 81 / 64, 3 / 2, 27 / 16];
    for (const [i, ratio] of ratios.entries()) expect(strings[i]).toBeCloseTo(f * ratio, 3);
  });
  it("of a stop is that of the melody in the temperament, a pure fifth at hui 9", () => {
    const { tones, strings } = lineOf(shortScore("G3 F3", ["da 9 tiao 6", "da 10 tiao 6"]));
    expect(cents((strings[5] as number) * 1.5, (tones[0] as Tone).hz)).toBeCloseTo(0, 1);
    expect(cents(((strings[5] as number) * 4) / 3, (tones[1] as Tone).hz)).toBeCloseTo(0, 1);
  });
  it("of a harmonic is its true partial", () => {
    const { tones, strings } = lineOf(shortScore("A4 D4", ["fan 9 tiao 7", "fan 7 tiao 7"]));
    expect(cents((strings[6] as number) * 3, (tones[0] as Tone).hz)).toBeCloseTo(0, 1);
    expect(cents((strings[6] as number) * 2, (tones[1] as Tone).hz)).toBeCloseTo(0, 1);
  });
  it("of a third is wider in pythagorean than in just temperament, by a comma", () => {
    const third = (temperament: "pythagorean" | "just"): number => {
      const { strings } = lineOf(shortScore("F2 A2"), settingOf({ temperament }));
      return cents(strings[2] as number, strings[4] as number);
    };
    expect(third("pythagorean") - third("just")).toBeCloseTo(1200 * Math.log2(81 / 80), 1);
  });
});

describe("a string", () => {
  it("rings on over others, and ends when it is struck again", () => {
    const line = lineOf(shortScore("C2 C3 D3 C2", ["san gou 1", "san tiao 6", "san tiao 7", "san gou 1"]));
    expect(line.tones.map(({ until }) => until)).toEqual([null, null, null, null]);
    const [first] = timedTones(line, 1);
    expect(first?.released).toBe(3);
  });
  it("ends when its finger stops another place, and not when another finger does", () => {
    expect(tonesOf("G3 D3", "da 9 tiao 6", "da 9 tiao 4")[0]?.until).toBe(1);
    expect(tonesOf("G3 C3", "da 9 tiao 6", "ming 10 tiao 4")[0]?.until).toBeNull();
  });
  it("goes on under tip and joint of one finger", () => {
    expect(tonesOf("D3 E3", "da 9 tiao 4", "da jie 9 tiao 5")[0]?.until).toBeNull();
  });
  it("ends when a stroke comes to rest on it", () => {
    expect(tonesOf("G2 F2", "san tiao 4", "san gou 3")[0]?.until).toBe(1);
    expect(tonesOf("G2 F2", "san tiao 4", "san ti 3")[0]?.until).toBeNull();
  });
  it("sounds on without a pluck where the finger slides, and is set going softly where it pulls off", () => {
    const [slid, ...more] = tonesOf("G3 A3", "da 9 tiao 6", "shang 7.9");
    expect(more).toEqual([]);
    expect(slid?.slides.map(({ at }) => at)).toEqual([1]);
    expect(cents(slid?.hz ?? 0, slid?.slides[0]?.hz ?? 0)).toBeCloseTo(203.9, 1);
    const pulled = tonesOf("G3 C3", "da 9 tiao 6", "dai qi");
    expect(pulled.map(({ touch, attack }) => [touch, attack])).toEqual([
      ["nail", "tiao"],
      ["open", "pull"],
    ]);
  });
  it("is stopped by a nail under the thumb's tip, by flesh under all else", () => {
    const touchOf = (place: string): string | undefined => tonesOf("G3", `${place} tiao 6`)[0]?.touch;
    expect(["da 9", "da jie 9", "ming 9", "fan 5", "san"].map(touchOf).slice(0, 3)).toEqual(["nail", "flesh", "flesh"]);
  });
});

describe("a compound stroke", () => {
  it("strikes one string several times, quickly, at any slower tempo", () => {
    const line = lineOf(shortScore("A2:2", ["san lun 5"]));
    expect(line.tones.map(({ attack, after }) => [attack, after])).toEqual([
      ["zhai", 0],
      ["ti", 0.085],
      ["tiao", 0.17],
    ]);
    expect(timedTones(line, 0.5).map(({ begins }) => begins)).toEqual([0, 0.085, 0.17]);
    expect(timedTones(line, 2)[2]?.begins).toBeCloseTo(0.085, 6);
  });
  it("sweeps over strings one after the other", () => {
    expect(tonesOf("D3:2", "san li 7 5").map(({ string }) => string)).toEqual([7, 6, 5]);
  });
  it("takes two strings at once", () => {
    expect(tonesOf("C2+C3", "san cuo 1 6").map(({ string, at, after }) => [string, at + after])).toEqual([
      [1, 0],
      [6, 0],
    ]);
  });
  it("fits into a short note", () => {
    const { tones } = lineOf(shortScore("A2:1/8", ["san lun 5"], 120));
    expect(tones.at(-1)?.after).toBeLessThan(0.0625);
  });
});

describe("time", () => {
  it("follows changes of tempo", () => {
    const score = shortScore("C2 D2 F2 G2");
    const tempos = [...score.tempos, { onset: quarters(2), quartersPerMinute: 120 }];
    expect(lineOf({ ...score, tempos }).notes.map(({ at }) => at)).toEqual([0, 1, 2, 2.5]);
  });
  it("holds a fermata, and all that follows comes later", () => {
    const score = shortScore("C2 D2 F2 G2 C2");
    const held = score.notes.map((note, i) => (i === 1 ? { ...note, marks: { ...note.marks, fermata: true } } : note));
    const line = lineOf({ ...score, notes: held });
    expect(line.notes.map(({ at }) => at)).toEqual([0, 1, 2.6, 3.6, 4.6]);
    expect(line.notes[1]?.lasts).toBe(1.6);
    expect(line.bars[1]?.at).toBe(4.6);
  });
  it("gives a grace note its share of the note that it precedes, and keeps rests", () => {
    const { notes } = lineOf(shortScore(",A3 G3 r C3"));
    expect(notes.map(({ at, lasts }) => [at, lasts])).toEqual([
      [0, 0.125],
      [0.125, 0.875],
      [2, 1],
    ]);
  });
  it("damps a staccato note", () => {
    expect(tonesOf("C3% D3", "san tiao 6", "san tiao 7")[0]?.until).toBe(0.5);
  });
});

test("an ornament bends its stopped note alone", () => {
  expect(tonesOf("G3:2", "da 9 tiao 6 yin")[0]?.bends).toEqual([{ at: 0, until: 2, bend: "yin" }]);
  expect(tonesOf("G3", "chuo da 9 tiao 6")[0]?.bends).toEqual([{ at: 0, until: 1, bend: "chuo" }]);
  expect(tonesOf("C3~", "san tiao 6")[0]?.bends).toEqual([]);
  expect(tonesOf("G3~", "da 9 tiao 6")[0]?.bends).toEqual([{ at: 0, until: 1, bend: "yin" }]);
});

test("a note that has no place is silent, and its time passes", () => {
  const { tones, notes } = lineOf(shortScore("F1 C2"));
  expect(tones.map(({ at, string }) => [at, string])).toEqual([[1, 1]]);
  expect(notes).toHaveLength(2);
});

describe.each(MELODIES.slice(0, 6))("%s", (name) => {
  const line = lineOf(readMelody(name));
  it("comes back from its packed form as it was", () => {
    expect(unpackLine(JSON.parse(JSON.stringify(packLine(line))))).toEqual(line);
  });
  it("sounds only what its strings can", () => {
    for (const { string, hz, slides } of line.tones)
      for (const pitch of [hz, ...slides.map((slide) => slide.hz)]) {
        expect(pitch).toBeGreaterThanOrEqual(line.strings[string - 1] as number);
        expect(pitch).toBeLessThanOrEqual(8.001 * (line.strings[string - 1] as number));
      }
  });
  it("has one string sound one tone at a time", () => {
    const last = new Map<number, number>();
    for (const { tone, begins, released } of timedTones(line, 1)) {
      expect(begins).toBeGreaterThanOrEqual(last.get(tone.string) ?? 0);
      last.set(tone.string, Number.isFinite(released) ? released : begins);
    }
  });
});
