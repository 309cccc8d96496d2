// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import { findTuning, STANDARD, TUNINGS } from "../../src/model/tuning.js";
import { InputProblem } from "../../src/problem.js";

describe.each(TUNINGS.map((tuning) => [tuning.name, tuning] as const))("%s", (_, tuning) => {
  test.each([tuning.name, tuning.title, tuning.characters, ...tuning.alsoCalled])("is found as %s", (name) => {
    expect(findTuning(name)).toBe(tuning);
    expect(findTuning(name.toUpperCase())).toBe(tuning);
    expect(findTuning(` ${name.replaceAll(" ", "-")} `)).toBe(tuning);
  });

  test("is found by its seven pitches", () => {
    expect(findTuning(tuning.strings.join(" "))).toBe(tuning);
    expect(findTuning(tuning.strings.join(", "))).toBe(tuning);
  });
});

test("no name means two tunings", () => {
  const names = TUNINGS.flatMap((tuning) => [tuning.name, tuning.characters, ...tuning.alsoCalled]);
  expect(new Set(names).size).toBe(names.length);
});

test("the standard tuning stands first", () => {
  expect(STANDARD.name).toBe("zhengdiao");
});

function problemOf(text: string): InputProblem {
  try {
    findTuning(text);
  } catch (error) {
    if (error instanceof InputProblem) return error;
  }
  throw new Error(`"${text}" was taken for a tuning`);
}

describe("what is no tuning", () => {
  test("an unknown name is answered with the nearest and with all", () => {
    const { message } = problemOf("ruibing");
    expect(message).toContain("did you mean ruibin?");
    for (const { name } of TUNINGS) expect(message).toContain(name);
  });

  test.each([
    ["C2 D2 F2 G2 A2 C3", "6 pitches"],
    ["C2 D2 F2 G2 A2 C3 D3 E3", "8 pitches"],
    ["C2 D2 F2 H2 A2 C3 D3", '"H2" is no pitch'],
    ["C2 D2 F2 G2 A2 C3 D9", "string 7 at D9"],
    ["C-1 D2 F2 G2 A2 C3 D3", "string 1"],
  ])("%s", (text, part) => {
    expect(problemOf(text).message).toContain(part);
  });
});

test("of seven own pitches gong is where most open strings belong", () => {
  // The standard tuning a tone up: gong goes with it, from F to G.
  const own = findTuning("D2 E2 G2 A2 B2 D3 E3");
  expect(own.gong).toBe(7);
  expect(own.semitones).toEqual([38, 40, 43, 45, 47, 50, 52]);
});
