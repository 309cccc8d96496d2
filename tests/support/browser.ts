// SPDX-License-Identifier: AGPL-3.0-or-later
// Pages in a real Chromium. Without one their tests are left out with a loud line, but not where CI is set.
import { existsSync } from "node:fs";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const CHROMIUM = "/usr/bin/chromium";
const isMissing = !existsSync(CHROMIUM);
if (isMissing && !process.env.CI)
  console.warn(`\n!!! NO BROWSER TESTS: ${CHROMIUM} is not installed (apt-get install chromium)\n`);

/** Opens the page and uses it; it must write nothing to the console, throw nothing and load nothing else. */
export type Open = (options: BrowserContextOptions, use: (page: Page) => Promise<void>) => Promise<void>;

/**
 * Tests of one page in the browser.
 *
 * @param render makes the page
 * @param tests  registers the tests
 */
export function inBrowser(name: string, render: () => Promise<string>, tests: (open: Open) => void): void {
  describe.skipIf(isMissing && !process.env.CI)(name, () => {
    let browser: Browser;
    let folder: string;
    let url: string;

    beforeAll(async () => {
      browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
      folder = await mkdtemp(join(tmpdir(), "huipath-page-"));
      await writeFile(join(folder, "page.html"), await render());
      url = pathToFileURL(join(folder, "page.html")).href;
    }, 240_000);

    afterAll(async () => {
      await browser?.close();
      if (folder !== undefined) await rm(folder, { recursive: true });
    });

    tests(async (options, use) => {
      const context = await browser.newContext(options);
      const page = await context.newPage();
      const troubles: string[] = [];
      page.on("console", (message) => troubles.push(message.text()));
      page.on("pageerror", (error) => troubles.push(error.message));
      page.on("request", (request) => {
        if (request.url() !== url) troubles.push(`asked for ${request.url()}`);
      });
      await page.goto(url);
      await use(page);
      await context.close();
      expect(troubles).toEqual([]);
    });
  });
}

/** Unfolds all that is folded. */
export async function unfold(page: Page): Promise<void> {
  await page.evaluate("document.querySelectorAll('details').forEach((details) => { details.open = true; })");
}

/** By day and by night axe-core finds no fault, with everything unfolded. @param within what of the page is looked at */
export function isSoundToAxe(open: Open, within = "html"): void {
  it.each(["light", "dark"] as const)(
    "has no fault that axe-core finds, %s",
    async (colorScheme) => {
      await open({ colorScheme }, async (page) => {
        await unfold(page);
        const { violations } = await new AxeBuilder({ page }).include(within).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      });
    },
    60_000,
  );
}

/** No width makes the page scroll sideways. @param prepare what is done to the page first */
export function fitsWidths(
  open: Open,
  widths: readonly number[],
  prepare: (page: Page) => Promise<void> = async () => {},
): void {
  it.each(widths)("does not scroll sideways at %i px", async (width) => {
    await open({ viewport: { width, height: 800 } }, async (page) => {
      await prepare(page);
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(width);
    });
  });
}
