// SPDX-License-Identifier: AGPL-3.0-or-later
// The page of `compare` in a real Chromium. Without one the tests are left out with a loud line, but not where CI is set.
import { existsSync } from "node:fs";
import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { renderComparePage } from "../../reports/compare-page.js";
import { sampleComparison } from "./sample-comparison.js";

const CHROMIUM = "/usr/bin/chromium";
const isMissing = !existsSync(CHROMIUM);
if (isMissing && !process.env.CI)
  console.warn(`\n!!! NO BROWSER TESTS: ${CHROMIUM} is not installed (apt-get install chromium)\n`);

describe.skipIf(isMissing && !process.env.CI)("the page of compare in a browser", () => {
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
    html = await renderComparePage(sampleComparison());
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
    await page.evaluate("document.querySelectorAll('details').forEach((details) => { details.open = true; })");
    await use(page);
    await context.close();
    expect(troubles).toEqual([]);
  }

  it.each(["light", "dark"] as const)(
    "has no fault that axe-core finds, %s",
    async (colorScheme) => {
      await open({ colorScheme }, async (page) => {
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

  it("leads from every place to its first note in the table, or to the table where no note is said otherwise", async () => {
    await open({}, async (page) => {
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
});
