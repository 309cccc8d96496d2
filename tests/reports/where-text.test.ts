// SPDX-License-Identifier: AGPL-3.0-or-later
import { expect, test } from "vitest";
import { columnsOf } from "../../reports/terminal.js";
import { whereText } from "../../reports/where-text.js";
import type { Strung } from "../../src/model/places.js";
import { findTuning } from "../../src/model/tuning.js";
import { parseQuestion, spotsOf } from "../../src/model/where.js";

/** The text for a question in a tuning. */
function told(words: string, tuning = "zhengdiao", temperament: Strung["temperament"] = "pythagorean"): string {
  const strung: Strung = { tuning: findTuning(tuning), temperament };
  const question = parseQuestion([words]);
  return whereText(question, spotsOf(question, strung), strung);
}

test("a note: one aligned table", () => {
  expect(told("A4")).toBe(
    [
      "A4 has 17 places in standard tuning (C2 D2 F2 G2 A2 C3 D3), pythagorean temperament:",
      "",
      "string  sound           place  cents above open  sounds",
      "1       stopped (an)      1.6              3306  A4",
      "2       stopped (an)      2                3102  A4",
      "2       harmonic (fan)    2                3102  A4",
      "2       harmonic (fan)   12                3102  A4",
      "3       stopped (an)      2.9              2808  A4",
      "3       harmonic (fan)    3                2786  A4, 22 cents low",
      "3       harmonic (fan)    6                2786  A4, 22 cents low",
      "3       harmonic (fan)    8                2786  A4, 22 cents low",
      "3       harmonic (fan)   11                2786  A4, 22 cents low",
      "4       stopped (an)      3.4              2604  A4",
      "5       stopped (an)      4                2400  A4",
      "5       harmonic (fan)    4                2400  A4",
      "5       harmonic (fan)   10                2400  A4",
      "6       stopped (an)      4.6              2106  A4",
      "7       stopped (an)      5                1902  A4",
      "7       harmonic (fan)    5                1902  A4",
      "7       harmonic (fan)    9                1902  A4",
      "",
    ].join("\n"),
  );
});

test("a place between: how far it is off, and why", () => {
  const text = told("4 7.9");
  expect(text).toContain("String 4, at 7.9, in standard tuning");
  expect(text).toContain("E3, 8 cents high");
  expect(text).toContain("the player's ear finds the pure pitch");
  expect(told("4 7")).not.toContain("ear");
});

test("an open string, other tunings, and a note that none sounds", () => {
  expect(told("4")).toContain("String 4, open, in");
  expect(told("Bb2", "ruibin")).toContain("in ruìbīn tuning (C2 D2 F2 G2 Bb2 C3 D3)");
  expect(told("E2", "C2 D2 E2 G2 A2 C3 E3")).toContain("in your own tuning (C2 D2 E2 G2 A2 C3 E3)");
  expect(told("Eb6")).toBe(
    "No string sounds Eb6 in standard tuning (C2 D2 F2 G2 A2 C3 D3).\nThe strings reach from C2, the lowest open string, to D6, the highest string stopped at hui 1.\n",
  );
});

test("in Chinese the columns stand under their heads, too", () => {
  const question = parseQuestion(["A4"]);
  const strung: Strung = { tuning: findTuning("manjue"), temperament: "equal" };
  const lines = whereText(question, spotsOf(question, strung), strung, "zh").trimEnd().split("\n");
  const [heading, , head, ...rows] = lines;
  expect(heading).toMatch(/^慢角定弦（C2 D2 E2 G2 A2 C3 D3），十二平均律，A4有\d+个音位：$/);
  const before = columnsOf((head as string).replace(/音高$/, ""));
  expect(rows.length).toBeGreaterThan(10);
  for (const row of rows) expect(columnsOf(row.replace(/A4.*$/, "")), row).toBe(before);
});
