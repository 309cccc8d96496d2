// SPDX-License-Identifier: AGPL-3.0-or-later
// The page of `compare` in a real Chromium.
import { expect, it } from "vitest";
import { renderComparePage } from "../../reports/compare-page.js";
import { fitsWidths, inBrowser, isSoundToAxe, unfold } from "../support/browser.js";
import { sampleComparison } from "./sample-comparison.js";

inBrowser(
  "the page of compare in a browser",
  () => renderComparePage(sampleComparison()),
  (open) => {
    isSoundToAxe(open);

    fitsWidths(open, [320, 390, 820, 1280], unfold);

    it("leads from every place to its first note in the table, or to the table where no note is said otherwise", async () => {
      await open({}, async (page) => {
        await unfold(page);
        const targets = await page.evaluate(
          "[...document.querySelectorAll('#changes a')].map(({ hash }) => document.querySelector(hash)?.tagName ?? hash)",
        );
        const { changes, notes } = sampleComparison().json;
        const listed = new Set(notes.map(({ id }) => id));
        const expected = changes.map((change) => {
          const own = [...change.notes, ...[...change.saves, ...change.costs].flatMap((share) => share.notes)];
          return own.some((id) => listed.has(id)) ? "TR" : "SECTION";
        });
        expect(expected.filter((tag) => tag === "TR").length).toBeGreaterThan(8);
        expect([...(targets as string[])].sort()).toEqual(expected.sort());
      });
    });

    it("fits a printed page", async () => {
      await open({ viewport: { width: 688, height: 1000 } }, async (page) => {
        await unfold(page);
        await page.emulateMedia({ media: "print" });
        expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(688);
      });
    });

    it("prints short when asked: the answer and where the two part, all of it unfolded", async () => {
      await open({}, async (page) => {
        await page.locator("#print-short").check();
        await page.evaluate("document.querySelectorAll('details').forEach((details) => { details.open = false; })");
        await page.emulateMedia({ media: "print" });
        const isShown = (id: string): Promise<boolean> => page.locator(`#${id}`).isVisible();
        expect(await Promise.all(["answer", "changes", "notes", "rules", "settings"].map(isShown))).toEqual([
          true,
          true,
          false,
          false,
          false,
        ]);
        const folded = page.locator("#changes details li").last();
        expect(await folded.evaluate((element) => element.getBoundingClientRect().height)).toBeGreaterThan(0);
      });
    });
  },
);
