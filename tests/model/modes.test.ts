// SPDX-License-Identifier: AGPL-3.0-or-later
// Degrees of the open strings, as printed: J. Thompson, silkqin.com (1425 and 1525 handbooks, 39 tunings) and Ling
// Tingkan, Yanyue kaoyuan; ceshang and wumei from memory; yizejun, qiliang, qingdiao on Eb and all others computed.
import { describe, expect, test } from "vitest";
import { MODES, openDegrees } from "../../src/model/modes.js";
import { registers } from "../../src/model/registers.js";
import { findTuning, STANDARD, TUNINGS } from "../../src/model/tuning.js";

const DEGREES = [
  ["zhengdiao", 5, "5 6 1 2 3 5 6"],
  ["zhengdiao", 0, "1 2 4 5 6 1 2"],
  ["ruibin", 10, "2 3 5 6 1 2 3"],
  ["manjue", 0, "1 2 3 5 6 1 2"],
  ["mangong", 7, "3 5 6 1 2 3 5"],
  ["yizejun", 8, "3 5 6 1 2 3 5"],
  ["qingshang", 3, "6 1 2 3 5 6 1"],
  ["qiliang", 10, "2 4 5 6 1 2 3"],
  ["qiliang", 3, "6 1 2 3 5 6 7"],
  ["huangzhong", 10, "1 3 5 6 1 2 3"],
  ["manshang", 5, "5 5 1 2 3 5 6"],
  ["manshang", 0, "1 1 4 5 6 1 2"],
  ["yunu", 7, "3 5 6 1 2 4 5"],
  ["yunu", 0, "7 2 3 5 6 1 2"],
  ["qingdiao", 10, "2 3 5 6 1 2 4"],
  ["qingdiao", 3, "6 7 2 3 5 6 1"],
  ["ceshang", 2, "♭7 1 2 3 5 6 1"],
  ["wumei", 7, "4 5 6 1 2 3 5"],
  ["wumei", 0, "1 2 3 5 6 7 2"],
] as const;

describe("modes", () => {
  test.each(DEGREES)("%s on pitch class %i", (name, gong, degrees) => {
    expect(openDegrees(findTuning(name), gong).join(" ")).toBe(degrees);
  });

  test("are these and no others, each tuning's own first", () => {
    expect(MODES.map(({ tuning, gong }) => [tuning.name, gong])).toEqual(DEGREES.map(([name, gong]) => [name, gong]));
    for (const tuning of TUNINGS) expect(MODES.find((mode) => mode.tuning === tuning)?.own).toBe(true);
  });
});

test("registers: C2 to D3 open, D2 to D5 stopped as usual, C3 to D6 in harmonics (range: zgmzyq.cn; stops: common practice)", () => {
  const ends = registers(STANDARD).map(({ sound, lowest, highest }) => `${sound} ${lowest.pitch} ${highest.pitch}`);
  expect(ends).toEqual(["open C2 D3", "stopped D2 D5", "stopped C#2 D6", "harmonic C3 D6"]);
});
