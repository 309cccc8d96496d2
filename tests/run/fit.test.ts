// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath fit` and `check --transpose best`, from the files on disk to the JSON.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { FitJson } from "../../src/report/fit.js";
import type { CheckJson } from "../../src/report.js";
import { runCheck } from "../../src/run/check.js";
import { type FitCall, runFit } from "../../src/run/fit.js";
import { MELODIES } from "../support/melodies.js";

const melody = (name: string): string =>
  fileURLToPath(new URL(`../../fixtures/melodies/${name}.musicxml`, import.meta.url));
const SCHEMA = new URL("../../reports/schema/fit.schema.json", import.meta.url);
const validate = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true }).compile(
  JSON.parse(readFileSync(SCHEMA, "utf8")),
);

async function fitted(name: string, more: Partial<FitCall> = {}): Promise<FitJson> {
  const { text } = await runFit({ score: melody(name), report: "none", json: "-", ...more }, "0.0.0");
  return JSON.parse(String(text));
}

async function checked(name: string, more: object): Promise<CheckJson> {
  const { text } = await runCheck({ score: melody(name), report: "none", json: "-", ...more }, "0.0.0");
  return JSON.parse(String(text));
}

const first = ({ settings }: FitJson): FitJson["settings"][number] => settings[0] as FitJson["settings"][number];

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "huipath-fit-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe.each(["still-water", "market-morning", "two-bells", "amazing-grace"])("%s", async (name) => {
  const json = await fitted(name, { tunings: "zhengdiao,ruibin,manjue", top: "4" });

  test("keeps the schema", () => {
    validate(json);
    expect(validate.errors ?? []).toEqual([]);
    expect(json.settings).toHaveLength(4);
    expect(json.searched).toMatchObject({ settings: 3 * 49 });
  });

  test("costs what check says of every setting shown, to the thousandth", async () => {
    for (const setting of [...json.settings, json.written]) {
      const report = await checked(name, { tuning: setting.tuning, transpose: String(setting.transpose) });
      expect(report.fingering.total).toEqual(setting.total);
      expect(report.setting.strings).toEqual(setting.strings);
      const byInterval = await checked(name, { tuning: setting.tuning, transpose: setting.interval });
      expect(byInterval.fingering.total).toEqual(setting.total);
    }
  });

  test("check --transpose best takes the first", async () => {
    const tuning = first(json).tuning;
    const one = await fitted(name, { tunings: tuning });
    const best = await checked(name, { tuning, transpose: "best" });
    expect(best.setting).toMatchObject({ tuning, transpose: first(one).transpose, chosenFrom: 49 });
    expect(best.fingering.total).toEqual(first(one).total);
  });
});

test("without a tuning named, best is the best of all", async () => {
  const json = await fitted("still-water", { top: "1" });
  const best = await checked("still-water", { transpose: "best" });
  expect(best.setting).toMatchObject({ tuning: first(json).tuning, transpose: first(json).transpose, chosenFrom: 637 });
  expect(json.searched.exact + json.searched.skipped).toBe(637);
});

test("a brief asks for the best, in the tuning that it names", async () => {
  const brief = join(folder, "brief.yaml");
  writeFileSync(brief, "tuning: manjue\ntranspose: best\n");
  const best = await checked("still-water", { brief });
  expect(best.setting).toMatchObject({ tuning: "manjue", chosenFrom: 49 });
  const json = await fitted("still-water", { brief, tunings: "manjue" });
  expect(json.written).toMatchObject({ tuning: "manjue", transpose: 0 });
  expect(first(json).transpose).toBe(best.setting.transpose);
});

test("says in the summary that the setting was chosen", async () => {
  const call = { score: melody("still-water"), tuning: "zhengdiao", transpose: "best", report: "none" };
  const { text } = await runCheck(call, "0.0.0");
  expect(String(text)).toContain("chosen as the best of 49 settings");
});

test("says when a fingering that the score gives is kept everywhere", async () => {
  const score = join(folder, "fingered.musicxml");
  await runCheck({ score: melody("still-water"), report: "none", annotated: score, quiet: true }, "0.0.0");
  const { text } = await runFit({ score, tunings: "zhengdiao", report: "none" }, "0.0.0");
  expect(String(text)).toContain("The score gives a fingering for 10 notes. It is kept in every setting");
});

test("--keep-key moves by octaves only", async () => {
  const json = await fitted("frere-jacques", { tunings: "zhengdiao", keepKey: true });
  expect(json.settings.map(({ transpose }) => Math.abs(transpose) % 12)).toEqual([0, 0, 0, 0, 0]);
  expect(new Set(json.settings.map(({ key }) => key)).size).toBe(1);
});

test("a strings' list that no tuning has is compared beside the named ones", async () => {
  const brief = join(folder, "own.yaml");
  writeFileSync(brief, 'tuning: "C2 D2 E2 G2 A2 C3 E3"\n');
  const json = await fitted("still-water", { brief, keepKey: true, top: "100" });
  expect(json.searched.settings).toBe(14 * 5);
  expect(json.written).toMatchObject({ tuning: "C2 D2 E2 G2 A2 C3 E3" });
  expect(json.written.rank).not.toBeNull();
});

test("the code is 1 where no setting makes all of it playable", async () => {
  const call = { score: melody("lark-above-the-roof"), tunings: "zhengdiao", report: "none", quiet: true };
  expect((await runFit({ ...call, keepKey: true }, "0.0.0")).code).toBe(0);
  const voices = fileURLToPath(new URL("../../fixtures/musicxml/", import.meta.url));
  const crowded = await runFit({ ...call, score: `${voices}chords.musicxml`, keepKey: true }, "0.0.0");
  expect(crowded.code).toBe(1);
});

test.each<[string, Partial<FitCall>, RegExp]>([
  ["an unknown tuning", { tunings: "zhengdiao,manjeu" }, /--tunings: no tuning called "manjeu".*did you mean manjue/i],
  ["an empty list", { tunings: " , " }, /--tunings: it names none/],
  ["no settings to show", { top: "0" }, /--top: "0" does not fit/],
  ["two outputs to one stream", { json: "-", report: "-" }, /more than one asks for standard output/],
  ["a page over its own input", { report: melody(MELODIES[0] as string) }, /this file is read by the same call/],
])("%s is refused before anything is searched", async (_, more, complaint) => {
  const call = { score: melody(MELODIES[0] as string), report: "none", ...more };
  await expect(runFit(call, "0.0.0")).rejects.toThrow(complaint);
});
