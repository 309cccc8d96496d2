// SPDX-License-Identifier: AGPL-3.0-or-later
// The brief: what it says is found in the score, and what is wrong is named with the user's own line.
import { describe, expect, test } from "vitest";
import { InputProblem } from "../../src/problem.js";
import { parseBrief, resolveBrief } from "../../src/read/brief.js";
import { shortScore } from "../support/shorthand.js";

const RULES = [
  { id: "hand-shift", parameters: { perCm: 0.05, table: [1, 2] } },
  { id: "too-fast", parameters: {} },
];

/** Two bars of quarter notes. */
const score = shortScore("C3 D3 F3 G3 A3 C4 D4 F4");

function brief(text: string) {
  return resolveBrief(parseBrief(text, "brief.yaml", RULES), score);
}

test("passages, acceptances, pins, weights and parameters", () => {
  const found = brief(`
tempo: 66
thumb-stroke: pi
passages:
  - { bars: 1-2, character: flowing }
  - { bars: 2, harmonics: true }
accept:
  - { rule: hand-shift, bars: "#2", reason: the glide is wanted }
pins:
  - { bar: 2, beat: 2, string: 6, position: 7, finger: thumb, stroke: tiao }
weights: { too-fast: 2 }
parameters: { hand-shift: { perCm: 0.1, table: [3, 4] } }
`);
  expect(found.tempo).toBe(66);
  expect(found.thumbStroke).toBe("pi");
  expect(found.passages).toMatchObject([
    { fromBar: 0, toBar: 1, character: "flowing", harmonics: false },
    { fromBar: 1, toBar: 1, character: null, harmonics: true },
  ]);
  expect(found.accept).toMatchObject([{ rule: "hand-shift", fromBar: 1, toBar: 1, reason: "the glide is wanted" }]);
  const given = { sound: "stopped", string: 6, position: 7, finger: "thumb", stroke: "tiao", arrival: "plucked" };
  expect(found.pins).toMatchObject([{ note: "n6", given }]);
  expect(found.weights).toEqual({ "too-fast": 2 });
  expect(found.parameters).toEqual({ "hand-shift": { perCm: 0.1, table: [3, 4] } });
});

test("pins of one note say what they say together, and a key with nothing behind it says nothing", () => {
  const found = brief("passages:\npins:\n  - { bar: 1, beat: 2, string: 7 }\n  - { bar: 1, beat: 2, stroke: mo }\n");
  expect(found.pins).toMatchObject([{ note: "n2", given: { string: 7, stroke: "mo", arrival: "plucked" } }]);
  expect(found.passages).toEqual([]);
});

test("an empty file wishes nothing", () => {
  expect(brief("")).toMatchObject({ passages: [], pins: [], accept: [], tempo: null });
});

describe("what is wrong is named with its line", () => {
  test.each([
    ["tunning: zhengdiao", 'brief.yaml, line 1: "tunning: zhengdiao": no such key "tunning"; did you mean tuning?'],
    [
      "passages:\n  - bars: 1\n    charcter: flowing",
      'line 3: "charcter: flowing": no such key "charcter"; did you mean character?',
    ],
    ["passages:\n  - { bars: 9, character: flowing }", 'line 2: there is no bar "9"'],
    ["passages:\n  - { bars: 1, character: struggling }", "a struggling passage needs its reason"],
    ["accept:\n  - { rule: hand-shfit, bars: 1, reason: so }", 'no rule called "hand-shfit"; did you mean hand-shift?'],
    ["accept:\n  - { rule: hand-shift, bars: 1 }", "reason"],
    [
      "pins:\n  - { bar: 1, beat: 2, string: 7 }\n  - { bar: 1, beat: 2, string: 4, position: 9 }",
      'line 3: "- { bar: 1, beat: 2, string: 4, position: 9 }": the same note has string 7 in line 2 and string 4 here',
    ],
    ["thumb-stroke: tuo", 'line 1: "thumb-stroke: tuo": thumb-stroke'],
    ["weights: { too-slow: 1 }", 'no rule called "too-slow"; did you mean too-fast?'],
    ["parameters: { hand-shift: { perMm: 1 } }", 'no parameter "perMm"; did you mean perCm?'],
    ["parameters: { hand-shift: { table: 1 } }", "table takes 2 numbers; the book has [1,2]"],
    ["parameters: { too-fast: { x: 1 } }", "the rule too-fast has no parameters"],
    ["pins:\n  - { bar: 1, beat: 1.5, string: 6 }", "bar 1 has no note on beat 1.5; notes begin on beats 1, 2, 3, 4"],
    ["pins:\n  - { bar: 1, beat: 1, string: 8 }", "string"],
    ["passages: [", "this is no YAML"],
  ])("%s", (text, words) => {
    let said = "";
    try {
      brief(text);
    } catch (error) {
      expect(error).toBeInstanceOf(InputProblem);
      said = (error as InputProblem).message;
    }
    expect(said).toContain(words);
    expect(said).toMatch(/^brief\.yaml, line \d+: /);
  });
});
