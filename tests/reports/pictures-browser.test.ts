// SPDX-License-Identifier: AGPL-3.0-or-later
// The pictures in a real Chromium, of a piece so long that rows are folded.
import { expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import { fitsWidths, inBrowser, isSoundToAxe, unfold } from "../support/browser.js";
import { sampleReport } from "./sample.js";

inBrowser(
  "the pictures in a browser",
  async () => {
    const report = sampleReport(6);
    return renderCheckPage(report, await engraveReport(report));
  },
  (open) => {
    isSoundToAxe(open, "#pictures");

    fitsWidths(open, [320, 390, 840, 1280], unfold);

    it.each([390, 840, 1280])("have links to bars that a finger hits at %i px", async (width) => {
      await open({ viewport: { width, height: 800 }, javaScriptEnabled: false }, async (page) => {
        const links = page.locator("#strip-1-t").locator("xpath=ancestor::div[1]").locator(".strip-bars a");
        expect(await links.count()).toBeGreaterThan(4);
        for (const link of await links.all()) {
          const box = await link.boundingBox();
          expect(box?.width).toBeGreaterThanOrEqual(24);
          expect(box?.height).toBeGreaterThanOrEqual(24);
        }
        await links.first().click();
        expect(page.url()).toMatch(/#bar-1$/);
      });
    });

    it("stand over their bars' links", async () => {
      await open({ viewport: { width: 1280, height: 800 } }, async (page) => {
        const off = await page.evaluate(`[...document.querySelectorAll(".strip-part")].map((part) => {
          const lines = part.querySelector(".bar-line").getBoundingClientRect();
          return Math.abs(part.querySelector(".strip-bars li").getBoundingClientRect().left - lines.left);
        })`);
        for (const one of off as number[]) expect(one).toBeLessThan(2);
      });
    });

    it("print every row, folded ones too", async () => {
      await open({}, async (page) => {
        await page.emulateMedia({ media: "print" });
        const heights = await page.evaluate(
          `[...document.querySelectorAll("svg.strip-row")].map((svg) => svg.getBoundingClientRect().height)`,
        );
        for (const height of heights as number[]) expect(height).toBeGreaterThan(200);
      });
    });
  },
);
