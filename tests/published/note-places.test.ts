// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the tones of a mode lie. That players learn these patterns by heart and write these places is common practice,
// no source; the tables are computed from pitches, gong and written places (tests/published/written-places.test.ts).
import { describe, expect, test } from "vitest";
import { octavePattern, zonePatterns } from "../../src/model/mode-pattern.js";
import { MODES, openDegrees } from "../../src/model/modes.js";
import { DEGREES, placesOnString } from "../../src/model/note-table.js";
import { parsePitch, semitoneOf } from "../../src/model/pitch.js";
import { placesOfPitch } from "../../src/model/places.js";
import type { Setting } from "../../src/model/setting.js";
import { findTuning, STANDARD } from "../../src/model/tuning.js";
import { settingOf } from "../support/playing.js";

const STRINGS = [1, 2, 3, 4, 5, 6, 7];
const semitone = (name: string): number => {
  const pitch = parsePitch(name);
  if (pitch === null) throw new Error(`no pitch: ${name}`);
  return semitoneOf(pitch);
};

/** A setting with gong on a pitch class of its own choosing. */
function onGong(tuning: string, gong: string): Setting {
  const pitchClass = semitone(`${gong}4`) % 12;
  return { ...settingOf(), gong: pitchClass, tuning: { ...findTuning(tuning), gong: pitchClass } };
}

/** tuning, gong, for each string the tone next below the octave (hui 7) and the one next above */
const AROUND_THE_OCTAVE = [
  ["zhengdiao", "F", ["7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2"]],
  ["zhengdiao", "C", ["7.9/6.4", "7.6/6.4", "7.3*/6.4", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4"]],
  ["ruibin", "Bb", ["7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4", "7.6/6.2"]],
  ["manjue", "C", ["7.9/6.4", "7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4"]],
  ["mangong", "G", ["7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4", "7.6/6.2", "7.9/6.4"]],
  ["qingshang", "Eb", ["7.6/6.2", "7.9/6.4", "7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4"]],
  ["qiliang", "Bb", ["7.6/6.4", "7.3*/6.4", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4", "7.6/6.2"]],
  ["qiliang", "Eb", ["7.6/6.2", "7.9/6.4", "7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2", "7.6*/6.7"]],
  ["huangzhong", "Bb", ["7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4", "7.6/6.2"]],
  ["manshang", "F", ["7.9/6.4", "7.9/6.4", "7.9/6.4", "7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2"]],
  ["manshang", "C", ["7.9/6.4", "7.9/6.4", "7.3*/6.4", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4"]],
  ["yunu", "G", ["7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4", "7.3*/6.4", "7.9/6.4"]],
  ["qingdiao", "Bb", ["7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4", "7.3*/6.4"]],
  ["qingdiao", "Eb", ["7.6/6.2", "7.6*/6.7", "7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4"]],
  ["ceshang", "D", ["7.3*/6.4", "7.9/6.4", "7.6/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.2", "7.9/6.4"]],
  ["wumei", "G", ["7.3*/6.4", "7.9/6.4", "7.6/6.2", "7.9/6.4", "7.6/6.4", "7.6/6.2", "7.9/6.4"]],
] as const;

describe("around the octave of each string", () => {
  test.each(AROUND_THE_OCTAVE)("%s on %s", (tuning, gong, pattern) => {
    const setting = onGong(tuning, gong);
    const found = octavePattern(setting).map(
      ({ below, above, openInScale }) => `${below}${openInScale ? "" : "*"}/${above}`,
    );
    expect(found).toEqual(pattern);
  });
});

/** Standard tuning, 1 = F: degree, places on string 1 to 7 up to hui 4. */
const CHART: readonly (readonly [degree: string, places: readonly string[]])[] = [
  ["1", ["10, 5.6", "12.2, 6.2", "14, 7, 4", "7.6, 4.4", "8.5, 4.8", "10, 5.6", "12.2, 6.2"]],
  ["2", ["9, 5", "10, 5.6", "13.1, 6.4", "14, 7, 4", "7.6, 4.4", "9, 5", "10, 5.6"]],
  ["3", ["7.9, 4.6", "9, 5", "10.8, 5.9", "13.1, 6.4", "14, 7, 4", "7.9, 4.6", "9, 5"]],
  ["5", ["14, 7, 4", "7.6, 4.4", "9, 5", "10, 5.6", "12.2, 6.2", "14, 7, 4", "7.6, 4.4"]],
  ["6", ["13.1, 6.4", "14, 7, 4", "7.9, 4.6", "9, 5", "10, 5.6", "13.1, 6.4", "14, 7, 4"]],
  ["4", ["7.6, 4.4", "8.5, 4.8", "10, 5.6", "12.2, 6.2", "13.6, 6.7", "7.6, 4.4", "8.5, 4.8"]],
  ["7", ["10.8, 5.9", "13.1, 6.4", "7.3, 4.2", "7.9, 4.6", "9, 5", "10.8, 5.9", "13.1, 6.4"]],
  ["♯4", ["7.3, 4.2", "7.9, 4.6", "9.4, 5.3", "10.8, 5.9", "13.1, 6.4", "7.3, 4.2", "7.9, 4.6"]],
];

test.each(CHART)("standard tuning in F: degree %s", (degree, places) => {
  const { semitones = 0 } = DEGREES.find((one) => one.degree === degree) ?? {};
  const setting = settingOf();
  const found = STRINGS.map((string) => placesOnString((STANDARD.gong + semitones) % 12, string, setting).join(", "));
  expect(found).toEqual(places);
});

describe("the odd string of a zone, standard tuning in F (common practice, no source)", () => {
  const zones = new Map(zonePatterns(settingOf()).map((pattern) => [pattern.zone, pattern]));

  test.each([
    ["around hui 10", "10", ["3: 10.8"]],
    ["around hui 9", "9", ["5: 8.5"]],
    ["low down", "13.1", ["2: 12.2", "5: 12.2", "7: 12.2"]],
  ] as const)("%s", (name, common, odd) => {
    const zone = zones.get(name);
    expect(zone?.common.join()).toBe(common);
    expect(zone?.odd.map(({ string, places }) => `${string}: ${places.join()}`)).toEqual(odd);
  });
});

describe("the odd string of a zone in other modes (computed)", () => {
  const oddIn = (tuning: string, gong: string): readonly string[] =>
    zonePatterns(onGong(tuning, gong)).map(
      ({ zone, odd }) => `${zone} ${odd.map(({ string, places }) => `${string}:${places.join("+")}`).join(" ")}`,
    );

  test("where as many strings have 12.2 as 13.1, the lowest string decides; a string outside the scale has its own", () => {
    expect(oddIn("qiliang", "Eb")).toEqual([
      "low down 2:13.1 3:13.1 5:13.1 7:13.6+12.2",
      "around hui 10 2:10.8",
      "around hui 9 4:8.5 7:8.5",
    ]);
  });

  test("in a five-note tuning the strings on degree 1 are odd around hui 10, those on degree 3 around hui 9", () => {
    for (const { tuning, gong } of MODES.filter((mode) =>
      octavePattern({ ...mode, temperament: "pythagorean" }).every((one) => one.openInScale),
    )) {
      const [, ten, nine] = zonePatterns({ tuning, gong, temperament: "pythagorean" });
      const degrees = openDegrees(tuning, gong);
      const at = (degree: string): readonly number[] => degrees.flatMap((one, i) => (one === degree ? [i + 1] : []));
      expect(ten?.odd.map(({ string }) => string)).toEqual(at("1"));
      expect(nine?.odd.map(({ string }) => string)).toEqual(at("3"));
    }
  });
});

/** How often each pitch lies open, stopped up to hui 4, and as a harmonic in the standard tuning: computed. */
const WAYS =
  "C2 1+0+0; C#2 0+1+0; D2 1+1+0; Eb2 0+2+0; E2 0+2+0; F2 1+2+0; F#2 0+3+0; G2 1+3+0; Ab2 0+4+0; " +
  "A2 1+4+0; Bb2 0+5+0; B2 0+5+0; C3 1+5+1; C#3 0+6+0; D3 1+6+1; Eb3 0+7+0; E3 0+7+0; F3 0+7+1; " +
  "F#3 0+7+0; G3 0+7+3; Ab3 0+7+0; A3 0+7+3; Bb3 0+7+0; B3 0+7+0; C4 0+7+5; C#4 0+6+0; D4 0+6+5; " +
  "Eb4 0+5+0; E4 0+5+6; F4 0+5+2; F#4 0+4+4; G4 0+4+6; Ab4 0+3+0; A4 0+3+10; Bb4 0+2+0; B4 0+2+4; " +
  "C5 0+2+6; C#5 0+1+4; D5 0+1+6; E5 0+0+6; F5 0+0+2; F#5 0+0+4; G5 0+0+4; A5 0+0+4; C6 0+0+2; " +
  "D6 0+0+2";

test("ways to play each pitch", () => {
  const found = WAYS.split("; ").map((entry) => {
    const [name = ""] = entry.split(" ");
    const places = placesOfPitch(semitone(name), { tuning: STANDARD, temperament: "pythagorean" });
    const counts = (["open", "stopped", "harmonic"] as const).map(
      (kind) =>
        places.filter(({ sound, semitones }) => sound === kind && (kind !== "stopped" || semitones <= 24)).length,
    );
    return `${name} ${counts.join("+")}`;
  });
  expect(found.join("; ")).toBe(WAYS);
});

test("there are 91 harmonics on the thirteen hui (zgmzyq.cn, articles on the range of the instrument)", () => {
  const all = Array.from({ length: 60 }, (_, i) => placesOfPitch(36 + i, { tuning: STANDARD, temperament: "equal" }));
  expect(all.flat().filter(({ sound }) => sound === "harmonic")).toHaveLength(7 * 13);
});
