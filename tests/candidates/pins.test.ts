// SPDX-License-Identifier: AGPL-3.0-or-later
// Pins of the brief: what cannot sound its note is refused with its line, what changes nothing is told.
import { describe, expect, test } from "vitest";
import { InputProblem } from "../../src/problem.js";
import { parseBrief, resolveBrief } from "../../src/read/brief.js";
import { judge } from "../../src/run/judge.js";
import { problemOf } from "../read/helpers.js";
import { settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

/** A line of two notes judged under one pin. */
function judged(pin: string, fingering: readonly string[] = []) {
  const score = shortScore("C3 G2", fingering);
  const brief = resolveBrief(parseBrief(`pins:\n  - { bar: 1, ${pin} }\n`, "brief.yaml", []), score);
  return judge(score, settingOf(), "0.0.0", brief).json;
}

const stale = (json: ReturnType<typeof judged>) =>
  json.findings.filter(({ rule }) => rule === "stale-acceptance").map(({ notes, message }) => [notes, String(message)]);

describe("a pin that cannot sound its note", () => {
  test.each([
    ["beat: 1, string: 7", "C3 lies a tone below string 7"],
    ["beat: 1, string: 4, position: 9", "hui 9 of string 4 is D3"],
    ["beat: 1, string: 1, sound: open", "string 1 is C2 when open"],
    ["beat: 2, finger: thumb, string: 4", "G2 is the open string 4, below all of its stops"],
    ["beat: 1, arrival: slid", "nothing comes before it"],
  ])("%s: %s", (pin) => {
    const problem = problemOf(() => judged(pin));
    expect(problem).toBeInstanceOf(InputProblem);
    expect(problem.message).toContain("brief.yaml, line 2");
    expect(problem.message).toContain(`{ bar: 1, ${pin} }`);
    expect(problem.message).toMatch(/cannot sound (C3|G2).*huipath where \1/);
  });

  test("is not blamed for what the score writes", () => {
    const { findings } = judged("beat: 1, finger: ring", ["da 9 gou 4", "-"]);
    expect(findings.filter(({ rule }) => rule === "written-place-mismatch")).toHaveLength(1);
  });

  test("is blamed where the score is right", () => {
    expect(() => judged("beat: 1, string: 3", ["da 10 gou 4", "-"])).toThrow(InputProblem);
  });
});

test("a pin that pins nothing is refused", () => {
  const problem = problemOf(() => judged("beat: 1"));
  expect(problem.message).toContain("brief.yaml, line 2");
  expect(problem.message).toContain("say what it pins: sound, string, position");
});

describe("a pin of what the score gives", () => {
  test("is told", () => {
    expect(stale(judged("beat: 1, string: 4, position: 10", ["da 10 gou 4", "-"]))).toEqual([
      [["n1"], "The brief pins the note on bar 1, beat 1 to what the score writes there already, da 10 gou 4."],
    ]);
  });

  test("is not told where it adds something", () => {
    expect(stale(judged("beat: 1, string: 4, position: 10, finger: ring", ["10 gou 4", "-"]))).toEqual([]);
    expect(stale(judged("beat: 1, string: 4, position: 10"))).toEqual([]);
  });
});
