// SPDX-License-Identifier: AGPL-3.0-or-later
// Every command reads the same line of a score, says so, and finds it again in what it wrote.
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CheckJson } from "../../src/report.js";
import { type CheckCall, runCheck } from "../../src/run/check.js";
import { runCompare } from "../../src/run/compare.js";
import { runFit } from "../../src/run/fit.js";

const SONG = fileURLToPath(new URL("../../fixtures/musicxml/piano-and-voice.musicxml", import.meta.url));
const READ =
  "Read: P2 (Gesang), voice 1, of 3 lines: it carries the words, is named as a voice or melody and has mostly one note at a time.";
const OTHERS = "Others: P1 (Klavier), voice 1 (--part P1 --voice 1); P1 (Klavier), voice 5 (--part P1 --voice 5).";
const NO_PAGE = { report: "none" };

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "huipath-line-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

async function lineOf(score: string, more: Partial<CheckCall> = {}): Promise<CheckJson["score"]> {
  const { text } = await runCheck({ score, ...NO_PAGE, json: "-", ...more }, "0.0.0");
  const json: CheckJson = JSON.parse(String(text));
  return json.score;
}

describe("every command says what it read", () => {
  test("check, on the terminal, on the page and in JSON", async () => {
    const report = join(folder, "page.html");
    const { text } = await runCheck({ score: SONG, report, transpose: "-12" }, "0.0.0");
    expect(String(text)).toContain(`${READ}\n${OTHERS}\n`);
    expect(readFileSync(report, "utf8")).toContain(`<li>${READ}</li>`);
    const { choice, others } = await lineOf(SONG);
    expect(choice).toEqual({ lines: 3, reason: READ.replace(/^.*lines: /, "").slice(0, -1) });
    expect(others).toEqual([
      { part: "P1 (Klavier)", voice: "1", notes: 9, options: "--part P1 --voice 1" },
      { part: "P1 (Klavier)", voice: "5", notes: 7, options: "--part P1 --voice 5" },
    ]);
  });

  test("fit", async () => {
    const { text } = await runFit({ score: SONG, ...NO_PAGE, tunings: "zhengdiao", keepKey: true }, "0.0.0");
    expect(String(text)).toContain(`${READ}\n${OTHERS}\n`);
  });

  test("compare", async () => {
    const report = join(folder, "both.html");
    const { text } = await runCompare({ score: SONG, scoreB: SONG, report, tuningB: "manjue" }, "0.0.0");
    expect(String(text)).toContain(READ);
    expect(readFileSync(report, "utf8")).toContain("Gesang, voice 1: it carries the words");
  });

  test("nothing where the call chose", async () => {
    const { text } = await runCheck({ score: SONG, ...NO_PAGE, part: "klav", voice: "5" }, "0.0.0");
    expect(String(text)).not.toContain("Read:");
    expect((await lineOf(SONG, { part: "klav", voice: "5" })).choice).toBeNull();
  });
});

describe("an annotated score", () => {
  const wishes = [{}, { part: "P1", voice: "5" }, { part: "P1", voice: "1" }];
  const written = async (name: string, from: string, wish: Partial<CheckCall>): Promise<string> => {
    const path = join(folder, name);
    await runCheck({ score: from, ...NO_PAGE, annotated: path, transpose: "-12", ...wish }, "0.0.0");
    return path;
  };

  test.each(wishes)("reads back the line that was annotated: %o", async (wish) => {
    const { part, voice } = await lineOf(SONG, wish);
    const path = await written(`back-${wish.voice ?? "own"}.musicxml`, SONG, wish);
    expect(await lineOf(path)).toMatchObject({ part, voice, choice: { reason: "it is the line that was annotated" } });
    expect(await lineOf(path, { part: "2" })).toMatchObject({ part: "Gesang", choice: null });
  });

  test("by its fingering where the setting is lost, or names no line that there is", async () => {
    const text = readFileSync(await written("kept.musicxml", SONG, { part: "P1", voice: "5" }), "utf8");
    const lost = join(folder, "lost.musicxml");
    writeFileSync(lost, text.replace(/<miscellaneous>.*?<\/miscellaneous>/, ""));
    const renamed = join(folder, "renamed.musicxml");
    writeFileSync(renamed, text.replaceAll('id="P1"', 'id="Part-1"'));
    for (const path of [lost, renamed])
      expect(await lineOf(path)).toMatchObject({
        part: "Klavier",
        voice: "5",
        choice: { reason: "it carries guqin fingering" },
      });
  });

  test("annotated in one line after the other it keeps the last", async () => {
    const first = await written("first.musicxml", SONG, { part: "P1", voice: "5" });
    const second = await written("second.musicxml", first, { part: "P2" });
    expect(await lineOf(second)).toMatchObject({ part: "Gesang" });
  });

  test("a score of one line keeps nothing of it", async () => {
    const one = join(folder, "one.musicxml");
    copyFileSync(fileURLToPath(new URL("../../fixtures/musicxml/ties.musicxml", import.meta.url)), one);
    const text = readFileSync(await written("one-back.musicxml", one, { transpose: "0" }), "utf8");
    expect(/<miscellaneous-field[^>]*>([^<]*)/.exec(text)?.[1]).not.toContain("line");
  });
});

test("a brief names the line; an option counts over it", async () => {
  const brief = join(folder, "brief.yaml");
  writeFileSync(brief, "part: Klavier\nvoice: 5\n");
  expect(await lineOf(SONG, { brief })).toMatchObject({ part: "Klavier", voice: "5", choice: null });
  expect(await lineOf(SONG, { brief, voice: "1" })).toMatchObject({ part: "Klavier", voice: "1" });
});
