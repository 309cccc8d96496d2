// SPDX-License-Identifier: AGPL-3.0-or-later
// Findings chosen by kind, weight and bar in a real Chromium, with and without scripts.
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import type { FindingJson } from "../../src/report.js";
import { inBrowser, unfold } from "../support/browser.js";
import { sampleReport } from "./sample.js";

const REPORT = sampleReport();
const OPEN = REPORT.json.findings.filter(({ status, followsFrom }) => status === "open" && followsFrom === null);
const ORDER = new Map(REPORT.score.notes.map(({ id }, i) => [id, i]));
const inOrder = (findings: readonly FindingJson[]): readonly string[] =>
  [...findings].sort((a, b) => at(a) - at(b)).map(({ id }) => `f-${id}`);
const at = ({ notes }: FindingJson): number => ORDER.get(notes.at(-1) ?? "") ?? -1;

/** Ids of the open findings that are seen, with everything unfolded. */
async function seen(page: Page): Promise<readonly string[]> {
  return (await page.evaluate(
    "[...document.querySelectorAll('#findings li[data-bars]')].filter((one) => one.checkVisibility()).map(({ id }) => id)",
  )) as string[];
}

const sorted = (ids: readonly string[]): readonly string[] => [...ids].sort();
const idsOf = (findings: readonly FindingJson[]): readonly string[] => sorted(findings.map(({ id }) => `f-${id}`));
const EMPTY_BOXES = `[...document.querySelectorAll("#findings :is(.group, .entry)[class*='has-']")]
  .filter((box) => box.checkVisibility() && ![...box.querySelectorAll("li[data-bars]")].some((one) => one.checkVisibility())).length`;

inBrowser(
  "findings in a browser",
  async () => renderCheckPage(REPORT, await engraveReport(REPORT)),
  (open) => {
    it.each([true, false])("are chosen by kind and weight, scripts %s", async (javaScriptEnabled) => {
      await open({ javaScriptEnabled }, async (page) => {
        // Without scripts nothing unfolds by itself: paper does.
        for (const summary of await page.locator("#findings .entry > .more > summary").all()) await summary.click();
        expect(sorted(await seen(page))).toEqual(idsOf(OPEN));
        await page.locator("#show-efficiency").uncheck();
        expect(sorted(await seen(page))).toEqual(idsOf(OPEN.filter(({ kind }) => kind !== "efficiency")));
        await page.locator("#show-note").uncheck();
        const left = OPEN.filter(({ kind, severity }) => kind !== "efficiency" && severity !== "note");
        expect(sorted(await seen(page))).toEqual(idsOf(left));
        expect(await page.evaluate(EMPTY_BOXES)).toBe(0);
        await page.emulateMedia({ media: "print" });
        expect(sorted(await seen(page))).toEqual(idsOf(OPEN));
        expect(await page.locator(".filter").isVisible()).toBe(false);
      });
    });

    it("are chosen by bar where scripts run, and counted", async () => {
      await open({}, async (page) => {
        await unfold(page);
        const count = page.locator("#filter-count[role=status]");
        expect(await count.textContent()).toBe(`${OPEN.length} of ${OPEN.length} places shown`);
        const options = await page.locator("#filter-from option").allTextContents();
        const barOf = new Map(REPORT.score.notes.map(({ id, bar }) => [id, bar]));
        const bars = ({ notes }: FindingJson): readonly number[] => notes.map((note) => barOf.get(note) ?? 0);
        const all = [...new Set(OPEN.flatMap((one) => [Math.min(...bars(one)), Math.max(...bars(one))]))];
        expect(options).toEqual(all.sort((a, b) => a - b).map((bar) => REPORT.score.bars[bar]?.label));
        await page.locator("#filter-from").selectOption({ label: options[2] as string });
        await page.locator("#filter-to").selectOption({ label: options[4] as string });
        const [from, to] = [all[2] as number, all[4] as number];
        const within = OPEN.filter((one) => Math.min(...bars(one)) <= to && Math.max(...bars(one)) >= from);
        expect(within.length).toBeLessThan(OPEN.length);
        expect(sorted(await seen(page))).toEqual(idsOf(within));
        expect(await count.textContent()).toBe(`${within.length} of ${OPEN.length} places shown`);
        expect(await page.evaluate(EMPTY_BOXES)).toBe(0);
        await page.locator("#filter-from").selectOption({ label: options.at(-1) as string });
        expect(await page.locator("#filter-to").inputValue()).toBe(await page.locator("#filter-from").inputValue());
        await page.emulateMedia({ media: "print" });
        expect(sorted(await seen(page))).toEqual(idsOf(OPEN));
      });
    });

    it("lead from one to the next in the order of the melody, past what is not chosen", async () => {
      await open({}, async (page) => {
        await unfold(page);
        const walk = async (): Promise<readonly string[]> =>
          (await page.evaluate(`(() => {
            const shown = [...document.querySelectorAll("#findings li[data-bars]")].filter((one) => one.checkVisibility());
            const to = (one, step) => { const link = one.querySelector("[rel=" + step + "]"); return link && !link.hidden ? document.querySelector(link.getAttribute("href")) : null; };
            const path = [];
            for (let one = shown.find((place) => to(place, "prev") === null); one; one = to(one, "next")) path.push(one.id);
            return path;
          })()`)) as string[];
        expect(await walk()).toEqual(inOrder(OPEN));
        await page.locator("#show-problem").uncheck();
        expect(await walk()).toEqual(inOrder(OPEN.filter(({ severity }) => severity !== "problem")));
      });
    });

    it.each([true, false])(
      "are shown where a link leads to them, chosen or not, scripts %s",
      async (javaScriptEnabled) => {
        await open({ javaScriptEnabled }, async (page) => {
          const mark = page.locator("a.mark.sev-problem").first();
          await page.locator("#show-problem").uncheck();
          await mark.click();
          expect(await page.locator("li:target").isVisible()).toBe(true);
        });
      },
    );

    it("can be chosen and walked by keyboard, on targets of 24 px", async () => {
      await open({ viewport: { width: 390, height: 800 } }, async (page) => {
        await page.locator("#show-problem").focus();
        await page.keyboard.press("Space");
        expect(await page.locator("#show-problem").isChecked()).toBe(false);
        await page.locator("#show-problem").check();
        await page.locator("[rel=next]").first().focus();
        const href = await page.locator("[rel=next]").first().getAttribute("href");
        await page.keyboard.press("Enter");
        expect(await page.evaluate("location.hash")).toBe(href);
        const small = await page.evaluate(`[...document.querySelectorAll(".filter label, .filter select, .steps a")]
          .filter((one) => one.checkVisibility())
          .map((one) => one.getBoundingClientRect()).filter(({ width, height }) => width < 24 || height < 24).length`);
        expect(small).toBe(0);
      });
    });

    it.each([320, 840])("have their bars within the page at %i px", async (width) => {
      await open({ viewport: { width, height: 800 } }, async (page) => {
        await unfold(page);
        const boxes = (await page.evaluate(
          "[...document.querySelectorAll('.excerpt, .swap')].map((one) => { const { left, right, height } = one.getBoundingClientRect(); return [left, right, height]; })",
        )) as [number, number, number][];
        expect(boxes.length).toBeGreaterThan(10);
        for (const [left, right, height] of boxes) {
          expect(left).toBeGreaterThanOrEqual(0);
          expect(right).toBeLessThanOrEqual(width);
          expect(height).toBeGreaterThan(30);
        }
      });
    });
  },
);
