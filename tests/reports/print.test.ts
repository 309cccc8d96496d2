// SPDX-License-Identifier: AGPL-3.0-or-later
// The report on paper, as Chromium prints it: how many pages, nothing cut, light, and what is left to the screen.
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import { judge } from "../../src/run/judge.js";
import { LANGUAGES } from "../../src/words.js";
import { inBrowser, type Open } from "../support/browser.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";
import { sampleReport } from "./sample.js";

const LIMIT_MS = 240_000;
/** Sheets in CSS pixels, 96 to the inch (CSS Values 4, 6.2): A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in (ANSI Y14.1). */
const SHEETS = {
  A4: { width: (210 / 25.4) * 96, height: (297 / 25.4) * 96 },
  Letter: { width: 8.5 * 96, height: 11 * 96 },
} as const;
const FORMATS = ["A4", "Letter"] as const;
/** Margin of the page's own style, on each side */
const MARGIN = (14 / 25.4) * 96;

/** The words below a line's last glyph may reach so far into the margin, in CSS pixels. */
const HAIR = 4;

/** What must stand on one sheet whole. */
const WHOLE =
  ".system, .excerpts, .swap, .picture-box, .strip-part, .study-line, .places li:not(:has(.excerpts, .swap)), .strain, .counts-table, .costs";

/** Shows the page as it lies between the margins of a sheet. */
async function layOut(page: Page, format: (typeof FORMATS)[number]): Promise<{ width: number; height: number }> {
  const sheet = SHEETS[format];
  const room = { width: Math.floor(sheet.width - 2 * MARGIN), height: Math.floor(sheet.height - 2 * MARGIN) };
  await page.setViewportSize(room);
  await page.emulateMedia({ media: "print" });
  return room;
}

/** Sheets that a print has. Chromium writes the dictionaries of a PDF's pages unpacked. */
async function sheetsOf(page: Page, format: (typeof FORMATS)[number]): Promise<number> {
  const pdf = (await page.pdf({ format })).toString("latin1");
  return pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

/** How many parts of the page show, by selector. */
const shown = (page: Page, selector: string): Promise<number> =>
  page.evaluate(
    `[...document.querySelectorAll(${JSON.stringify(selector)})].filter((one) => one.checkVisibility()).length`,
  );

/** Nothing is wider than a sheet, and what may not be cut fits on one and says so. */
function isWhole(open: Open): void {
  it.each(FORMATS)(
    "cuts no line of music, picture or place, and nothing at the right, on %s",
    async (format) => {
      await open({}, async (page) => {
        const { width, height } = await layOut(page, format);
        const cut = await page.evaluate(`(() => {
          const name = (one) => one.tagName + "." + one.getAttribute("class") + " #" + one.id;
          const seen = [...document.body.querySelectorAll("*")].filter((one) =>
            one.checkVisibility() && !one.closest(".bar-label") && (!one.ownerSVGElement || one.matches(".systems :is(.cell, .note)")));
          const wide = seen.filter((one) => one.getBoundingClientRect().right > ${width + HAIR});
          const whole = seen.filter((one) => one.matches(${JSON.stringify(WHOLE)}));
          const tall = whole.filter((one) => one.getBoundingClientRect().height > ${height});
          const loose = whole.filter((one) => !one.closest("table table") && getComputedStyle(one).breakInside !== "avoid");
          return { wide: wide.map(name), tall: tall.map(name), loose: loose.map(name), systems: whole.filter((one) => one.matches(".system")).length > 2 };
        })()`);
        expect(cut).toEqual({ wide: [], tall: [], loose: [], systems: true });
      });
    },
    LIMIT_MS,
  );
}

for (const language of LANGUAGES)
  inBrowser(
    `16 bars with many findings on paper, ${language}`,
    async () => {
      const report = sampleReport();
      return renderCheckPage(report, await engraveReport(report), language);
    },
    (open) => {
      isWhole(open);

      it.each(FORMATS)(
        "takes few sheets of %s, more with everything and fewer when short",
        async (format) => {
          await open({}, async (page) => {
            const usual = await sheetsOf(page, format);
            await page.locator("#print-short").check();
            const short = await sheetsOf(page, format);
            await page.locator("#print-all").check();
            const all = await sheetsOf(page, format);
            console.log(`16 bars, ${language}, ${format}: ${usual} sheets, ${short} short, ${all} in all`);
            expect(usual).toBeLessThanOrEqual(16);
            expect(short).toBeGreaterThanOrEqual(3);
            expect(short).toBeLessThan(usual);
            expect(usual).toBeLessThan(all);
          });
        },
        LIMIT_MS,
      );

      it("is light though the device is dark and night was chosen", async () => {
        await open({ colorScheme: "dark" }, async (page) => {
          await page.locator("#theme-dark").check();
          await layOut(page, "A4");
          const seen = await page.evaluate(`["body", "svg.staff", ".entry", "svg.strip-row"].map((selector) => {
            const { backgroundColor, color } = getComputedStyle(document.querySelector(selector));
            return [backgroundColor, color];
          })`);
          const [body, ...others] = seen as [[string, string], ...(readonly [string, string])[]];
          // #22272a, the text of the day.
          expect(body).toEqual(["rgb(255, 255, 255)", "rgb(34, 39, 42)"]);
          for (const [ground, text] of others) {
            expect(["rgba(0, 0, 0, 0)", "rgb(255, 255, 255)"]).toContain(ground);
            expect(text).toBe(body[1]);
          }
        });
      });

      it("leaves what is for the screen to the screen, and says where the rest is", async () => {
        await open({}, async (page) => {
          await layOut(page, "A4");
          expect(await shown(page, "nav, .display, .skip, .listen, .note-cells, .ways-panel, button, input")).toBe(0);
          expect(await shown(page, "#notes, #other-ways, .behind, .quiet ul")).toBe(0);
          expect(await shown(page, ".left-out")).toBe(1);
          for (const part of ["answer", "score", "findings", "pictures", "practice", "positions", "cost", "settings"])
            expect(await shown(page, `#${part}`), part).toBe(1);
        });
      });

      it("prints the long tables where everything is wanted", async () => {
        await open({}, async (page) => {
          await page.locator("#print-all").check();
          await layOut(page, "A4");
          for (const part of ["#notes table", "#other-ways li", ".behind table", ".quiet ul"])
            expect(await shown(page, part), part).toBeGreaterThan(0);
          expect(await shown(page, ".left-out")).toBe(0);
        });
      });
    },
  );

inBrowser(
  "64 bars on paper",
  async () => {
    const report = judge(readMelody("four-walks-round-the-pond"), settingOf(), "0.0.0");
    return renderCheckPage(report, await engraveReport(report));
  },
  (open) => {
    isWhole(open);

    it(
      "takes no more sheets than a piece of that length needs",
      async () => {
        await open({}, async (page) => {
          const [a4, letter] = [await sheetsOf(page, "A4"), await sheetsOf(page, "Letter")];
          console.log(`64 bars: ${a4} sheets of A4, ${letter} of Letter`);
          expect(a4).toBeLessThanOrEqual(24);
          expect(letter).toBeLessThanOrEqual(26);
        });
      },
      LIMIT_MS,
    );
  },
);
