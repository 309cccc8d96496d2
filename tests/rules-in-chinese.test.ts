// SPDX-License-Identifier: AGPL-3.0-or-later
// The rule book in Chinese: nothing is left in English, and a message names the same numbers in both languages. That the
// examples' messages are those which the rules give is held by rules.test.ts.
import { describe, expect, test } from "vitest";
import { RULES } from "../rules/index.js";
import { inCharacters } from "../src/model/characters.js";
import { UNITS, unitInWords } from "../src/model/unit-words.js";
import type { RuleProse, Sight } from "../src/rule/types.js";
import { inWords, Phrase, type Said } from "../src/words.js";
import { bookFor, settingOf } from "./support/playing.js";

/** What a rule says apart from examples' findings, each with where it is said. */
function textsOf(prose: RuleProse): readonly (readonly [where: string, said: Said])[] {
  const { title, topic, principle, why, whenRight, remedy, parameters, examples } = prose;
  return [
    ...Object.entries({ title, principle, why, whenRight, remedy, ...(topic === undefined ? {} : { topic }) }),
    ...Object.entries(parameters).map(([name, { doc }]) => [name, doc] as const),
    ...examples.map(({ shows }, at) => [`example ${at + 1}`, shows] as const),
  ];
}

const zh = (said: Said): string => inWords(said, "zh");
const en = (said: Said): string => inWords(said, "en");

/** Latin that Chinese sentences keep: pitch names, the score format, and what is typed word for word. */
const KEPT = [
  /(?<![A-Za-z])[A-G][b#]?\d?(?![A-Za-z\d])/g,
  /MusicXML/g,
  /--[a-z-]+/g,
  /string-numbers: guqin/g,
  /transpose: -?\d+/g,
  /tuning: [a-z]+/g,
  // ids of parts, and dynamics as they are printed
  /(?<![A-Za-z])P\d+/g,
  /(?<![a-z])(?:f+|p+)(?![a-z])/g,
];

/** Latin words that a Chinese text should not have. @param written kept as well, word for word */
function latin(text: string, written: readonly string[] = []): readonly string[] {
  const without = written.reduce((left, word) => left.replaceAll(word, ""), text);
  return KEPT.reduce((left, kept) => left.replace(kept, ""), without).match(/\p{Script=Latin}+/gu) ?? [];
}

/** Ids of rules, as the brief says them. */
const IDS = RULES.map(({ prose }) => prose.id);

describe.each(RULES.map(({ prose }) => [prose.id, prose] as const))("%s", (_, prose) => {
  test.each(textsOf(prose))("says its %s in Chinese", (_where, said) => {
    expect(said).toBeInstanceOf(Phrase);
    expectChinese(said);
  });

  test("says of a source that is no name what it is", () => {
    expect(prose.sources.length).toBeGreaterThan(0);
    const unnamed = prose.sources.filter((source) => /no source|our judgement|this tool/.test(en(source)));
    for (const source of unnamed) expect(zh(source)).toMatch(/出处|我们的判断|本工具/);
  });

  test("has Chinese names for its units", () => {
    const units = [prose.unit, ...Object.values(prose.parameters).map(({ unit }) => unit)];
    expect(units.filter((unit) => unit !== null && !UNITS.includes(unit))).toEqual([]);
  });

  const found = prose.examples.flatMap((example) => example.finds.map(([, , message]) => ({ example, message })));

  test.each(found)("finds in Chinese what it finds in English: $message.en", ({ example, message }) => {
    // What the writer wrote and huipath could not read is quoted as it stands.
    expectChinese(message, [...example.fingering.map((text) => text.replace(/^\? /, "")), ...IDS]);
    const without = withoutQuoted(message);
    expect(numbersOf(withDigits(without.zh))).toEqual(numbersOf(without.en));
  });
});

/** A note after another, with a number that a rule may measure. */
const sightOf = (measured: number): Sight => ({
  ...{ measured, limit: 0.5, charge: 0.9, note: "D3", noteBefore: "C3", spoken: "ming 9 tiao 4" },
  ...{ spokenBefore: "san gou 1", seconds: 0.5, written: "shang 10", wanted: null, placed: null },
});
/** Small and large, so that messages are reached which no example reaches. */
const MEASURED = [-3, 0.31, 0.75, 1, 1.4, 2, 3.6, 5.5, 7.2, 12, 14.5, 40];

test.each(bookFor(settingOf()).flatMap((rule) => (rule.reach === "passage" ? [] : [[rule.id, rule] as const])))(
  "%s speaks of the same numbers whatever it measures",
  (_, { message, unit }) => {
    const measured = MEASURED.filter((one) => unit !== "hui" || (one >= 1 && one < 14));
    // A written place that cannot sound has no words without the note that is wanted: examples hold it.
    for (const said of measured.map((one) => message(sightOf(one))).filter((one) => one !== "")) {
      expectChinese(said);
      const without = withoutQuoted(said);
      expect(numbersOf(withDigits(without.zh))).toEqual(numbersOf(without.en));
    }
  },
);

test("names every unit in Chinese", () => {
  for (const unit of UNITS) expect(zh(unitInWords(unit))).toMatch(/^[^A-Za-z]*\p{Script=Han}[^A-Za-z]*$/u);
  expect(unitInWords("of a kind that no rule has")).toBe("of a kind that no rule has");
});

/** Han characters, no English left, the punctuation of Chinese and the same end of sentence. */
function expectChinese(said: Said, written: readonly string[] = []): void {
  const text = zh(said);
  expect(text).toMatch(/\p{Script=Han}/u);
  expect(latin(text, written)).toEqual([]);
  expect(/\.$/.test(en(said)), text).toBe(/。$/.test(text));
  // Between Chinese characters no half-width mark and no blank.
  expect(text).not.toMatch(/\p{Script=Han}[,;:!?()." ]|[,;!?()" ]\p{Script=Han}/u);
}

const SPOKEN_WORD =
  "(?:san|fan|da|shi|zhong|ming|jie|gui|shang|xia|yan|gou|tiao|mo|ti|zhai|tuo|bo|cuo|chuo|zhu|yin|nao)";
const SPOKEN = `${SPOKEN_WORD}(?: ${SPOKEN_WORD}| \\d+(?:\\.\\d+)?)* \\d+(?:\\.\\d+)?`;
/** What an English message quotes, and the readings that it names without quotation marks. */
const QUOTED = new RegExp(`"(?<text>[^"]+)"|\\b(?:${SPOKEN}(?: \\+ ${SPOKEN})*|dai qi|zhua qi)`, "g");

function quotedIn(message: Said): readonly string[] {
  return [...en(message).matchAll(QUOTED)].map((match) => match.groups?.text ?? match[0]);
}

/** Both texts without their readings, each of which the Chinese one has in characters, or as the writer wrote it. */
function withoutQuoted(message: Said): Readonly<Record<"en" | "zh", string>> {
  const chinese = quotedIn(message).reduce((left, reading) => {
    const shown = [`“${inCharacters(reading)}”`, `“${reading}”`].find((one) => left.includes(one));
    expect(shown, `${reading} in ${left}`).toBeDefined();
    return left.replace(shown ?? "", "");
  }, zh(message));
  expect(chinese).not.toMatch(/[“”]/);
  return { en: en(message).replace(QUOTED, ""), zh: chinese };
}

const DIGITS = "一二三四五六七八九十";
const numeralValue = (numeral: string): number =>
  [...numeral].reduce((sum, digit) => sum + (DIGITS.indexOf(digit) + 1), 0);

/** Chinese numerals of strings and places as digits: "四弦七徽六分" as " 4 7.6 "; lists of strings one by one. */
function withDigits(chinese: string): string {
  return chinese
    .replaceAll("徽外", " 13.1 ")
    .replace(
      /(?<hui>十?[一二三]|[一二三四五六七八九十])徽(?:(?<tenths>[一二三四五六七八九])分)?/g,
      (_, hui, tenths) => ` ${numeralValue(hui)}${tenths === undefined ? "" : `.${numeralValue(tenths)}`} `,
    )
    .replace(/(?:[一二三四五六七]、)*[一二三四五六七]弦/g, (strings) =>
      [...strings].map((one) => (DIGITS.includes(one) ? ` ${numeralValue(one)} ` : one)).join(""),
    );
}

/** All numbers and pitch names of a text, sorted. */
function numbersOf(text: string): readonly string[] {
  const numbers = text.match(/(?<![A-Za-z\d.])(?:(?<!\d)-)?\d+(?:\.\d+)?|(?<![A-Za-z])[A-G][b#]?\d(?!\d)/g) ?? [];
  return [...numbers].sort();
}
