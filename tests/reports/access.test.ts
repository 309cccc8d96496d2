// SPDX-License-Identifier: AGPL-3.0-or-later
// Access to the page by WCAG 2.2 (https://www.w3.org/TR/WCAG22/), levels A and AA: what axe-core finds, and what it cannot
// see: order of focus, visible focus, size of targets, reflow, spacing of text, forced colours, reduced motion.
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import { judge } from "../../src/run/judge.js";
import { LANGUAGES } from "../../src/words.js";
import { inBrowser, unfold } from "../support/browser.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";

const LIMIT_MS = 240_000;
const LEVELS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
/** 2.5.8, target size (minimum), in CSS pixels */
const TARGET = 24;
/** What the keyboard reaches */
const FOCUSABLE = "a[href], button, input, select, summary, [tabindex='0']";
/** A line that names an element to whoever mends it */
const NAME = `const nameOf = (one) => one.outerHTML.slice(0, 90);`;

const ask = (page: Page, script: string): Promise<unknown> => page.evaluate(`(() => { ${NAME} ${script} })()`);

for (const language of LANGUAGES)
  inBrowser(
    `access to the page, ${language}`,
    async () => {
      const report = judge(readMelody("lark-above-the-roof"), settingOf(), "0.0.0");
      return renderCheckPage(report, await engraveReport(report), language);
    },
    (open) => {
      it.each(["light", "dark"] as const)(
        "has no fault that axe-core finds with everything open, %s",
        async (colorScheme) => {
          await open({ colorScheme }, async (page) => {
            await unfold(page);
            const { violations } = await new AxeBuilder({ page }).withTags(LEVELS).analyze();
            expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
          });
        },
        LIMIT_MS,
      );

      it.each(["light", "dark", "none"] as const)(
        "shows the focus on every kind of control (2.4.7), forced colours: %s",
        async (scheme) => {
          const forced = scheme === "none" ? ({ forcedColors: "active" } as const) : { colorScheme: scheme };
          await open(forced, async (page) => {
            await unfold(page);
            const unseen = await ask(
              page,
              `const look = (one) => {
                const { outlineStyle, outlineWidth, outlineColor, boxShadow, borderColor } = getComputedStyle(one);
                return [outlineStyle, outlineWidth, outlineStyle === "none" ? "" : outlineColor, boxShadow, borderColor].join();
              };
              const kinds = new Map();
              for (const one of document.querySelectorAll(${JSON.stringify(FOCUSABLE)}))
                if (one.checkVisibility()) kinds.set(one.tagName + "." + one.className + one.type, one);
              const dark = [...kinds.values()].filter((one) => {
                const before = look(one);
                one.focus({ focusVisible: true });
                return document.activeElement !== one || look(one) === before;
              });
              return { dark: dark.map(nameOf), many: kinds.size > 8 };`,
            );
            expect(unseen).toEqual({ dark: [], many: true });
          });
        },
        LIMIT_MS,
      );

      it(
        "is walked by the keyboard in the order in which it is read (2.4.3), and out of it again",
        async () => {
          // Focus scrolls at once, so that what is looked at is where it stays.
          await open({ reducedMotion: "reduce" }, async (page) => {
            const order = [];
            const most = (await page.evaluate(
              `document.querySelectorAll(${JSON.stringify(FOCUSABLE)}).length`,
            )) as number;
            for (let step = 0; step <= most; step++) {
              await page.keyboard.press("Tab");
              const at = await page.evaluate(`(() => {
                const one = document.activeElement;
                if (one === document.body) return null;
                const found = [...document.body.querySelectorAll("*")].indexOf(one);
                const { top, bottom } = one.getBoundingClientRect();
                return { found, covered: bottom <= 0 || top >= innerHeight };
              })()`);
              if (at === null) break;
              order.push(at as { found: number; covered: boolean });
            }
            expect(order.length).toBeGreaterThan(15);
            const places = order.map(({ found }) => found);
            expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
            expect(order.filter(({ covered }) => covered)).toEqual([]);
            expect(order.length).toBeLessThan(most + 1);
          });
        },
        LIMIT_MS,
      );

      it.each([320, 820, 1280])(
        "has targets of 24 pixels outside of running text (2.5.8) at %i px",
        async (width) => {
          await open({ viewport: { width, height: 800 } }, async (page) => {
            await unfold(page);
            const small = await ask(
              page,
              `const target = (one) => (one.closest("label") ?? one).getBoundingClientRect();
              // Exceptions of 2.5.8: a target in a line of text; one with room for a circle of 24 pixels all to itself.
              const inText = (one) => one.tagName === "A" && getComputedStyle(one).display === "inline" &&
                [...one.closest("p, li, td, div").childNodes].some((node) => node !== one && node.textContent.trim() !== "");
              const all = [...document.querySelectorAll("a[href], button, input, select, summary")].filter((one) => one.checkVisibility() && !one.matches(".skip"));
              const boxes = all.map((one) => [one, target(one)]);
              const apart = (one, box) => {
                const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
                return boxes.every(([other, { left, right, top, bottom }]) => other === one || other.closest("label") !== null && other.closest("label") === one.closest("label") ||
                  Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom)) >= ${TARGET / 2});
              };
              return boxes.filter(([one, box]) => (box.width < ${TARGET - 0.1} || box.height < ${TARGET - 0.1}) && !inText(one) && !apart(one, box))
                .map(([one, box]) => Math.round(box.width) + "x" + Math.round(box.height) + " " + nameOf(one));`,
            );
            expect(small).toEqual([]);
          });
        },
        LIMIT_MS,
      );

      it("reflows at 320 pixels (1.4.10), also with wide spacing of text (1.4.12), and cuts no words", async () => {
        await open({ viewport: { width: 320, height: 800 } }, async (page) => {
          await unfold(page);
          expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(320);
          const cut = await ask(
            page,
            `for (const one of document.querySelectorAll("body, body *")) {
              one.style.setProperty("line-height", "1.5", "important");
              one.style.setProperty("letter-spacing", "0.12em", "important");
              one.style.setProperty("word-spacing", "0.16em", "important");
              if (one.tagName === "P") one.style.setProperty("margin-bottom", "2em", "important");
            }
            const hidden = [...document.querySelectorAll("body *")].filter((one) => {
              const { overflowX, overflowY, position } = getComputedStyle(one);
              return position !== "absolute" && one.checkVisibility() && !one.ownerSVGElement && one.tagName !== "svg" &&
                (overflowX === "hidden" && one.scrollWidth > one.clientWidth + 1 || overflowY === "hidden" && one.scrollHeight > one.clientHeight + 1);
            });
            return { wide: document.documentElement.scrollWidth, hidden: hidden.map(nameOf) };`,
          );
          expect(cut).toEqual({ wide: 320, hidden: [] });
        });
      });

      it("moves nothing of itself where motion is not wanted (2.3.3)", async () => {
        await open({ reducedMotion: "reduce" }, async (page) => {
          await unfold(page);
          const moving = await ask(
            page,
            `return [...document.querySelectorAll("*")].filter((one) => {
              const { transitionDuration, animationName, scrollBehavior } = getComputedStyle(one);
              return transitionDuration !== "0s" || animationName !== "none" || scrollBehavior === "smooth";
            }).map(nameOf);`,
          );
          expect(moving).toEqual([]);
        });
      });

      it("keeps its marks where colours are forced", async () => {
        await open({ forcedColors: "active" }, async (page) => {
          const lost = await ask(
            page,
            `const ground = getComputedStyle(document.body).backgroundColor;
            const parts = [...document.querySelectorAll("svg.staff path, .cell path, .cell use, .mark .shape, .shape use, .strip-row path, .share-fill")];
            const paint = (one) => { const { fill, stroke, backgroundColor, color } = getComputedStyle(one); return one.tagName === "use" || one.tagName === "svg" ? [color] : one.namespaceURI.endsWith("svg") ? [fill, stroke] : [backgroundColor]; };
            return { lost: [...new Set(parts.filter((one) => one.checkVisibility() && paint(one).every((colour) => colour === ground || colour === "none")).map((one) => one.tagName + "." + (one.getAttribute("class") ?? "")))], many: parts.length > 50 };`,
          );
          expect(lost).toEqual({ lost: [], many: true });
        });
      });

      it("has headings without gaps, landmarks, a language and a title", async () => {
        await open({}, async (page) => {
          const levels = (await page.evaluate(
            "[...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].map((one) => Number(one.tagName[1]))",
          )) as readonly number[];
          expect(levels[0]).toBe(1);
          expect(levels.filter((level) => level === 1)).toHaveLength(1);
          levels.forEach((level, at) => {
            expect(level, `heading ${at}`).toBeLessThanOrEqual((levels[at - 1] ?? 0) + 1);
          });
          const marks = await ask(
            page,
            `const count = (selector) => document.querySelectorAll(selector).length;
            const named = [...document.querySelectorAll("nav, [role=region], [role=group], main > section")].filter((one) =>
              !one.getAttribute("aria-label") && !document.getElementById(one.getAttribute("aria-labelledby")?.split(" ")[0]));
            const tags = [...document.querySelectorAll("[lang]")].map((one) => one.lang);
            return { header: count("body > header"), main: count("body > main"), footer: count("body > footer"), nav: count("header nav"),
              unnamed: named.map(nameOf), lang: document.documentElement.lang, tags: tags.filter((tag) => !/^(en|zh-Han[st]|zh-Latn-pinyin)$/.test(tag)), title: document.title };`,
          );
          expect(marks).toEqual({
            ...{ header: 1, main: 1, footer: 1, nav: 1, unnamed: [], tags: [] },
            lang: { en: "en", zh: "zh-Hans" }[language],
            title: { en: "Lark Above the Roof · guqin fingering report", zh: "Lark Above the Roof · 古琴指法报告" }[
              language
            ],
          });
        });
      });
    },
  );
