// SPDX-License-Identifier: AGPL-3.0-or-later
// `check --focus` as it is called.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { expect, test } from "vitest";
import type { CheckJson } from "../../src/report.js";
import { runCheck } from "../../src/run/check.js";
import { play, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const SCORE = fileURLToPath(new URL("../../fixtures/melodies/willow-bend.musicxml", import.meta.url));
const keepsSchema = new Ajv2020({ strictTypes: false }).compile(
  JSON.parse(readFileSync(new URL("../../reports/schema/check.schema.json", import.meta.url), "utf8")),
);

async function studied(focus: string, more: object = {}): Promise<CheckJson> {
  const outcome = await runCheck({ score: SCORE, report: "none", json: "-", focus, ...more }, "0.0.0");
  return JSON.parse(String(outcome.text));
}

test("the JSON keeps the schema", async () => {
  const json = await studied("勾");
  expect(keepsSchema(json), JSON.stringify(keepsSchema.errors)).toBe(true);
  expect(json.study).toMatchObject({ sign: "gou", uses: 10 });
});

test("each line costs what it costs when somebody writes it down and has it checked", async () => {
  const { study } = await studied("ti");
  expect(study?.lines.length).toBeGreaterThan(5);
  for (const { notes, total } of study?.lines ?? []) {
    const melody = notes.map(({ pitch }) => pitch).join(" ");
    const written = shortScore(
      melody,
      notes.map(({ spoken }) => spoken),
    );
    expect(play(written, settingOf()).verdicts.total.effort).toBe(Math.round(1000 * total.effort));
  }
});

test("stays in the scale that the melody has in another tuning and key", async () => {
  const { study, setting } = await studied("mo", { tuning: "ruibin", transpose: "-P5" });
  // Willow Bend is in F; a fifth lower its five tones are those on B flat.
  const five = new Set(["Bb", "C", "D", "F", "G"]);
  expect(setting.transpose).toBe(-7);
  for (const { notes } of study?.lines ?? [])
    for (const [i, { pitch }] of notes.entries()) if (i % 2 === 1) expect(five).toContain(pitch.replace(/\d/, ""));
});

test("seven strings of one pitch are practised as well", async () => {
  const { study } = await studied("gou", { tuning: "D3 D3 D3 D3 D3 D3 D3" });
  expect(study?.strings.length).toBeGreaterThan(4);
  for (const { total } of study?.lines ?? []) expect(total.blocked).toBe(0);
});

test("no focus, no study", async () => {
  const outcome = await runCheck({ score: SCORE, report: "none", json: "-" }, "0.0.0");
  expect(JSON.parse(String(outcome.text)).study).toBeNull();
});

test("an unknown sign is refused before anything is read", async () => {
  await expect(studied("tremolo", { score: "no-such-file.musicxml" })).rejects.toThrow(
    /^--focus: no stroke or left-hand sign is called "tremolo"/,
  );
});
