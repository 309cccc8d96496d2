// SPDX-License-Identifier: AGPL-3.0-or-later
// The page of `fit` in a real Chromium.
import { expect, it } from "vitest";
import { renderFitPage } from "../../reports/fit-page.js";
import { fitsWidths, inBrowser, isSoundToAxe } from "../support/browser.js";
import { sampleFit } from "./sample-fit.js";

inBrowser(
  "the page of fit in a browser",
  () => renderFitPage(sampleFit(), { score: "three phrases.musicxml", options: [] }),
  (open) => {
    isSoundToAxe(open);

    fitsWidths(open, [320, 390, 820, 1280]);

    it("leads from a row of the order to the reasons of that setting", async () => {
      await open({}, async (page) => {
        await page.locator("#ranked a").nth(1).click();
        expect(await page.locator("article:target h3").textContent()).toContain("2");
      });
    });

    it("draws every string and the melody within its picture", async () => {
      await open({ viewport: { width: 1280, height: 900 } }, async (page) => {
        const outside = await page.evaluate(`[...document.querySelectorAll("svg.range")].flatMap((svg) => {
        const frame = svg.getBoundingClientRect();
        return [...svg.querySelectorAll("line, circle, rect")].filter((shape) => {
          const box = shape.getBoundingClientRect();
          return box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1;
        }).map((shape) => shape.outerHTML);
      })`);
        expect(outside).toEqual([]);
      });
    });

    it("prints to PDF with nothing cut off at the right", async () => {
      await open({ viewport: { width: 688, height: 1000 } }, async (page) => {
        expect((await page.pdf({ format: "A4" })).subarray(0, 5).toString()).toBe("%PDF-");
        await page.emulateMedia({ media: "print" });
        expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(688);
      });
    });
  },
);
