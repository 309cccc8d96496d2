// SPDX-License-Identifier: AGPL-3.0-or-later
// The page of `fit` in a real Chromium. Without one the tests are left out with a loud line, but not where CI is set.
import { existsSync } from "node:fs";
import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { renderFitPage } from "../../reports/fit-page.js";
import { sampleFit } from "./sample-fit.js";

const CHROMIUM = "/usr/bin/chromium";
const isMissing = !existsSync(CHROMIUM);
if (isMissing && !process.env.CI)
  console.warn(`\n!!! NO BROWSER TESTS: ${CHROMIUM} is not installed (apt-get install chromium)\n`);

describe.skipIf(isMissing && !process.env.CI)("the page of fit in a browser", () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
    html = await renderFitPage(sampleFit(), { score: "three phrases.musicxml", options: [] });
  }, 60_000);

  afterAll(async () => {
    await browser?.close();
  });

  async function open(
    options: Parameters<Browser["newContext"]>[0],
    use: (page: Page) => Promise<void>,
  ): Promise<void> {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    const troubles: string[] = [];
    page.on("console", (message) => troubles.push(message.text()));
    page.on("request", (request) => troubles.push(`asked for ${request.url()}`));
    await page.setContent(html);
    await use(page);
    await context.close();
    expect(troubles).toEqual([]);
  }

  it.each(["light", "dark"] as const)(
    "has no fault that axe-core finds, %s",
    async (colorScheme) => {
      await open({ colorScheme }, async (page) => {
        await page.evaluate("document.querySelectorAll('details').forEach((details) => { details.open = true; })");
        const { violations } = await new AxeBuilder({ page }).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      });
    },
    60_000,
  );

  it.each([320, 390, 820, 1280])("does not scroll sideways at %i px", async (width) => {
    await open({ viewport: { width, height: 800 } }, async (page) => {
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(width);
    });
  });

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
});
