// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import { NO_BRIEF } from "../../src/model/brief.js";
import { NOTHING_GIVEN } from "../../src/model/fingering.js";
import { type Moment, momentsOf, secondsAt, secondsBetween } from "../../src/model/moments.js";
import { quarters, ZERO } from "../../src/model/time.js";
import { settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const setting = settingOf();

/** Moments of the shorthand at 60 quarters a minute: one quarter lasts one second. */
function momentsIn(melody: string, fingering: readonly string[] = []): readonly Moment[] {
  return momentsOf(shortScore(melody, fingering), setting);
}

const times = (melody: string) =>
  momentsIn(melody).map(({ onsetSeconds, durationSeconds }) => [onsetSeconds, durationSeconds]);

describe("grace notes", () => {
  test("take an eighth of a beat from the note they precede", () => {
    expect(times("C3 ,D3 E3 F3")).toEqual([
      [0, 1],
      [1, 0.125],
      [1.125, 0.875],
      [2, 1],
    ]);
  });

  test("take at most half of it, all together", () => {
    expect(times(",C3 ,D3 ,E3 F3:1/4")).toEqual([
      [0, secondsBetween(0, 1 / 24)],
      [1 / 24, secondsBetween(0, 1 / 24)],
      [1 / 12, secondsBetween(0, 1 / 24)],
      [1 / 8, 1 / 8],
    ]);
  });

  test("at the end take the end of the last note", () => {
    expect(times("C3 ,D3")).toEqual([
      [0, 0.875],
      [0.875, 0.125],
    ]);
  });

  test("are told to the note that follows", () => {
    expect(momentsIn("C3 ,D3 E3 F3").map(({ afterGrace }) => afterGrace)).toEqual([false, false, true, false]);
  });
});

describe("silence", () => {
  test("of a beat or more is a rest, less is only silence", () => {
    const facts = (melody: string) => {
      const last = momentsIn(melody).at(-1);
      return [last?.silent, last?.rested, last?.gapSeconds];
    };
    expect(facts("C3 D3")).toEqual([false, false, 1]);
    expect(facts("C3 r:1/2 D3")).toEqual([true, false, 1.5]);
    expect(facts("C3 r D3")).toEqual([true, true, 2]);
  });

  test("before the first note is not one", () => {
    const [first] = momentsIn("C3");
    expect(first?.gapSeconds).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("slurs ask", () => {
  const asks = (melody: string, fingering: readonly string[] = []) =>
    momentsIn(melody, fingering).map((one) => one.asks);

  test.each([
    ["two notes within a fifth: a slide", "(D3 A3)", [null, "slide"]],
    ["wider: a slur", "(D3 B3)", [null, "slur"]],
    ["three notes one way: slides", "(D3 E3 G3)", [null, "slide", "slide"]],
    ["three notes there and back: a slur", "(E3 F3 E3)", [null, "slur", "slur"]],
    ["down to an open string: a pull-off", "(D3 E3 D3)", [null, "slur", "pull-off"]],
    ["down to the lowest open string, where nothing slides: a pull-off", "(D2 C2)", [null, "pull-off"]],
    ["four notes are phrasing: nothing", "(D3 E3 F3 G3)", [null, null, null, null]],
    ["chords: nothing", "(C2+C3 D3)", [null, null]],
    ["the lowest open string cannot be slid from: a slur", "(C2 D2)", [null, "slur"]],
  ] as const)("%s", (_, melody, expected) => {
    expect(asks(melody)).toEqual(expected);
  });

  test("a slide that the writer wrote is asked for, one that the tool wrote is not", () => {
    expect(asks("D3 E3", ["ming 9 gou 4", "shang 8"])).toEqual([null, "slide"]);
    const score = shortScore("D3 E3", ["ming 9 gou 4", "shang 8"]);
    const unprinted = score.notes.map((note) => ({ ...note, given: { ...note.given, written: false } }));
    expect(momentsOf({ ...score, notes: unprinted }, setting).map((one) => one.asks)).toEqual([null, null]);
  });
});

describe("tempo", () => {
  const score = {
    ...shortScore("C3 D3 E3 F3"),
    tempos: [
      { onset: ZERO, quartersPerMinute: 60 },
      { onset: quarters(3, 2), quartersPerMinute: 120 },
    ],
  };

  test("changes count from their moment on", () => {
    expect([0, 1, 2, 3, 4].map((at) => secondsAt(score, quarters(at)))).toEqual([0, 1, 1.75, 2.25, 2.75]);
    expect(momentsOf(score, setting).map((one) => one.durationSeconds)).toEqual([1, 0.75, 0.5, 0.5]);
  });

  test("without any, 72 quarters a minute are assumed", () => {
    expect(secondsAt({ ...score, tempos: [] }, quarters(72))).toBe(60);
  });

  test("equal note values are equally long wherever they stand", () => {
    const line = momentsOf(shortScore(Array.from({ length: 200 }, () => "C3:1/3").join(" "), [], 97), setting);
    expect(new Set(line.slice(1).map((one) => one.gapSeconds)).size).toBe(1);
  });
});

test("a chord is one moment, and rings on under nothing", () => {
  const [chord, next] = momentsIn("C2+C3:2 D3");
  expect(chord?.notes.map((note) => note.semitone)).toEqual([36, 48]);
  expect([chord?.ringsOn, next?.onsetSeconds]).toEqual([false, 2]);
});

test("a note marked to ring does, and a pitch of an open string lies open", () => {
  const [ringing, stopped] = momentsIn("D3! E3");
  expect([ringing?.ringsOn, stopped?.ringsOn]).toEqual([true, false]);
  expect([ringing?.notes[0]?.liesOpen, stopped?.notes[0]?.liesOpen]).toEqual([true, false]);
});

test("the setting's transposition moves what sounds, not what is written", () => {
  const down = { ...setting, transpose: { semitones: -12, interval: "-8P" } };
  const [note] = momentsOf(shortScore("D4"), down)[0]?.notes ?? [];
  expect([note?.semitone, note?.source.written.octave]).toEqual([50, 4]);
});

test("a pinned kind of sound stands in place of the written one, finger and place with it", () => {
  const score = shortScore("C3", ["ming 10 gou 3"]);
  const note = score.notes[0]?.id ?? "";
  const pin = { note, given: { ...NOTHING_GIVEN, string: 6, sound: "open" as const }, place: "line 1", text: "" };
  const [moment] = momentsOf(score, setting, { ...NO_BRIEF, pins: [pin] });
  expect(moment?.notes[0]?.given).toMatchObject({
    string: 6,
    sound: "open",
    position: null,
    finger: null,
    stroke: "gou",
  });
});
