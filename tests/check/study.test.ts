// SPDX-License-Identifier: AGPL-3.0-or-later
// Studies of one sign. What a line brings is counted again here from its readings alone.
import { describe, expect, test } from "vitest";
import { readingAt } from "../../src/check/check.js";
import { practiceOf } from "../../src/check/study/practice.js";
import { type Study, studyOf } from "../../src/check/study/study.js";
import { STROKES } from "../../src/model/fingering.js";
import { findSign, SIGNS, type Sign } from "../../src/model/sign.js";
import type { Played } from "../../src/search/charges.js";
import { readMelody } from "../support/melodies.js";
import { play, settingOf } from "../support/playing.js";

const setting = settingOf();
const { played, rules, verdicts } = play(readMelody("willow-bend"), setting);
const study = (sign: Sign): Study =>
  studyOf(sign, { setting: { ...setting, scale: setting.tuning.gong }, rules, played, flats: true });

const readings = (line: Played): readonly string[] => line.moments.map((_, at) => readingAt(line, at));

/** How a reading says each sign. */
const SAYS: Readonly<Record<Sign, RegExp>> = {
  ...(Object.fromEntries(STROKES.map((stroke) => [stroke, new RegExp(` ${stroke} \\d$`)])) as Record<
    (typeof STROKES)[number],
    RegExp
  >),
  ...{ open: /^san /, harmonic: /^fan /, thumb: /^da /, index: /^shi /, middle: /^zhong /, ring: /^ming / },
  ...{ joint: / jie /, kneeling: / gui /, shang: /^shang /, xia: /^xia /, "pull-off": /^(dai|zhua) qi/, yan: /^yan / },
};

describe.each([...SIGNS])("a study of %s", (sign) => {
  const { strings, spots, before, after, lines } = study(sign);

  test("can all be played, at a price that is the sum of its charges", () => {
    expect(lines.length).toBeGreaterThan(0);
    for (const line of lines) expect(line.total.blocked).toBe(0);
  });

  test("has the sign on every second beat", () => {
    for (const line of lines) {
      const said = readings(line.played);
      expect(said).toHaveLength(8);
      for (const at of [1, 3, 5, 7]) expect(said[at]).toMatch(SAYS[sign]);
    }
  });

  test("brings every string that the piece leaves out", () => {
    const left = strings.filter(({ uses }) => uses === 0).map(({ string }) => string);
    expect(lines.flatMap((line) => line.brings.strings).toSorted()).toEqual(left);
  });

  test("claims nothing twice, and nothing that the piece has", () => {
    const places = lines.flatMap((line) => line.brings.spots).map(({ string, position }) => `${string} ${position}`);
    expect(new Set(places).size).toBe(places.length);
    const open = spots.filter(({ uses }) => uses === 0).map(({ string, position }) => `${string} ${position}`);
    expect(open).toEqual(expect.arrayContaining(places));
    for (const [side, list] of [
      ["before", before],
      ["after", after],
    ] as const) {
      const brought = lines.flatMap((line) => line.brings[side]);
      const none = list.filter(({ uses }) => uses === 0).map((one) => one.sign);
      expect(new Set(brought).size).toBe(brought.length);
      expect(none).toEqual(expect.arrayContaining(brought));
    }
  });
});

describe("what a piece exercises", () => {
  const practice = practiceOf(played);
  const said = readings(played);

  test("counts strokes by string as the readings say them", () => {
    for (const { stroke, uses } of practice.strokes)
      for (const [i, n] of uses.entries())
        expect(n).toBe(said.filter((reading) => reading.endsWith(` ${stroke} ${i + 1}`)).length);
  });

  test("counts every pluck but the first as the second of a pair", () => {
    const plucks = said.filter((reading) => / \d$/.test(reading) && !/^(shang|xia|yan) /.test(reading)).length;
    expect(practice.pairs.reduce((sum, { uses }) => sum + uses, 0)).toBe(plucks - 1);
  });

  test("counts every note at its place once", () => {
    const all = [...practice.places, ...practice.harmonics].flatMap(({ uses }) => [...uses]);
    expect(all.reduce((a, b) => a + b, 0)).toBe(said.length - verdicts.total.blocked);
  });
});

describe("the name of a sign", () => {
  test.each([
    ["gou", "gou"],
    ["勾", "gou"],
    ["Tiāo", "tiao"],
    ["打", "da"],
    ["大", "thumb"],
    ["dai qi", "pull-off"],
    ["跪", "kneeling"],
  ])("%s", (text, sign) => {
    expect(findSign(text)).toBe(sign);
  });

  test("that is unknown is refused with the nearest", () => {
    expect(() => findSign("guo")).toThrow(/no stroke or left-hand sign is called "guo".*did you mean gui\?/);
  });
});
