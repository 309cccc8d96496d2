// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath check --taste`: what it prints, on a melody and on fingerings that somebody wrote.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { expect, test } from "vitest";
import { viewTaste } from "../../reports/check-taste.js";
import type { CheckJson } from "../../src/report.js";
import { runCheck } from "../../src/run/check.js";

const fixture = (name: string): string => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));
const schema = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false }).compile(
  JSON.parse(readFileSync(new URL("../../reports/schema/check.schema.json", import.meta.url), "utf8")),
);

async function checked(name: string, more: object = {}) {
  const call = { score: fixture(name), report: "none", json: "-", ...more };
  const json: CheckJson = JSON.parse(String((await runCheck(call, "0.0.0")).text));
  expect(schema(json), JSON.stringify(schema.errors)).toBe(true);
  return json;
}

const tasteIn = async (name: string, more: object = {}) =>
  (await checked(name, { taste: true, ...more })).fingering.taste;

test("nothing is said where it was not asked for", async () => {
  const json = await checked("melodies/frere-jacques.musicxml");
  expect(json.fingering.taste).toBeNull();
  expect(viewTaste(json).shown).toBe(false);
});

test("of a melody without a fingering: what flips, and how many notes never do", async () => {
  const json = await checked("melodies/frere-jacques.musicxml", { taste: true });
  const { taste, notes } = json.fingering;
  expect(taste?.written).toBeNull();
  const flipped = new Set(taste?.flips?.flatMap(({ changes }) => changes.map(({ note }) => note)));
  expect(flipped.size).toBeGreaterThan(0);
  expect(taste?.robust).toBe(notes.length - flipped.size);
  expect(String(viewTaste(json).robust)).toBe(
    `When one rule weighs a fifth less or more, ${notes.length - flipped.size} of ${notes.length} notes stay as they are; the others are a matter of taste.`,
  );
});

test("of a fingering that was written: for whom it would be the best, in a brief that says so", async () => {
  const knot = "submissions/knot-that-is-meant.mxl";
  const brief = { brief: fixture("submissions/knot-that-is-meant.yaml") };
  const taste = await tasteIn(knot, brief);
  expect(taste).toMatchObject({ flips: null, robust: null, written: { possible: true, dominated: null } });
  expect(taste?.written?.weights).toEqual([{ rule: "alternate-strokes", from: 1, to: 0.75 }]);
  expect(String(taste?.written?.sentence)).toBe(
    "The written fingering would be the best one for somebody who gives strokes of one kind in a row 0.75 times the weight.",
  );
});

test("of a fingering that another one beats under every rule: which one", async () => {
  const taste = await tasteIn("submissions/ring-past-thumb.musicxml");
  expect(taste?.written).toMatchObject({ possible: false, weights: [] });
  expect(taste?.written?.dominated?.changes.length).toBeGreaterThan(0);
  expect(String(taste?.written?.sentence)).toMatch(
    /^No taste makes the written fingering the best one: with .+ instead of .+ it costs more under no rule, and less in .+\.$/,
  );
});

test("of a fingering that cannot be played, or lies on other notes, before all else", async () => {
  const partly = await tasteIn("submissions/partly-fingered.musicxml");
  expect(String(partly?.written?.sentence)).toBe(
    "No taste makes the fingering as it is completed here the best one: 1 move in it cannot be played, and another fingering avoids that.",
  );
  expect(partly?.flips).not.toBeNull();
  const wrong = await tasteIn("submissions/wrong-tenths.musicxml");
  expect(String(wrong?.written?.sentence)).toMatch(/the best one: \d notes lie where another note sounds\.$/);
});

test("it asks about the cheapest line, so it goes with no other wish", async () => {
  for (const wish of [{ objective: "worst" }, { sameFigures: "1" }])
    await expect(tasteIn("melodies/frere-jacques.musicxml", wish)).rejects.toThrow(/--taste/);
});
