// SPDX-License-Identifier: AGPL-3.0-or-later
// Both languages are whole: Chinese pages, summaries and JSON hold no English word, English pages no Chinese one.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { LISTEN_WORDS, SPOKEN_WORDS } from "../../reports/listen-words.js";
import { type CheckCall, runCheck } from "../../src/run/check.js";
import { type CompareCall, runCompare } from "../../src/run/compare.js";
import { type FitCall, runFit } from "../../src/run/fit.js";
import { runWhere } from "../../src/run/where.js";
import { LANGUAGES, type Language } from "../../src/words.js";
import { attributeTexts, foreignTexts, HAN, latinWords, visibleText } from "../support/languages.js";

const fixture = (name: string): string => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));
const submission = (name: string): string => fixture(`submissions/${name}`);

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "huipath-languages-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** What a call says in a language. */
interface Told {
  readonly page: string;
  readonly summary: string;
  readonly json: unknown;
  /** the brief to start from; empty where none is written */
  readonly brief: string;
}

type Call =
  | { readonly command: "check"; readonly options: CheckCall }
  | { readonly command: "compare"; readonly options: CompareCall }
  | { readonly command: "fit"; readonly options: FitCall };

async function told({ command, options }: Call, lang: Language): Promise<Told> {
  const [report, json, writeBrief] = [
    join(folder, "page.html"),
    join(folder, "value.json"),
    join(folder, "brief.yaml"),
  ];
  const outputs = { report, json, lang, force: true };
  const run = {
    check: () => runCheck({ ...options, ...outputs, writeBrief }, "0.0.0"),
    compare: () => runCompare({ ...options, ...outputs }, "0.0.0"),
    fit: () => runFit({ ...options, ...outputs }, "0.0.0"),
  }[command];
  const { text } = await run();
  return {
    page: readFileSync(report, "utf8"),
    summary: String(text),
    json: JSON.parse(readFileSync(json, "utf8")),
    brief: command === "check" ? readFileSync(writeBrief, "utf8") : "",
  };
}

const SONG = fixture("musicxml/piano-and-voice.musicxml");
const RUIBIN = submission("careful-in-ruibin.musicxml");

const CALLS: Readonly<Record<string, Call>> = {
  "check of a fingering with its brief, and other ways": {
    command: "check",
    options: { score: RUIBIN, brief: submission("careful-in-ruibin.yaml"), ways: "3" },
  },
  "check of a fingering on the wrong strings": {
    command: "check",
    options: { score: submission("strings-from-the-wrong-side.musicxml") },
  },
  "check of half a fingering, and what is a matter of taste": {
    command: "check",
    options: { score: submission("partly-fingered.musicxml"), taste: true },
  },
  "check of a melody": {
    command: "check",
    options: { score: fixture("melodies/willow-bend.musicxml"), objective: "worst", sameFigures: "0.5" },
  },
  "check of a song for voice and piano": { command: "check", options: { score: SONG, transpose: "best" } },
  "compare with the best": { command: "compare", options: { score: RUIBIN } },
  "compare of two settings": { command: "compare", options: { score: SONG, scoreB: SONG, tuningB: "manjue" } },
  fit: { command: "fit", options: { score: SONG, tunings: "zhengdiao,manjue,ruibin", keepKey: true, octaves: true } },
};

/** What a score says in words, and the reasons of a brief. */
const WORDS_OF_FILES =
  /<(?:work-title|movement-title|creator|part-name|part-abbreviation|text|words)\b[^>]*>([^<]*)<|\breason: *(.+?)(?: *\}|$)/gm;

/** Latin words that a call, its score and its brief bring along. */
function ownWords({ options }: Call): ReadonlySet<string> {
  const paths = Object.values(options).filter((value) => /\.(?:musicxml|yaml)$/.test(String(value)));
  const words = paths.flatMap((path) =>
    [...readFileSync(path, "utf8").matchAll(WORDS_OF_FILES)].map(([, text, reason]) => text ?? reason ?? ""),
  );
  return new Set(
    [...paths.map((path) => basename(path)), ...words, folder, "page.html", "value.json"].flatMap(latinWords),
  );
}

/** The comments of a brief that are no answers to be uncommented. */
function commentsOf(brief: string): readonly string[] {
  return brief.split("\n").flatMap((line) => {
    if (/[{:]/.test(line) && !line.includes("huipath")) return /(?:#.*|\w) +# (.*)$/.exec(line)?.[1] ?? [];
    return line.startsWith("#") ? line : [];
  });
}

/** Values of JSON that are codes, names or notation, the same in every language. */
const CODE_KEYS = new Set([
  ...["command", "file", "tuning", "temperament", "hand", "interval", "options", "part"],
  ...["sound", "arrival", "stroke", "finger", "contact", "compound", "given", "sign", "source"],
  ...["spoken", "pin", "from", "to"],
  ...["rule", "id", "kind", "severity", "status", "wanted", "followsFrom", "unit"],
]);

/** Texts of two JSON values that stand at the same place, with their key. */
function* pairs(en: unknown, zh: unknown, key = ""): Generator<readonly [key: string, en: string, zh: string]> {
  if (typeof en === "string" && typeof zh === "string") yield [key, en, zh];
  if (typeof en !== "object" || en === null || typeof zh !== "object" || zh === null) return;
  const others = new Map<string, unknown>(Object.entries(zh));
  for (const [name, value] of Object.entries(en)) yield* pairs(value, others.get(name), Array.isArray(en) ? key : name);
}

describe.each(Object.entries(CALLS))("%s", (_, call) => {
  let own: ReadonlySet<string>;
  const strange = (text: string): readonly string[] => latinWords(text).filter((word) => !own.has(word));
  let en: Told;
  let zh: Told;
  beforeAll(async () => {
    own = ownWords(call);
    en = await told(call, "en");
    zh = await told(call, "zh");
  }, 120_000);

  test("the Chinese page holds no English", () => {
    expect(zh.page).toContain('<html lang="zh-Hans">');
    expect([...visibleText(zh.page), ...attributeTexts(zh.page)].flatMap(strange)).toEqual([]);
  });

  test("the English page holds Chinese only where it says so", () => {
    expect(en.page).toContain('<html lang="en">');
    expect(foreignTexts(en.page).filter((text) => HAN.test(text))).toEqual([]);
  });

  test("so do the lines for the terminal, and the brief to start from", () => {
    expect(strange(zh.summary)).toEqual([]);
    expect(commentsOf(zh.brief).flatMap(strange)).toEqual([]);
    expect(en.summary + en.brief).not.toMatch(HAN);
  });

  test("in JSON only codes, names and readings are the same", () => {
    const alike = new Set<string>();
    for (const [key, english, chinese] of pairs(en.json, zh.json)) {
      if (english !== chinese) expect(strange(chinese), `${key}: ${chinese}`).toEqual([]);
      else if (strange(english).length > 0 && !CODE_KEYS.has(key)) alike.add(`${key}: ${english}`);
    }
    expect([...alike]).toEqual([]);
  });
});

describe("elsewhere", () => {
  test.each([["D3"], ["F#1"], ["4", "7.9"], ["4"]])("where %s", async (...what) => {
    const { text } = await runWhere({ what, lang: "zh" });
    expect(latinWords(String(text))).toEqual([]);
    expect(String((await runWhere({ what, lang: "en" })).text)).not.toMatch(HAN);
  });

  test("the words of the listen bar", () => {
    for (const { en, zh } of [...Object.values(LISTEN_WORDS), ...Object.values(SPOKEN_WORDS)]) {
      expect(latinWords(zh.replace(/\{\w+\}/g, ""))).toEqual([]);
      expect(en).not.toMatch(HAN);
    }
  });

  test("every language is covered", () => expect(LANGUAGES).toEqual(["en", "zh"]));
});
