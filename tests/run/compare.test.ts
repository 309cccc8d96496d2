// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath compare`, from the files on disk to the JSON and the page.
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CompareJson } from "../../src/report/compare.js";
import type { CheckJson } from "../../src/report.js";
import { runCheck } from "../../src/run/check.js";
import { type CompareCall, runCompare } from "../../src/run/compare.js";

const fixture = (name: string): string => fileURLToPath(new URL(`../../fixtures/${name}.musicxml`, import.meta.url));
const WRITTEN = fixture("submissions/ring-past-thumb");
const PLAIN = fixture("melodies/auld-lang-syne");
const SCHEMA = new URL("../../reports/schema/compare.schema.json", import.meta.url);
const validate = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true }).compile(
  JSON.parse(readFileSync(SCHEMA, "utf8")),
);

async function compared(call: CompareCall): Promise<CompareJson> {
  const { text, code } = await runCompare({ report: "none", json: "-", ...call }, "0.0.0");
  expect(code).toBe(0);
  return JSON.parse(String(text));
}

async function totalOf(score: string, more: object = {}): Promise<CheckJson["fingering"]["total"]> {
  const { text } = await runCheck({ score, report: "none", json: "-", ...more }, "0.0.0");
  return (JSON.parse(String(text)) as CheckJson).fingering.total;
}

/** Spare moves as whole thousandths, so that sums are exact. */
const thousandths = (effort: number): number => Math.round(effort * 1000);
const sum = (list: readonly { readonly difference: { readonly effort: number } }[]): number =>
  list.reduce((all, { difference }) => all + thousandths(difference.effort), 0);

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "huipath-compare-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

function brief(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const CASES: readonly (readonly [string, () => CompareCall])[] = [
  ["a written fingering and the best", () => ({ score: WRITTEN })],
  ["two hands", () => ({ score: PLAIN, scoreB: PLAIN, handB: "small" })],
  ["two tunings", () => ({ score: PLAIN, scoreB: PLAIN, tuningB: "ruibin", transposeB: "-7" })],
  [
    "two briefs",
    () => ({
      score: PLAIN,
      scoreB: PLAIN,
      brief: brief("a.yaml", "pins:\n  - { bar: 1, beat: 1, string: 4 }\n"),
      briefB: brief("b.yaml", "tuning: manjue\n"),
    }),
  ],
];

describe.each(CASES)("%s", (_, call) => {
  test("keep the schema, and no thousandth is lost between notes, rules and the whole", async () => {
    const json = await compared(call());
    validate(json);
    expect(validate.errors ?? []).toEqual([]);
    const whole = thousandths(json.difference.effort);
    expect(thousandths(json.b.total.effort) - thousandths(json.a.total.effort)).toBe(whole);
    expect(json.b.total.blocked - json.a.total.blocked).toBe(json.difference.blocked);
    expect(sum(json.rules)).toBe(whole);
    expect(sum(json.notes)).toBe(whole);
  });
});

test("both sides cost what check says of them", async () => {
  const json = await compared({ score: PLAIN, scoreB: PLAIN, tuningB: "ruibin", transposeB: "-7" });
  expect(json.a.total).toEqual(await totalOf(PLAIN));
  expect(json.b.total).toEqual(await totalOf(PLAIN, { tuning: "ruibin", transpose: "-7" }));
  const written = await compared({ score: WRITTEN });
  expect(written.a.total).toEqual(await totalOf(WRITTEN));
  expect(thousandths(written.b.total.effort)).toBeLessThan(thousandths(written.a.total.effort));
  expect(written.deciding?.sentence).toMatch(/bar/);
});

test("a fingering against itself decides nothing", async () => {
  const json = await compared({ score: WRITTEN, scoreB: WRITTEN });
  expect(json).toMatchObject({ difference: { blocked: 0, effort: 0 }, notes: [], deciding: null });
});

test("the page is huipath's own and is replaced, a stranger's file is not", async () => {
  const page = join(folder, "page.html");
  for (let run = 0; run < 2; run++) await runCompare({ score: WRITTEN, report: page }, "0.0.0");
  expect(readFileSync(page, "utf8")).toContain("Footbridge in the Fog");
  writeFileSync(page, "mine");
  await expect(runCompare({ score: WRITTEN, report: page }, "0.0.0")).rejects.toThrow(/force/);
  expect(readFileSync(page, "utf8")).toBe("mine");
});

describe("what cannot be compared is named, and nothing is written", () => {
  test.each<[Partial<CompareCall>, RegExp]>([
    [{ scoreB: fixture("melodies/willow-bend") }, /willow-bend\.musicxml, bar \d+: it differs/],
    [{ handB: "small" }, /--hand-b: it is for B/],
    [{ score: "-", scoreB: "-" }, /standard input can be read once/],
    [{ scoreB: join("no", "such.musicxml") }, /no such file/],
  ])("%o", async (call, message) => {
    const page = join(folder, "none.html");
    await expect(runCompare({ score: PLAIN, report: page, ...call }, "0.0.0")).rejects.toThrow(message);
    expect(existsSync(page)).toBe(false);
  });
});
