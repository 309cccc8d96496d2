// SPDX-License-Identifier: AGPL-3.0-or-later
// Texts of a score and of a brief that are markup, script and orders to a terminal: wherever they are printed they stay
// texts. The pages are opened in Chromium, YAML and XML are read by other people's parsers (yaml, libxml2).
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { XmlDocument } from "libxml2-wasm";
import { afterAll, beforeAll, describe, expect, it, test } from "vitest";
import { parseDocument } from "yaml";
import type { CheckJson } from "../../src/report.js";
import { runCheck } from "../../src/run/check.js";
import { runCompare } from "../../src/run/compare.js";
import { runFit } from "../../src/run/fit.js";
import { inBrowser, unfold } from "../support/browser.js";
import { BARS, CANARY, FILE_NAME, PART, planted, plantedBrief, plantedScore } from "../support/planted.js";

const folder = mkdtempSync(join(tmpdir(), "huipath-planted-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** A file of the test's folder. */
function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const SCORE = file("planted.musicxml", plantedScore());
const NAMED = file(FILE_NAME, plantedScore(false));
const BRIEF = file("planted.yaml", plantedBrief());

const LANGUAGES = ["en", "zh"] as const;

/** Characters that must not reach a terminal: controls but the line break, and what turns the direction of writing. */
const COMMANDS = /[^\P{Cc}\n]|[\u2028\u2029\u202a-\u202e\u2066-\u2069]/u;

/** Pages, and the command that writes each. */
const PAGES: Readonly<Record<string, (report: string, lang: string) => Promise<unknown>>> = {
  check: (report, lang) => runCheck({ score: SCORE, brief: BRIEF, report, lang }, "0.0.0"),
  "check without a title": (report, lang) => runCheck({ score: NAMED, report, lang }, "0.0.0"),
  fit: (report, lang) => runFit({ score: NAMED, tunings: "zhengdiao", top: "2", report, lang }, "0.0.0"),
  compare: (report, lang) => runCompare({ score: SCORE, scoreB: NAMED, brief: BRIEF, report, lang }, "0.0.0"),
};

/** Counts what a page holds and ours never does. */
const STRANGE = `(() => {
  const all = [...document.querySelectorAll("*")];
  const strange = all.filter((e) => ["img", "iframe", "object", "embed", "base", "link", "textarea", "b2"].includes(e.localName));
  const handlers = all.flatMap((e) => e.getAttributeNames().filter((name) => /^on|^autofocus$|^srcdoc$/i.test(name)));
  const links = [...document.querySelectorAll("[href]")].map((e) => e.getAttribute("href"));
  return {
    strange: strange.map((e) => e.outerHTML),
    handlers,
    links: links.filter((link) => !link.startsWith("#")),
    scripts: [...document.scripts].filter((one) => one.type !== "application/json").length,
    titles: document.querySelectorAll("title:not(svg title)").length,
    ran: window.${CANARY} ?? null,
  };
})()`;

for (const [name, render] of Object.entries(PAGES))
  for (const lang of LANGUAGES)
    inBrowser(
      `the page of ${name} in ${lang}`,
      async () => {
        const report = join(folder, `${name}.${lang}.html`);
        await render(report, lang);
        return readFileSync(report, "utf8");
      },
      (open) => {
        it("runs nothing, holds no element of the texts, and shows them", async () => {
          await open({}, async (page) => {
            const dialogs: string[] = [];
            page.on("dialog", (dialog) => {
              dialogs.push(dialog.message());
              void dialog.dismiss();
            });
            await unfold(page);
            // Handlers of focus, of pointers and of lost pictures have had their turn.
            await page.mouse.move(300, 300);
            await page.keyboard.press("Tab");
            await page.waitForTimeout(100);
            expect(await page.evaluate(STRANGE)).toEqual({
              strange: [],
              handlers: [],
              links: [],
              scripts: name.startsWith("check") ? 1 : 0,
              titles: 1,
              ran: null,
            });
            expect(dialogs).toEqual([]);
            const visible = String(await page.evaluate("document.body.textContent"));
            expect(visible).toContain(planted("composer").replace(/\s+/gu, " ").slice(0, 300));
            if (name.startsWith("check")) expect(visible).toContain(BARS[1]);
            if (name === "check") expect(visible).toContain(planted("accepted reason"));
            if (name !== "check" && name !== "compare") expect(await page.title()).toContain(FILE_NAME.slice(0, 30));
          });
        });
      },
    );

describe("the terminal", () => {
  const calls = {
    check: (lang: string) => runCheck({ score: SCORE, brief: BRIEF, report: "none", lang }, "0.0.0"),
    fit: (lang: string) =>
      runFit(
        {
          score: NAMED,
          tunings: "zhengdiao",
          top: "2",
          report: "none",
          json: join(folder, `${lang}\u009b.json`),
          lang,
        },
        "0.0.0",
      ),
    compare: (lang: string) => runCompare({ score: SCORE, scoreB: NAMED, report: "none", lang }, "0.0.0"),
  };
  for (const [name, call] of Object.entries(calls))
    test.each(LANGUAGES)(`${name} gives it no orders in %s`, async (lang) => {
      const { text, complaint } = await call(lang);
      expect(String(text)).toContain("<script>");
      expect(String(text)).not.toMatch(COMMANDS);
      expect(complaint).toBe("");
    });
});

describe("the files", () => {
  let json: CheckJson;
  let text: string;
  const [score, brief] = [join(folder, "out.musicxml"), join(folder, "out.yaml")];
  beforeAll(async () => {
    const call = { score: SCORE, report: "none", json: "-", annotated: score, writeBrief: brief };
    text = String((await runCheck(call, "0.0.0")).text);
    json = JSON.parse(text);
  });

  test("JSON holds the texts as they were, and no character that commands", () => {
    expect(text).not.toMatch(COMMANDS);
    expect(json.score.title).toBe(planted("work-title").replace(/\s+/gu, " "));
    expect(json.score.part).toBe(planted("own name").replace(/\s+/gu, " "));
    expect(json.score.others[0]?.part.startsWith(PART)).toBe(true);
    expect([...new Set(json.fingering.notes.map((note) => note.bar))]).toEqual(BARS);
    expect(json.setting.hand).toBe(planted("stored hand"));
  });

  test("the brief to start from is YAML, and each answer in it names its bars", () => {
    const plain = readFileSync(brief, "utf8");
    expect(plain).not.toMatch(COMMANDS);
    expect(parseDocument(plain).errors).toEqual([]);
    const answered = plain.replace(/^# (?=(passages|accept|pins):)/gm, "").replace(/^# (?= {2}[-#])/gm, "");
    const document = parseDocument(answered, { uniqueKeys: false });
    expect(document.errors).toEqual([]);
    const { accept, pins } = document.toJS();
    const known = new Set(BARS);
    expect(accept.length).toBeGreaterThan(0);
    for (const { bars } of accept)
      expect(
        [...known].some((label) => String(bars).startsWith(label)),
        bars,
      ).toBe(true);
    expect(pins[0].bar).toBe(BARS[0]);
  });

  test("the annotated score is XML, and all but our own lines is as it was", () => {
    const out = readFileSync(score, "utf8");
    XmlDocument.fromString(out).dispose();
    const own = /^<notations print-object="no"><technical>|^<lyric number="\d+" name="huipath">|"huipath-setting"/;
    const others = (document: string): readonly string[] => document.split("\n").filter((line) => !own.test(line));
    expect(others(out)).toEqual(others(plantedScore()));
    expect(out.split("\n").length).toBeGreaterThan(plantedScore().split("\n").length);
  });
});
