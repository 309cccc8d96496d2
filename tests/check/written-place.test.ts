// SPDX-License-Identifier: AGPL-3.0-or-later
// What a writer wrote stays as written wherever it is printed. 11 lies 22 cents from the usual 10.8, within the tolerance
// of a written place; both figures follow from the thirteen hui (Zhu Fengjie, Yuguzhai qinpu, 1855, section v29).
import { describe, expect, test } from "vitest";
import { centsAt } from "../../src/model/board.js";
import { judge } from "../../src/run/judge.js";
import { settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const report = (melody: string, fingering: readonly string[]) =>
  judge(shortScore(melody, fingering), settingOf(), "0.0.0").json;

test("11 and 10.8 are the same note", () => {
  expect(Math.abs(centsAt(11) - centsAt(10.8))).toBeLessThan(25);
});

describe("a written 11 for 10.8", () => {
  const written = report("A2 B2", ["ming 11 gou 3", "-"]);
  const usual = report("A2 B2", ["ming 10.8 gou 3", "-"]);

  test("is printed as written, beside the usual place", () => {
    expect(written.fingering.notes[0]).toMatchObject({
      spoken: "ming 11 gou 3",
      position: 10.8,
      writtenPosition: 11,
    });
    expect(usual.fingering.notes[0]).toMatchObject({ spoken: "ming 10.8 gou 3", writtenPosition: 10.8 });
    expect(written.fingering.notes[1]?.writtenPosition).toBeNull();
  });

  test("costs the same", () => {
    expect(written.fingering.total).toEqual(usual.fingering.total);
  });
});

test("a rule speaks of the place as written", () => {
  // B2 on string 4, a tone outside F-gong: usually 12.2 here with 12 as the hui beside it.
  const [, stray] = ["ming 12.2 gou 4", "ming 12 gou 4"].map((form) =>
    String(report("Bb2", [form]).findings.find(({ rule }) => rule === "stray-position")?.message),
  );
  expect(stray).toMatch(/^12 on string 4 is Bb2/);
});

test("a harmonic is named by the harmonics of its string", () => {
  const { findings } = report("G3", ["fan 9 tiao 4"]);
  expect(String(findings.find(({ rule }) => rule === "written-place-mismatch")?.message)).toBe(
    "fan 9 tiao 4 sounds D4, not G3 (702 cents too high, where 25 are allowed). On string 4 G3 is the harmonic at hui 7; string 1 sounds it as the harmonic at hui 9.",
  );
});

test("the intended place is named, and how grave it is", () => {
  const { findings } = report("G3", ["da 7.6 tiao 4"]);
  const [first] = findings.filter(({ rule }) => rule === "written-place-mismatch");
  expect(String(first?.message)).toBe(
    "da 7.6 tiao 4 sounds F3, not G3 (196 cents too low, where 25 are allowed). On string 4 G3 is at 7; string 5 sounds it at 7.6.",
  );
  expect(first?.severity).toBe("problem");
});

test("a place out of tune is no other note in the verdict", () => {
  expect(String(report("C3", ["ming 10.3 gou 4"]).verdict.sentence)).not.toMatch(/another note/);
  expect(String(report("C3", ["ming 9 gou 4"]).verdict.sentence)).toMatch(/another note/);
});
