// SPDX-License-Identifier: AGPL-3.0-or-later
// The forms are those of domain.md's spoken lines (common practice, no source); that they mean the same as the pinyin is
// held against the reader, which parses both by its own table.

import { describe, expect, test } from "vitest";
import { inCharacters, placeInCharacters, readingByHands, stringInCharacters } from "../../src/model/characters.js";
import { ENTRIES, FINGERS, ORNAMENTS, STROKES } from "../../src/model/fingering.js";
import { understood } from "../../src/read/fingering.js";
import { inWords } from "../../src/words.js";

test.each([
  ["san gou 1", "散勾一"],
  ["da 7.6 tiao 4", "大七六挑四"],
  ["ming 10 gou 3", "名十勾三"],
  ["fan 9 tiao 5", "泛九挑五"],
  ["da 10 da 1", "大十打一"],
  ["shang 9", "上九"],
  ["xia 10.8", "下十八"],
  ["dai qi", "带起"],
  ["ming jie 13.1 mo 6 yin", "名节外抹六吟"],
  ["san li 7 5", "散历七五"],
  ["san gou 1 + san tiao 6", "散勾一+散挑六"],
  ["string 3", "三弦"],
  ["da 9 string 4", "大九四弦"],
  ["ming jie 10 gou", "名节十勾"],
  ["9 da 1", "九打一"],
  ["fan 7", "泛七"],
  ["", ""],
  ["what a writer wrote", "what a writer wrote"],
])("%s", (pinyin, characters) => {
  expect(inCharacters(pinyin)).toBe(characters);
});

test.each([
  ["da 7.6 tiao 4", "da 7.6", "tiao 4", "大七六", "挑四"],
  ["da 10 da 1", "da 10", "da 1", "大十", "打一"],
  ["san li 7 5", "san", "li 7 5", "散", "历七五"],
  ["ming jie 13.1 mo 6 yin", "ming jie 13.1", "mo 6 yin", "名节外", "抹六吟"],
  ["fan 7 gou 1", "fan 7", "gou 1", "泛七", "勾一"],
  ["shang 9", "shang 9", "", "上九", ""],
])("%s by hands", (reading, left, right, leftInChinese, rightInChinese) => {
  const hands = readingByHands(reading);
  expect([hands.left, hands.right].map((said) => inWords(said, "en"))).toEqual([left, right]);
  expect([hands.left, hands.right].map((said) => inWords(said, "zh"))).toEqual([leftInChinese, rightInChinese]);
});

test("places and strings in sentences", () => {
  expect([7, 7.6, 10.2, 13.1, 13.6].map(placeInCharacters)).toEqual([
    "七徽",
    "七徽六分",
    "十徽二分",
    "徽外",
    "十三徽六分",
  ]);
  expect([1, 7].map(stringInCharacters)).toEqual(["一弦", "七弦"]);
});

describe("the reader takes both spellings for one fingering", () => {
  const WORD = { thumb: "da", index: "shi", middle: "zhong", ring: "ming" } as const;
  const places = Array.from({ length: 130 }, (_, i) => (i + 10) / 10).filter((place) => place <= 13.9);
  const same = (pinyin: string): void => {
    const [a, b] = [understood(pinyin), understood(inCharacters(pinyin))];
    expect(b, `${pinyin} as ${inCharacters(pinyin)}`).not.toBeNull();
    expect({ ...b, given: { ...b?.given, text: "" } }).toEqual({ ...a, given: { ...a?.given, text: "" } });
  };

  test("every place", () => {
    for (const place of places) for (const form of [`da ${place} tiao 4`, `shang ${place}`, `yan ${place}`]) same(form);
  });

  test("every stroke, string, finger, contact, entry and ornament", () => {
    for (const stroke of STROKES)
      for (let string = 1; string <= 7; string++) {
        same(`san ${stroke} ${string}`);
        same(`fan 7 ${stroke} ${string}`);
        for (const finger of FINGERS)
          for (const contact of ["", " jie", " gui"]) same(`${WORD[finger]}${contact} 9 ${stroke} ${string}`);
      }
    for (const entry of ENTRIES) same(`${entry} ming 10 gou 3`);
    for (const ornament of ORNAMENTS) same(`ming 10 gou 3 ${ornament}`);
  });
});
