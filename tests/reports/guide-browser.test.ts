// SPDX-License-Identifier: AGPL-3.0-or-later
// The handbook in a real Chromium. Without one the tests are left out with a loud line, but not where CI is set.
import { existsSync } from "node:fs";
import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { guideJson } from "../../reports/guide-json.js";
import { renderGuidePage } from "../../reports/guide-page.js";
import { BY_CHARGE } from "../../src/check/strict.js";
import { bookFor, settingOf } from "../support/playing.js";

const CHROMIUM = "/usr/bin/chromium";
const isMissing = !existsSync(CHROMIUM);
if (isMissing && !process.env.CI)
  console.warn(`\n!!! NO BROWSER TESTS: ${CHROMIUM} is not installed (apt-get install chromium)\n`);

describe.skipIf(isMissing && !process.env.CI)("the handbook in a browser", () => {
  const setting = settingOf();
  let browser: Browser;
  let html: string;

  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
    const rules = bookFor(setting);
    html = await renderGuidePage(guideJson({ rules, hand: setting.hand, version: "0.0.0", byCharge: BY_CHARGE }));
  }, 60_000);

  afterAll(async () => {
    await browser?.close();
  });

  it("has no fault that axe-core finds", async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.setContent(html);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    await context.close();
  }, 60_000);

  it.each([320, 390, 1280])("does not scroll sideways at %i px", async (width) => {
    const page = await browser.newPage({ viewport: { width, height: 800 } });
    await page.setContent(html);
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(width);
    await page.close();
  });

  it("is found by the browser's own search, down to an odd string and a sign", async () => {
    const page = await browser.newPage();
    await page.setContent(html);
    for (const text of ["12.2 ◆", "Keys in qī liáng", "應合"])
      expect(await page.evaluate(`window.find(${JSON.stringify(text)})`)).toBe(true);
    await page.close();
  });

  it("prints to PDF, with no table cut off at the right", async () => {
    const page = await browser.newPage({ viewport: { width: 688, height: 1000 } });
    await page.setContent(html);
    expect((await page.pdf({ format: "A4" })).subarray(0, 5).toString()).toBe("%PDF-");
    await page.emulateMedia({ media: "print" });
    const widest = await page.evaluate(
      "Math.max(...[...document.querySelectorAll('table, svg')].map((one) => one.getBoundingClientRect().right))",
    );
    expect(widest).toBeLessThanOrEqual(688);
    await page.close();
  }, 60_000);
});
