// SPDX-License-Identifier: AGPL-3.0-or-later
// The page in a real Chromium.
import { expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import { fitsWidths, inBrowser, isSoundToAxe } from "../support/browser.js";
import { sampleReport } from "./sample.js";

const GROUND = "getComputedStyle(document.body).backgroundColor";

inBrowser(
  "the page in a browser",
  async () => {
    const report = sampleReport();
    return renderCheckPage(report, await engraveReport(report));
  },
  (open) => {
    isSoundToAxe(open);

    fitsWidths(open, [320, 390, 820, 1280]);

    it("reads the same without scripts", async () => {
      await open({ javaScriptEnabled: false }, async (page) => {
        await page.getByText("Playable in standard tuning").waitFor();
        await page.getByText("Costs 1 spare move").first().waitFor();
      });
    });

    it("follows a link from a mark to a folded finding and opens it", async () => {
      await open({}, async (page) => {
        const marks = page.locator("a.mark.sev-problem");
        await marks.last().click();
        const target = page.locator("li:target");
        await target.waitFor();
        expect(await target.isVisible()).toBe(true);
      });
    });

    it.each([390, 820, 1280])(
      "brings the whole line of music of a linked bar or note into view at %i px",
      async (width) => {
        await open({ viewport: { width, height: 844 }, reducedMotion: "reduce" }, async (page) => {
          for (const place of ["bar-9", "note-p1b14n3"]) {
            await page.evaluate(`location.hash = "${place}"`);
            const box = await page.evaluate(`(() => {
          const lit = getComputedStyle(document.querySelector(":target"), "::before");
          const { top, bottom } = document.querySelector(":target").closest(".system").getBoundingClientRect();
          const { left, right } = document.querySelector(":target").getBoundingClientRect();
          return { top, bottom, left, right, frame: lit.borderTopWidth, content: lit.content };
        })()`);
            const { top, bottom, left, right, frame, content } = box as Record<string, number | string>;
            expect(top, place).toBeGreaterThanOrEqual(0);
            expect(bottom, place).toBeLessThanOrEqual(844);
            expect(left, place).toBeGreaterThanOrEqual(0);
            expect(right, place).toBeLessThanOrEqual(width);
            expect([frame, content]).toEqual(["2px", '""']);
          }
        });
      },
    );

    it("changes between day and night by keyboard", async () => {
      await open({ colorScheme: "light" }, async (page) => {
        const ground = (): Promise<unknown> => page.evaluate(GROUND);
        const day = await ground();
        await page.locator("#theme-light").focus();
        await page.keyboard.press("ArrowRight");
        expect(await ground()).not.toBe(day);
      });
    });

    it("shows each cell under its notehead", async () => {
      await open({ viewport: { width: 1280, height: 900 } }, async (page) => {
        const off = await page.evaluate(`[...document.querySelectorAll(".note")].flatMap((note) => {
        const cell = document.querySelector('.cell[data-note="' + note.dataset.note + '"]');
        const head = note.querySelector("use");
        if (!cell || note.closest(".systems") === null) return [];
        const [a, b] = [cell, head].map((e) => { const r = e.getBoundingClientRect(); return r.left + r.width / 2; });
        return [Math.abs(a - b)];
      }).sort((a, b) => a - b)`);
        const sorted = off as number[];
        expect(sorted.length).toBeGreaterThan(60);
        // Grace notes apart (one in the sample), whose cells stand to the left.
        expect(sorted.at(-2)).toBeLessThan(1);
      });
    });

    it("prints to PDF with all that is folded, on light paper", async () => {
      await open({ colorScheme: "dark" }, async (page) => {
        const pdf = await page.pdf({ format: "A4" });
        expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
        await page.emulateMedia({ media: "print" });
        const folded = page.getByText("Strokes that close the hand alternate");
        expect(await folded.evaluate((element) => element.getBoundingClientRect().height)).toBeGreaterThan(0);
        expect(await page.evaluate(GROUND)).toBe("rgb(255, 255, 255)");
      });
    });

    it("prints short when asked", async () => {
      await open({}, async (page) => {
        await page.locator("#print-short").check();
        await page.emulateMedia({ media: "print" });
        const printed = await page.evaluate(
          "[...document.querySelectorAll('main > section')].filter((one) => one.checkVisibility()).map(({ id }) => id)",
        );
        expect(printed).toEqual(["answer", "score", "findings"]);
      });
    });
  },
);
