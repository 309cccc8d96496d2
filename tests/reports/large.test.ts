// SPDX-License-Identifier: AGPL-3.0-or-later
// Pages of long melodies: how large, how fast, and nothing left out.
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import { readScore } from "../../src/read/score.js";
import { judge } from "../../src/run/judge.js";
import { inBrowser } from "../support/browser.js";
import { repeated } from "../support/long-scores.js";
import { settingOf } from "../support/playing.js";

const LIMIT_MS = 600_000;
/** What a browser may take for 400 bars, on a machine that does much else at the same time. */
const OPENS_WITHIN_MS = 60_000;

interface Made {
  readonly page: string;
  readonly notes: number;
  /** KB as the file lies on the disk, and packed as mail and servers do */
  readonly raw: number;
  readonly packed: number;
}

/** Renders the page of a melody of the collection that comes several times; prints its size in KB and its time in s. */
async function pageOf(name: string, times: number): Promise<Made> {
  const bytes = readFileSync(new URL(`../../fixtures/melodies/${name}.musicxml`, import.meta.url), "utf8");
  const { score } = readScore(new TextEncoder().encode(repeated(bytes, times)), `${name}.musicxml`);
  const begun = performance.now();
  const report = judge(score, settingOf(), "0.0.0");
  const judged = performance.now();
  const music = await engraveReport(report);
  const engraved = performance.now();
  const page = await renderCheckPage(report, music);
  const [raw, packed] = [Buffer.byteLength(page), gzipSync(page).length].map((size) => Math.round(size / 1000)) as [
    number,
    number,
  ];
  const [search, engrave, write] = [judged - begun, engraved - judged, performance.now() - engraved].map((ms) =>
    (ms / 1000).toFixed(1),
  );
  console.log(
    `${score.bars.length} bars, ${score.notes.length} notes: ${raw} KB, ${packed} KB packed; ` +
      `judged in ${search} s, engraved in ${engrave} s, written in ${write} s`,
  );
  return { page, notes: score.notes.length, raw, packed };
}

it(
  "64 bars keep within the budget",
  async () => {
    const { raw, packed } = await pageOf("four-walks-round-the-pond", 1);
    expect(raw).toBeLessThanOrEqual(900);
    expect(packed).toBeLessThanOrEqual(200);
  },
  LIMIT_MS,
);

let notes: number;
inBrowser(
  "the page of 400 bars in a browser",
  async () => {
    const made = await pageOf("evening-ferry", 25);
    notes = made.notes;
    return made.page;
  },
  (open) => {
    it(
      "opens in good time, with every bar and every line of music within the width",
      async () => {
        const begun = performance.now();
        await open({ viewport: { width: 1280, height: 900 } }, async (page) => {
          const opened = performance.now() - begun;
          console.log(`400 bars: open in ${(opened / 1000).toFixed(1)} s`);
          expect(opened).toBeLessThan(OPENS_WITHIN_MS);
          const shown = (await page.evaluate(`({
            bars: [...document.querySelectorAll(".systems .bar-label")].map((bar) => bar.textContent),
            numbered: [...document.querySelectorAll(".systems .bar-number")].map((bar) => "Bar " + bar.textContent),
            notes: document.querySelectorAll(".systems svg .note").length,
            wide: [...document.querySelectorAll(".system")].filter((system) =>
              [system, ...system.querySelectorAll("svg.staff, .cell, .mark")].some((one) => {
                const { left, right } = one.getBoundingClientRect();
                return left < 0 || right > innerWidth;
              })).length,
            page: document.documentElement.scrollWidth,
          })`)) as Readonly<Record<string, unknown>>;
          const bars = Array.from({ length: 400 }, (_, bar) => `Bar ${bar + 1}`);
          expect(shown).toEqual({ bars, numbered: bars, notes, wide: 0, page: 1280 });
        });
      },
      LIMIT_MS,
    );
  },
);
