// SPDX-License-Identifier: AGPL-3.0-or-later
// The handbook in a real Chromium.
import { AxeBuilder } from "@axe-core/playwright";
import { expect, it } from "vitest";
import { guideJson } from "../../reports/guide-json.js";
import { renderGuidePage } from "../../reports/guide-page.js";
import { BY_CHARGE } from "../../src/check/strict.js";
import { drawSpecimen } from "../../src/engrave/tablature/specimen.js";
import type { Language } from "../../src/words.js";
import { fitsWidths, inBrowser } from "../support/browser.js";
import { bookFor, settingOf } from "../support/playing.js";

async function render(language: Language): Promise<string> {
  const setting = settingOf();
  const rules = bookFor(setting);
  return renderGuidePage(
    guideJson({ rules, hand: setting.hand, version: "0.0.0", byCharge: BY_CHARGE }),
    drawSpecimen(),
    language,
  );
}

inBrowser(
  "the handbook in a browser",
  () => render("en"),
  (open) => {
    it("has no fault that axe-core finds", async () => {
      await open({}, async (page) => {
        const { violations } = await new AxeBuilder({ page }).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      });
    }, 240_000);

    fitsWidths(open, [320, 390, 1280]);

    it("is found by the browser's own search, down to an odd string and a sign", async () => {
      await open({}, async (page) => {
        for (const text of ["12.2 ◆", "Keys in qī liáng", "應合"])
          expect(await page.evaluate(`window.find(${JSON.stringify(text)})`)).toBe(true);
      });
    });

    it("prints to PDF, with no table cut off at the right", async () => {
      await open({ viewport: { width: 688, height: 1000 } }, async (page) => {
        expect((await page.pdf({ format: "A4" })).subarray(0, 5).toString()).toBe("%PDF-");
        await page.emulateMedia({ media: "print" });
        const widest = await page.evaluate(
          "Math.max(...[...document.querySelectorAll('table, svg')].map((one) => one.getBoundingClientRect().right))",
        );
        expect(widest).toBeLessThanOrEqual(688);
      });
    }, 60_000);
  },
);

inBrowser(
  "the Chinese handbook in a browser",
  () => render("zh"),
  (open) => {
    fitsWidths(open, [320, 390, 1280]);
  },
);
