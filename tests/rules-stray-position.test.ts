// SPDX-License-Identifier: AGPL-3.0-or-later
// Places off the mode in every tuning. The modes are those of the tunings' own gong (sources in src/model/tuning.ts);
// that players hear a change of mode in them is common practice, no source.
import { describe, expect, test } from "vitest";
import { spell } from "../src/model/pitch.js";
import type { Score } from "../src/model/score.js";
import { TUNINGS, type Tuning } from "../src/model/tuning.js";
import { play, settingOf } from "./support/playing.js";
import { shortScore } from "./support/shorthand.js";

/** Sharps (+) or flats (-) of the major key on a pitch class. */
const fifthsOf = (gong: number): number => ((((gong * 7) % 12) + 5) % 12) - 5;

/** A melody in the key on a pitch class, from semitones above gong; gong lies in the octave from A2 to G#3. */
function melodyOn(gong: number, steps: readonly number[]): Score {
  const base = 45 + ((gong - 45 + 120) % 12);
  const notes = steps.map((step) => spell(base + step, true));
  const score = shortScore(notes.join(" "));
  return { ...score, bars: score.bars.map((bar) => ({ ...bar, key: { fifths: fifthsOf(gong), mode: "major" } })) };
}

function strays(tuning: Tuning, score: Score): readonly string[] {
  const { verdicts } = play(score, settingOf({ tuning: tuning.name }));
  return verdicts.findings.filter(({ rule }) => rule === "stray-position").map(({ message }) => String(message));
}

const NAMES = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];
const FIVE_TONES = [0, 2, 4, 7, 9, 12, 9, 7, 4, 2, 0];
/** A fifth above: its third stands in place of the old gong. */
const A_FIFTH_ABOVE = [7, 9, 11, 14, 16, 11, 9, 11, 7, 11, 14, 11];

describe.each(TUNINGS.map((tuning) => [tuning.name, tuning] as const))("%s", (_, tuning) => {
  test("the five tones of its gong are on the pattern", () => {
    expect(strays(tuning, melodyOn(tuning.gong, FIVE_TONES))).toEqual([]);
  });

  test("the mode a fifth above is announced with its bar", () => {
    const messages = strays(tuning, melodyOn(tuning.gong, [...FIVE_TONES, 0, ...A_FIFTH_ABOVE]));
    const [now, key] = [NAMES[(tuning.gong + 7) % 12], NAMES[tuning.gong]];
    expect(messages).toEqual([
      expect.stringMatching(`^From bar 4 the places are those of ${now}-gong, where the key is that of ${key}-gong: `),
    ]);
  });

  test("the way back is told too", () => {
    const there = [...FIVE_TONES, 0, ...A_FIFTH_ABOVE];
    const messages = strays(tuning, melodyOn(tuning.gong, [...there, ...FIVE_TONES]));
    expect(messages).toEqual([
      expect.stringMatching(` From bar 7 they are those of ${NAMES[tuning.gong]}-gong again\\.$`),
    ]);
  });
});

test("a tune of seven tones is told once", () => {
  const scale = [0, 2, 4, 5, 7, 5, 4, 5, 7, 9, 11, 12, 11, 9, 7, 5];
  expect(strays(TUNINGS[0] as Tuning, melodyOn(5, scale))).toEqual([
    "6 of 16 notes (37.5 %, limit 15 %) are stopped off the pattern of F-gong: Bb 4 times, E twice. A player reads the tune as one of more than five tones and looks for each of these places.",
  ]);
});
