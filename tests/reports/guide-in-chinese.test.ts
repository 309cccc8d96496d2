// SPDX-License-Identifier: AGPL-3.0-or-later
// The handbook in both languages: no English word in the Chinese one, no unmarked character in the English one.
import { describe, expect, test } from "vitest";
import { exampleNotes } from "../../reports/guide-example.js";
import { guideJson } from "../../reports/guide-json.js";
import { guideMarkdown } from "../../reports/guide-markdown.js";
import { renderGuidePage } from "../../reports/guide-page.js";
import { reportingWords } from "../../reports/guide-words.js";
import { BY_CHARGE } from "../../src/check/strict.js";
import { drawSpecimen } from "../../src/engrave/tablature/specimen.js";
import { runGuide } from "../../src/run/guide.js";
import { inLanguage, inWords, type Language } from "../../src/words.js";
import { attributeTexts, foreignTexts, HAN, latinWords, visibleText } from "../support/languages.js";
import { bookFor, settingOf } from "../support/playing.js";
import { oneSided, oneSidedIn } from "../support/template-languages.js";

const setting = settingOf();
const guide = guideJson({ rules: bookFor(setting), hand: setting.hand, version: "0.0.0", byCharge: BY_CHARGE });
const specimen = drawSpecimen();
const [english, chinese] = await Promise.all([
  renderGuidePage(guide, specimen, "en"),
  renderGuidePage(guide, specimen, "zh"),
]);

/** People, titles, standards and bodies, which keep their names. */
const NAMES = [
  "J. Thompson",
  "J. A. van Aalst",
  "Chinese Music",
  "Qin tunings, some theoretical concepts",
  "Physics Today",
  "Waltham、Lan、Koster",
  "Waltham, Lan, Koster",
  "Penttinen, Pakarinen, Välimäki, Laurson, Li, Leman, J. Acoust. Soc. Am.",
  "doi 10.1063/PT.3.3187",
  "“Qin”",
  "W3C",
  "MusicXML",
  "string-number",
  "Klee One",
  "The Klee Project Authors",
  "SIL",
];

const ADDRESS = /(?:[\w-]+\.)+(?:com|cn|org)(?:\/[\w./-]+)?|08anal\/tuning\.htm/g;
/** Elements of MusicXML, settings of a brief, dynamics. */
const NOTATION =
  /<string>|(?:string-numbers|transpose|tuning): [\w-]+|(?<!\p{Script=Latin})f{1,2}(?!\p{Script=Latin})/gu;

/** What was written but not understood as a fingering, as messages quote it, and the ids of rules, which briefs name. */
const WRITTEN = guide.rules.flatMap(({ id, examples }) => [
  id,
  ...examples
    .flatMap(({ fingering }) => fingering)
    .filter((one) => one.startsWith("? ") || one.endsWith(" fen kai"))
    .map((one) => one.replace(/^\? /, "")),
]);

/** Syllables with tone marks, which stand beside the characters of strokes and signs. */
const PINYIN = new Set(
  [...guide.handbook.strokes, ...guide.handbook.compounds, ...guide.handbook.signs].flatMap(({ pinyin }) =>
    latinWords(inWords(pinyin, "zh")),
  ),
);

/** Latin words that are neither name, address, notation nor pinyin. */
function strange(text: string): readonly string[] {
  const plain = text.replace(ADDRESS, " ").replace(NOTATION, " ");
  const rest = [...NAMES, ...WRITTEN].reduce((left, name) => left.replaceAll(name, " "), plain);
  return latinWords(rest).filter((word) => !PINYIN.has(word));
}

describe("the Chinese page", () => {
  test("says what it is in, and holds no English", () => {
    expect(chinese).toContain('<html lang="zh-Hans">');
    const faults = [...visibleText(chinese), ...attributeTexts(chinese)].filter((text) => strange(text).length > 0);
    expect(faults).toEqual([]);
  });

  test("is in simplified characters, all of them in GB 2312 but a few of the trade", () => {
    // GB 2312-1980 has no traditional form of a character that it has a simplified one of.
    const standard = gb2312();
    const own = new Set("徵啇婁發");
    const text = visibleText(chinese.replace(/<b lang="zh-Hant">[^<]*<\/b>/g, "")).join("");
    const others = [...text].filter((one) => HAN.test(one) && !standard.has(one) && !own.has(one));
    expect([...new Set(others)]).toEqual([]);
  });

  test("has the same skeleton as the English one: rules, tables, rows and glyphs", () => {
    for (const piece of ['class="rule"', "<table", "<tr", "<td", "<use", "<li", "<p"])
      expect(chinese.split(piece), piece).toHaveLength(english.split(piece).length);
  });
});

/** The 6763 characters of GB 2312, two bytes each, from B0A1 on. */
function gb2312(): ReadonlySet<string> {
  const decoder = new TextDecoder("gbk");
  const row = Array.from({ length: 94 }, (_, i) => 0xa1 + i);
  const rows = Array.from({ length: 72 }, (_, i) => 0xb0 + i);
  return new Set(rows.flatMap((high) => row.map((low) => decoder.decode(new Uint8Array([high, low])))));
}

test("the English page holds characters only where they are marked as Chinese", () => {
  expect(english).toContain('<html lang="en">');
  expect(foreignTexts(english).filter((text) => HAN.test(text))).toEqual([]);
});

describe("the Markdown", () => {
  test("holds no English in Chinese", () => {
    const text = guideMarkdown(guide, "zh").replace(/<!--.*?-->|<a id.*?>|\]\(#[^)]*\)|`[^`]*`/g, " ");
    const plain = text.replace(/\\(?=[\\`*_<>|[\]])/g, "");
    expect(plain.split("\n").filter((line) => strange(line).length > 0)).toEqual([]);
  });

  test("has as many lines in both", () => {
    const lines = (language: Language): readonly string[] => guideMarkdown(guide, language).split("\n");
    expect(lines("zh")).toHaveLength(lines("en").length);
  });
});

describe("the JSON", () => {
  /** Keys of codes, names that options take, notation and pinyin: the same in every language. */
  const CODES =
    /^(?:command|id|kind|reach|unit|breaks|by|severity|name|evidence|melody|tuning|hand|temperament|fingering|finger|direction|pinyin|zone|alsoCalled|tonic|sound)$/;
  const [en, zh] = [inLanguage(guide, "en"), inLanguage(guide, "zh")];

  test("holds no English but in codes and notation", () => {
    const faults: string[] = [];
    for (const [key, text] of texts(zh))
      if (!CODES.test(key) && strange(text).length > 0) faults.push(`${key}: ${text}`);
    expect(faults).toEqual([]);
  });

  test("holds the same codes and as much text in both", () => {
    const [inEnglish, inChinese] = [[...texts(en)], [...texts(zh)]];
    expect(inChinese.map(([key]) => key)).toEqual(inEnglish.map(([key]) => key));
  });
});

/** Every string of a value with the key that it stands under. */
function* texts(value: unknown, key = ""): Generator<readonly [key: string, text: string]> {
  if (typeof value === "string") yield [key, value];
  if (typeof value !== "object" || value === null) return;
  for (const [name, one] of Object.entries(value)) yield* texts(one, Array.isArray(value) ? key : name);
}

describe("words that depend on a value", () => {
  const rule = { ...(guide.rules[0] as (typeof guide.rules)[number]), unit: "strings" };
  const usual = {
    limit: null,
    breaks: "above",
    limitVaries: false,
    by: "charge",
    severities: [],
    blocks: false,
  } as const;
  const severities = [
    { from: 3, severity: "caution" },
    { from: 2, severity: "problem" },
  ] as const;

  test.each([
    [usual, "按所计的代价报告。"],
    [{ ...usual, limit: 1, blocks: true }, "超过1根弦时，按所计的代价报告；无法演奏的另计。"],
    [
      { ...usual, limit: 3, breaks: "below", by: "number", severities },
      "低于3根弦为“听得出来”，低于2为“演奏者会追问”。",
    ],
    [
      { ...usual, limit: 4, limitVaries: true, by: "number", severities },
      "超过4根弦（有些音另有界限）即报告：超过3根弦为“听得出来”，超过2为“演奏者会追问”。",
    ],
  ] as const)("%j", (reporting, words) => {
    expect(inWords(reportingWords({ ...rule, reporting }), "zh")).toBe(words);
  });

  test("an example note by note", () => {
    const example = {
      ...(rule.examples[0] as (typeof rule.examples)[number]),
      melody: "(,D3 C2+C3!:2) r:1/2 F3{ff,>}",
    };
    const fingering = ["-", "san gou 1", "-", "<string> 4, da 7.6 tiao 4"];
    expect(inLanguage(exampleNotes({ ...example, fingering }), "zh")).toEqual([
      { note: "D3", marks: "倚音，圆滑线起", spoken: "不指定", number: 1 },
      { note: "C2 + C3", marks: "2拍，任其延续，圆滑线止", spoken: "散勾一+不指定", number: 3 },
      { note: "休止", marks: "1/2拍", spoken: "", number: 0 },
      { note: "F3", marks: "ff，渐弱", spoken: "<string>记四弦，大七六挑四", number: 4 },
    ]);
  });
});

test("huipath guide --lang", async () => {
  const { text } = await runGuide({ format: "md", lang: "zh" }, "0.0.0");
  expect(String(text)).toContain("# huipath手册");
  await expect(runGuide({ format: "md", lang: "fr" }, "0.0.0")).rejects.toThrow("--lang");
});

describe("templates", () => {
  test.each(["check", "compare", "fit", "guide"])("%s: every word stands in both languages", (folder) => {
    expect(oneSided(folder)).toEqual([]);
  });

  test("a word in one language is found, and a block without its twin", () => {
    expect(oneSidedIn('<p aria-label="Two">{{say "one" "一"}}{{#en}}x{{/en}}{{#zh}}y{{/zh}}</p>')).toEqual([
      '"Two" in one language',
    ]);
    expect(oneSidedIn("{{#if a}}{{#en}}x{{/en}} {{#zh}}y{{/zh}}{{else}}<b>字</b>{{/if}}")).toEqual([
      "{{#en}} alone",
      "{{#zh}} alone",
      '"字" in one language',
    ]);
    expect(oneSidedIn("{{say 'two' 'deux'}}{{say 'two' ''}}{{say '二' '二'}}{{say ' ' ''}}")).toHaveLength(3);
  });
});
