// SPDX-License-Identifier: AGPL-3.0-or-later
// Other ways to play a note in a real Chromium: from note to note, the panel of one note, the pins taken from it.
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import { parseBrief, resolveBrief } from "../../src/read/brief.js";
import { judge } from "../../src/run/judge.js";
import { fitsWidths, inBrowser } from "../support/browser.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";

const SCORE = readMelody("two-bells");
const REPORT = judge(SCORE, settingOf(), "0");
const { notes } = REPORT.json.fingering;

const DESKTOP = { viewport: { width: 1280, height: 900 }, reducedMotion: "reduce" } as const;

/** Ids of the notes in the order of their buttons. */
const ORDER = "[...document.querySelectorAll('#score use.cell[data-note]')].map((one) => one.dataset.note)";
/** Which note has the focus; -1 for none. */
const FOCUSED = "[...document.querySelectorAll('.note-cell')].indexOf(document.activeElement)";

const focused = (page: Page): Promise<number> => page.evaluate(FOCUSED);

async function press(page: Page, keys: readonly string[]): Promise<number> {
  for (const key of keys) await page.keyboard.press(key);
  return focused(page);
}

/** Opens the panel of the first note by keyboard. */
async function opened(page: Page): Promise<void> {
  await page.locator(".note-cell").first().focus();
  await page.keyboard.press("Enter");
  await page.locator("#ways-panel").waitFor();
}

inBrowser(
  "other ways",
  async () => renderCheckPage(REPORT, await engraveReport(REPORT)),
  (open) => {
    it("stand in the page without a script, every way of every note", async () => {
      await open({ javaScriptEnabled: false }, async (page) => {
        expect(await page.locator(".note-cell").count()).toBe(0);
        expect(await page.locator("#ways-panel").isVisible()).toBe(false);
        await page.locator(".ways-bar > summary").first().click();
        const note = page.locator(".ways-bar[open] > details").first();
        await note.locator("summary").click();
        const [first] = notes;
        for (const way of first?.alternatives ?? [])
          expect(await note.getByText(way.spoken).first().isVisible()).toBe(true);
        expect(await note.getByText(first?.alternatives[0]?.pin ?? "-").isVisible()).toBe(true);
      });
    });

    it("are one tab stop, and arrow keys go from note to note", async () => {
      await open(DESKTOP, async (page) => {
        const cells = page.locator(".note-cell");
        const last = notes.length - 1;
        expect(await cells.count()).toBe(notes.length);
        await page.locator(".systems").focus();
        expect(await press(page, ["Tab"])).toBe(0);
        expect(await press(page, ["ArrowLeft"])).toBe(0);
        expect(await press(page, ["ArrowRight", "ArrowRight"])).toBe(2);
        const rows = (await page.evaluate(
          "[...document.querySelectorAll('.note-cells')].map((one) => one.querySelectorAll('button').length)",
        )) as number[];
        expect(await press(page, ["End"])).toBe((rows[0] as number) - 1);
        expect(await press(page, ["Home"])).toBe(0);
        const below = await press(page, ["ArrowDown"]);
        expect(below).toBeGreaterThanOrEqual(rows[0] as number);
        expect(below).toBeLessThan((rows[0] as number) + (rows[1] as number));
        expect(await press(page, ["ArrowUp"])).toBeLessThan(rows[0] as number);
        expect(await press(page, ["Control+End"])).toBe(last);
        expect(await press(page, ["Control+Home"])).toBe(0);
        expect(await page.locator('.note-cell[tabindex="0"]').count()).toBe(1);
        const names = await cells.evaluateAll((all) => all.map((one) => one.getAttribute("aria-label")));
        const order = (await page.evaluate(ORDER)) as string[];
        for (const [i, id] of order.entries()) {
          const note = notes.find((one) => one.id === id);
          expect(names[i]).toBe(`Bar ${note?.bar}, beat ${note?.beat}: ${note?.sounding} ${note?.spoken}`);
        }
      });
    });

    it("open by Enter with the focus on the cheapest, and give it back by Escape", async () => {
      await open(DESKTOP, async (page) => {
        await page.locator(".note-cell").first().focus();
        await press(page, ["ArrowRight", "ArrowRight", "Enter"]);
        const panel = page.locator("#ways-panel");
        expect(await panel.isVisible()).toBe(true);
        const order = (await page.evaluate(ORDER)) as string[];
        const note = notes.find(({ id }) => id === order[2]);
        expect(await page.locator("#ways-place").textContent()).toBe(
          `Bar ${note?.bar}, beat ${note?.beat}: ${note?.sounding}`,
        );
        expect(await page.locator("#ways-panel li button").count()).toBe(note?.alternatives.length);
        const [on, first] = (await page.evaluate(
          "[document.activeElement, document.querySelector('#ways-panel li button')].map((one) => one.textContent)",
        )) as string[];
        expect(on).toBe(first);
        await press(page, ["Tab", "Escape"]);
        expect(await panel.isVisible()).toBe(false);
        expect(await focused(page)).toBe(2);
        expect(await page.locator('.note-cell[aria-expanded="true"]').count()).toBe(0);
        // While it is open it follows the focus; Escape on the note closes it as well.
        await page.locator(".note-cell").nth(3).click();
        await press(page, ["ArrowRight"]);
        expect(await page.locator("#ways-place").textContent()).toContain(
          `beat ${notes.find(({ id }) => id === order[4])?.beat}`,
        );
        await press(page, ["Escape"]);
        expect(await panel.isVisible()).toBe(false);
        expect(await focused(page)).toBe(4);
      });
    });

    it("are taken as pins that the reader of briefs takes, one a note, and copied", async () => {
      await open(DESKTOP, async (page) => {
        await page.addInitScript(
          "Object.defineProperty(navigator, 'clipboard', { value: { writeText: async (text) => { globalThis.copied = text; } } });",
        );
        await page.reload();
        await opened(page);
        const ways = page.locator("#ways-panel li > button");
        await ways.nth(0).press("Enter");
        await ways.nth(1).press("Enter");
        expect(await page.locator("#ways-status").textContent()).toContain(
          `of the line's ${REPORT.json.fingering.total.effort}`,
        );
        await page.locator("#ways-copy").click();
        const line = await page.locator("#ways-pin").textContent();
        expect(await page.evaluate("globalThis.copied")).toBe(`${line}\n`);
        expect(await page.locator("#ways-status").textContent()).toBe("Copied.");
        await page.locator(".note-cell").nth(4).click();
        await page.locator("#ways-panel li > button").first().click();
        await page.locator("#ways-copy-all").click();
        const block = (await page.evaluate("globalThis.copied")) as string;
        const order = (await page.evaluate(ORDER)) as string[];
        const { pins } = resolveBrief(parseBrief(block, "brief.yaml", []), SCORE);
        expect(new Set(pins.map((pin) => pin.note))).toEqual(new Set([order[0], order[4]]));
        const known = notes.flatMap((note) => note.alternatives.map((way) => way.pin));
        for (const pin of pins) expect(known).toContain(`- ${pin.text.replace(/^- /, "")}`);
        expect(await page.locator(".note-cell.is-pinned").count()).toBe(2);
        expect(await page.locator(".note-cell.is-pinned").first().getAttribute("aria-label")).toContain("pinned");
        await page.locator('#ways-panel li > button[aria-pressed="true"]').click();
        expect(await page.locator(".note-cell.is-pinned").count()).toBe(1);
        await page.locator("#ways-clear").click();
        expect(await page.locator(".note-cell.is-pinned").count()).toBe(0);
        expect(await page.locator("#ways-taken").isVisible()).toBe(false);
      });
    });

    it("are selected where the browser does not copy", async () => {
      await open(DESKTOP, async (page) => {
        await page.addInitScript(
          "Object.defineProperty(navigator, 'clipboard', { value: { writeText: () => Promise.reject(new Error('no')) } });",
        );
        await page.reload();
        await opened(page);
        await page.locator("#ways-panel li > button").first().click();
        await page.locator("#ways-copy").click();
        await expect.poll(() => page.locator("#ways-status").textContent()).toContain("Selected");
        expect(await page.evaluate("getSelection().toString()")).toBe(await page.locator("#ways-pin").textContent());
      });
    });

    it("leave the marks above the staff and the listen bar as they were", async () => {
      await open(DESKTOP, async (page) => {
        const mark = page.locator("a.mark").first();
        if ((await mark.count()) > 0) await mark.click({ trial: true });
        await page.locator(".note-cell").first().click();
        await page.locator("#listen-play").click();
        await page.locator(".cell.is-heard").first().waitFor();
        expect(await page.locator("#ways-panel").isVisible()).toBe(true);
        await page.locator("#listen-stop").click();
      });
    });

    it.each(["light", "dark"] as const)(
      "have no fault that axe-core finds while they stand open, %s",
      async (scheme) => {
        await open({ ...DESKTOP, colorScheme: scheme }, async (page) => {
          await opened(page);
          await page.locator("#ways-panel li > button").first().click();
          const { violations } = await new AxeBuilder({ page }).include("#score").analyze();
          expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
        });
      },
    );

    fitsWidths(open, [320, 390, 840, 1280], async (page) => {
      await page.evaluate("document.querySelectorAll('#other-ways details').forEach((one) => { one.open = true; })");
      await page.locator(".note-cell").nth(1).click();
      await page.locator("#ways-panel li > button").first().click();
      const box = await page.locator("#ways-panel").boundingBox();
      expect(box?.x).toBeGreaterThanOrEqual(0);
      expect((box?.x ?? 0) + (box?.width ?? 0)).toBeLessThanOrEqual(page.viewportSize()?.width ?? 0);
    });
  },
);
