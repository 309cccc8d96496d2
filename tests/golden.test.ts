// SPDX-License-Identifier: AGPL-3.0-or-later
// Whole outputs, compared to what was last looked at and accepted. `npm run bless` writes them anew.

import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { renderCheckPage } from "../reports/check-page.js";
import { checkSummary } from "../reports/summary.js";
import { engraveReport } from "../src/engrave/music.js";
import type { Report } from "../src/report.js";
import { judge } from "../src/run/judge.js";
import { inLanguage } from "../src/words.js";
import { readMelody } from "./support/melodies.js";
import { settingOf } from "./support/playing.js";

const FOLDER = new URL("goldens/", import.meta.url);

/** The version is left out, so that a release does not touch every golden. */
const VERSION = "0.0.0";

function reportOf(name: string): Report {
  return judge(readMelody(name), settingOf(), VERSION);
}

function compare(file: string, text: string): void {
  const path = new URL(file, FOLDER);
  if (process.env.HUIPATH_BLESS !== undefined) {
    mkdirSync(FOLDER, { recursive: true });
    writeFileSync(path, text);
  }
  expect(existsSync(path), `${file} was never blessed: npm run bless`).toBe(true);
  expect(text).toBe(readFileSync(path, "utf8"));
}

test.each(["auld-lang-syne", "willow-bend", "two-bells", "lark-above-the-roof"])("%s as JSON", (name) => {
  compare(`${name}.json`, `${JSON.stringify(inLanguage(reportOf(name).json, "en"), null, 1)}\n`);
});

test.each(["market-morning", "rattling-shutters", "still-water"])("%s on the terminal", (name) => {
  compare(
    `${name}.txt`,
    checkSummary(reportOf(name), {
      report: `${name}.report.html`,
      json: null,
      score: null,
      certificate: null,
      audio: null,
    }),
  );
});

test("a page", async () => {
  const report = reportOf("willow-bend");
  const page = await renderCheckPage(report, await engraveReport(report));
  // The style sheet and the script are looked at in a browser, not here.
  const still = page
    .replace(/<style>[\s\S]*?<\/style>/g, "<style></style>")
    .replace(/<script>[\s\S]*?<\/script>/g, "<script></script>")
    .replace(/sha256-[^;]*;/g, "sha256-;");
  compare("willow-bend.html", still);
});
