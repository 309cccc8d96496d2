// SPDX-License-Identifier: AGPL-3.0-or-later
// The published JSON Schemas against real output, and what no schema can say.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { RULES } from "../../rules/index.js";
import type { CheckJson } from "../../src/report.js";
import { runCheck } from "../../src/run/check.js";
import { runGuide } from "../../src/run/guide.js";
import { runWhere } from "../../src/run/where.js";
import { settingOf } from "../support/playing.js";

const MELODIES = new URL("../../fixtures/melodies/", import.meta.url);
const FEATURES = new URL("../../fixtures/musicxml/", import.meta.url);
const SCORES = readdirSync(MELODIES).filter((file) => file.endsWith(".musicxml"));

function schema(name: string): ValidateFunction {
  const text = readFileSync(new URL(`../../reports/schema/${name}.schema.json`, import.meta.url), "utf8");
  return new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true }).compile(
    JSON.parse(text),
  );
}

/** What a value breaks of a schema, one line each. */
function faults(validate: ValidateFunction, value: unknown): readonly string[] {
  if (validate(value)) return [];
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

const checkSchema = schema("check");
const whereSchema = schema("where");

async function checked(score: string, more: object = {}): Promise<CheckJson> {
  const path = fileURLToPath(new URL(score, MELODIES));
  return JSON.parse(String((await runCheck({ score: path, report: "none", json: "-", ...more }, "0.0.0")).text));
}

/** Spare moves as whole thousandths, so that sums are exact. */
const thousandths = (effort: number): number => Math.round(effort * 1000);
const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

/** Rules that can charge, by id. */
const CHARGING = new Set(
  RULES.filter((entry) => entry.make(settingOf()).reach !== "passage").map((entry) => entry.prose.id),
);

describe.each(SCORES)("%s", async (score) => {
  const json = await checked(score);
  const { notes, bill, total } = json.fingering;

  test("keeps the schema", () => {
    expect(faults(checkSchema, json)).toEqual([]);
  });

  test("its notes, its bill and the total are one sum, in whole thousandths", () => {
    for (const entry of [...notes, ...bill, ...json.findings])
      expect(entry.effort).toBe(thousandths(entry.effort) / 1000);
    for (const part of [notes, bill]) {
      expect(sum(part.map((entry) => thousandths(entry.effort)))).toBe(thousandths(total.effort));
      expect(sum(part.map((entry) => entry.blocked))).toBe(total.blocked);
    }
  });

  test("a charge belongs to the last of its notes", () => {
    for (const note of notes) {
      const own = bill.filter((line) => line.notes.at(-1) === note.id);
      expect(sum(own.map((line) => thousandths(line.effort)))).toBe(thousandths(note.effort));
    }
  });

  test("ids are unique and lead somewhere", () => {
    const ids = notes.map((note) => note.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(new Set(json.findings.map((finding) => finding.id)).size).toBe(json.findings.length);
    const named = [...bill, ...json.findings].flatMap((entry) => entry.notes);
    expect(named.filter((id) => !ids.includes(id))).toEqual([]);
    expect(notes.filter((note) => note.chord !== null && !ids.includes(note.chord))).toEqual([]);
    expect(notes.length).toBe(json.score.notes);
  });

  test("a finding with a cost has its line in the bill, one without has none", () => {
    const key = (entry: { rule: string; notes: readonly string[] }): string => `${entry.rule} ${entry.notes.join(" ")}`;
    const lines = new Map(bill.map((line) => [key(line), { blocked: line.blocked, effort: line.effort }]));
    for (const finding of json.findings) {
      const cost = { blocked: finding.blocked, effort: finding.effort };
      const free = cost.blocked === 0 && cost.effort === 0;
      if (!free) expect(CHARGING).toContain(finding.rule);
      expect(lines.get(key(finding)) ?? { blocked: 0, effort: 0 }).toEqual(cost);
    }
  });

  test("blockers are where something is blocked, and decide whether it is playable", () => {
    for (const finding of json.findings) expect(finding.severity === "blocker").toBe(finding.blocked > 0);
    expect(json.verdict.playable).toBe(notes.every((note) => note.blocked === 0));
  });

  test("every rule has its tally, which counts its findings", () => {
    expect(json.tallies.map((tally) => tally.rule)).toEqual(RULES.map((entry) => entry.prose.id));
    for (const { rule, open, crashed } of json.tallies) {
      expect(crashed).toBeNull();
      expect(open).toBe(json.findings.filter((finding) => finding.rule === rule && finding.status === "open").length);
    }
  });
});

test.each(readdirSync(FEATURES))("%s keeps the schema", async (score) => {
  expect(faults(checkSchema, await checked(`../musicxml/${score}`))).toEqual([]);
});

test("another setting keeps the schema, too", async () => {
  const more = { tuning: "C2 D2 E2 G2 A2 C3 E3", transpose: "-P4", hand: "beginner", temperament: "just" };
  const json = await checked("market-morning.musicxml", more);
  expect(faults(checkSchema, json)).toEqual([]);
  expect(json.setting).toMatchObject({ transpose: -5, hand: "beginner", temperament: "just" });
});

test("the schema refuses what is missing, unknown or impossible", async () => {
  const json = await checked("amazing-grace.musicxml");
  const [first] = json.fingering.notes;
  const withNote = (change: object): object => ({
    ...json,
    fingering: { ...json.fingering, notes: [{ ...first, ...change }] },
  });
  expect(faults(checkSchema, { ...json, extra: 1 })).not.toEqual([]);
  expect(faults(checkSchema, { ...json, unread: undefined })).not.toEqual([]);
  expect(faults(checkSchema, withNote({}))).toEqual([]);
  expect(faults(checkSchema, withNote({ beat: "1.50" }))).not.toEqual([]);
  expect(faults(checkSchema, withNote({ sounding: "H2" }))).not.toEqual([]);
  expect(faults(checkSchema, withNote({ stroke: "pi" }))).not.toEqual([]);
  expect(faults(checkSchema, withNote({ sound: null }))).not.toEqual([]);
});

describe("where --json", () => {
  test.each([["D4"], ["C2"], ["B1"], ["4 7.9"], ["4 9"], ["4"]])("%s keeps the schema", async (what) => {
    const { text } = await runWhere({ what: what.split(" "), json: "-" });
    expect(faults(whereSchema, JSON.parse(String(text)))).toEqual([]);
  });
});

test("guide --format json keeps the schema and holds every rule", async () => {
  const guide = JSON.parse(String((await runGuide({ format: "json" }, "0.0.0")).text));
  expect(faults(schema("guide"), guide)).toEqual([]);
  expect(guide.rules.map((rule: { id: string }) => rule.id).sort()).toEqual(
    RULES.map((entry) => entry.prose.id).sort(),
  );
});
