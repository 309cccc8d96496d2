// SPDX-License-Identifier: AGPL-3.0-or-later
// Ways of writing one fingering, and what they mean. 中七勹二 and 木乚七 are worked examples of J. A. van Aalst, Chinese
// Music (1884), pp. 60-61. That a second numeral is the tenth, with 6.7, 8.5 and 10.8 as examples, is said by the tutorial
// on reading the tablature at mondayisformusic.com; 外, 半 and what 十二 may mean by the list of signs at kxting.com. The
// attacks and strings of compounds are those of the right-hand term list at yueqixuexi.com. All other rows are common
// practice, no source.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CONTACTS,
  ENTRIES,
  FIGURES,
  FINGERS,
  type GivenFingering,
  NOTHING_GIVEN,
  ORNAMENTS,
  type SpokenNote,
  STROKES,
  spokenForm,
} from "../../src/model/fingering.js";
import { isForm, readSpoken, type SpokenForm } from "../../src/read/fingering.js";
import type { Move } from "../../src/read/moves.js";
import { given } from "../support/shorthand.js";

const stop = (
  finger: GivenFingering["finger"],
  position: number,
  stroke: GivenFingering["stroke"],
  string: number,
): Partial<GivenFingering> => ({
  sound: "stopped",
  finger,
  contact: "tip",
  position,
  stroke,
  string,
  arrival: "plucked",
});
const open = (stroke: GivenFingering["stroke"], string: number): Partial<GivenFingering> => ({
  sound: "open",
  stroke,
  string,
  arrival: "plucked",
});

function formOf(text: string): SpokenForm {
  const form = readSpoken(text);
  if (!isForm(form)) throw new Error(`"${text}" is not understood; nearest "${form.nearest}"`);
  return form;
}

describe("one fingering in many writings", () => {
  test.each<[Partial<GivenFingering>, readonly string[]]>([
    [
      open("gou", 1),
      [
        ...[
          "san gou 1",
          "sǎn gōu yī",
          "San Gou 1",
          "san-gou-1",
          "SAN  GOU\t1",
          "sangou1",
          "sangouyi",
          "sǎn gōu yī xián",
        ],
        ...["散勾一", "散鉤一", "散 勾 一 弦", "艹勹一", "open gou 1", "Open Gou 1"],
      ],
    ],
    [open("tiao", 7), ["sǎn tiāo qī", "san tiao 7", "散挑七", "open tiao 7"]],
    [open("gou", 3), ["san gou san", "散勾三"]],
    [
      stop("middle", 7, "gou", 2),
      ["zhōng zhǐ qī huī gōu èr", "中七勹二", "中七勾二", "middle 7 gou 2", "zhong 7 gou 2"],
    ],
    [stop("thumb", 7, "tiao", 5), ["dà zhǐ qī huī tiāo wǔ xián", "大七挑五", "大指七徽挑五弦", "thumb 7 tiao 5"]],
    [
      stop("ring", 10.8, "gou", 3),
      [
        "míng zhǐ shí huī bā fēn gōu sān",
        "名十八勾三",
        "名十徽八分勾三",
        "夕十八勹三",
        "ming 10.8 gou 3",
        "ring shi ba gou 3",
      ],
    ],
    [
      stop("thumb", 7.6, "tiao", 6),
      ["dà qī huī liù tiāo liù", "大七六挑六", "大七徽六分挑六", "大七暉六挑六", "da 7.6 tiao 6", "thumb 7.6 tiao 6"],
    ],
    [
      stop("ring", 13.1, "gou", 1),
      ["míng huī wài gōu yī", "名外勾一", "名徽外勾一", "名卜勾一", "ming wai gou 1", "ming 13.1 gou 1"],
    ],
    [stop("ring", 12, "gou", 2), ["名十二勾二", "ming shi er gou er", "ring 12 gou 2"]],
    [stop("ring", 12.2, "gou", 2), ["名十二二勾二", "名十二徽二分勾二", "ming 12.2 gou 2"]],
    [stop("ring", 10.2, "gou", 2), ["名十徽二分勾二", "ming shi hui er gou er"]],
    [stop("ring", 13, "gou", 2), ["名十三勾二", "ming shi san gou er"]],
    [stop("thumb", 8.5, "mo", 4), ["大八半抹四", "da ba ban mo si", "大八徽半抹四", "大八五抹四", "da 8 ban mo 4"]],
    [stop("thumb", 6.7, "mo", 4), ["大六七抹四"]],
    [stop("thumb", 9, "gou", 4), ["大九勾四", "da jiu gou si", "thumb 9 gou 4", "da tip 9 gou 4"]],
    [stop("thumb", 7.62, "gou", 4), ["da 7.62 gou 4"]],
    [stop("index", 9, "gou", 4), ["食九勾四", "shi 9 gou 4", "shi zhi jiu hui gou si", "index 9 gou 4"]],
    [
      { ...stop("ring", 9, "mo", 6), contact: "joint" },
      ["ring joint 9 mo 6", "ming jie 9 mo 6", "名節九抹六", "名节九抹六"],
    ],
    [
      { ...stop("ring", 6.4, "mo", 6), contact: "kneeling" },
      ["名跪六四抹六", "míng guì 6.4 mǒ 6", "ring kneeling 6.4 mo 6"],
    ],
    [
      { sound: "harmonic", position: 9, stroke: "tiao", string: 5, arrival: "plucked" },
      ["fan 9 tiao 5", "fàn jiǔ tiāo wǔ", "泛九挑五", "harmonic 9 tiao 5", "fan-9-tiao-5"],
    ],
    [{ sound: "harmonic", position: 7, stroke: "gou", string: 3, arrival: "plucked" }, ["fan qi gou 3", "泛七勾三"]],
    [{ ...stop("thumb", 9, "da", 1) }, ["大九打一", "da 9 da 1", "da jiu da yi"]],
    [{ sound: "stopped", finger: "thumb", contact: "tip", position: 4 }, ["大四"]],
    [{ ...open("bo", 6) }, ["散擘六", "散劈六", "san pi 6"]],
    [{ ...open("ti", 2) }, ["散剔二", "san ti er"]],
    [{ ...open("zhai", 1) }, ["散摘一"]],
    [{ ...open("tuo", 7) }, ["散托七"]],
    [
      { ...stop("ring", 10, "gou", 3), entry: "chuo" },
      ["chuo ming 10 gou 3", "ming chuo 10 gou 3", "綽名十勾三", "名十绰勾三", "ming 10 chuo gou 3"],
    ],
    [{ ...stop("thumb", 9, "gou", 4), entry: "zhu" }, ["zhù dà jiǔ gōu sì", "注大九勾四", "大九注勾四"]],
    // The finger, or the place too, is that of the note before.
    [{ position: 7.6, stroke: "tiao", string: 4, arrival: "plucked" }, ["7.6 tiao 4", "七六挑四", "qi liu tiao si"]],
    [{ position: 10.8, stroke: "gou", string: 3, arrival: "plucked" }, ["十八勾三", "shi ba gou san"]],
    [
      { sound: "stopped", finger: "thumb", contact: "tip", stroke: "tiao", string: 4, arrival: "plucked" },
      ["da tiao 4", "大挑四"],
    ],
  ])("%o", (meant, writings) => {
    for (const text of writings) expect(given(text), text).toEqual({ ...NOTHING_GIVEN, ...meant, written: true, text });
  });
});

describe("compound strokes", () => {
  test.each<[string, readonly string[], Partial<GivenFingering>]>([
    ["mo-tiao", ["mo tiao 7", "木乚七", "mǒ tiāo qī", "抹挑七"], { stroke: "mo", string: 7 }],
    ["gou-ti", ["gou ti 3", "勾剔三"], { stroke: "gou", string: 3 }],
    ["mo-gou", ["mo gou 3", "抹勾三"], { stroke: "mo", string: 3 }],
    ["die", ["die 4", "疊四", "叠四"], { stroke: "mo", string: 4 }],
    ["juan", ["juan 4", "蠲四"], { stroke: "mo", string: 4 }],
    ["ban-lun", ["ban lun 5", "半輪五", "半轮五"], { stroke: "ti", string: 5 }],
    ["lun", ["lun 3", "輪三", "轮三", "lún sān"], { stroke: "zhai", string: 3 }],
    ["bei-suo", ["bei suo 4", "背鎖四", "背锁四"], { stroke: "ti", string: 4 }],
    ["duan-suo", ["duan suo 4", "短鎖四"], { stroke: "mo", string: 4 }],
    ["chang-suo", ["chang suo 4", "長鎖四", "长锁四"], { stroke: "mo", string: 4 }],
    ["li", ["li 7 5", "li 7 6 5", "歷七五", "历七六五"], { stroke: "tiao", across: [7, 6, 5] }],
    ["li", ["li 6", "歷六"], { stroke: "tiao", string: 6 }],
    ["gun", ["gun 7 1", "滾七一"], { stroke: "zhai", across: [7, 6, 5, 4, 3, 2, 1] }],
    ["fu", ["fu 1 4", "拂一四"], { stroke: "mo", across: [1, 2, 3, 4] }],
    ["gun-fu", ["gun fu 4 1", "滾拂四一", "滚拂四一"], { stroke: "zhai", across: [4, 3, 2, 1] }],
    ["ru-yi", ["ru yi 6 7", "如一六七", "rú yī 6 7"], { stroke: "ti", across: [6, 7] }],
    ["shuang-tan", ["shuang tan 1 2", "雙彈一二", "双弹一二"], { stroke: "ti", across: [1, 2] }],
    ["bo-la", ["bo la 1 2", "po la 1 2", "撥剌一二", "泼剌一二"], { stroke: "gou", across: [1, 2] }],
    ["quan-fu", ["quan fu 1 2", "全扶一二", "quán fú yī èr"], { stroke: "mo", across: [1, 2] }],
    ["yuan-lou", ["yuan lou 3 4", "圓摟三四", "圆搂三四"], { across: [3, 4] }],
    ["yuan-lou", ["yuan lou", "圓摟"], {}],
    ["da-yuan", ["da yuan 6 1", "打圓六一", "打圆六一"], { stroke: "tiao", across: [6, 1] }],
    ["da-yuan", ["da yuan", "打圓"], { stroke: "tiao" }],
    ["small-cuo", ["xiao cuo 4 6", "小撮四六", "cuo 4 6", "撮四六"], { across: [4, 6] }],
    ["large-cuo", ["da cuo 1 6", "大撮一六", "cuo 1 6", "dà cuō yī liù"], { across: [1, 6] }],
    ["reverse-cuo", ["fan cuo 1 6", "反撮一六"], { across: [1, 6] }],
    ["cuo", ["cuo 2 6"], { across: [2, 6] }],
    ["cuo", ["cuo 6", "撮六"], { string: 6 }],
    ["cuo", ["cuo", "撮"], {}],
  ])("%s: %j", (compound, writings, meant) => {
    for (const text of writings)
      expect(given(text), text).toEqual({
        ...NOTHING_GIVEN,
        compound,
        arrival: "plucked",
        ...meant,
        written: true,
        text,
      });
  });

  test.each([
    ["li 5 7"],
    ["gun 1 7"],
    ["fu 4 1"],
    ["lun 3 4"],
    ["lun"],
    ["cuo 3 3"],
    ["da 9 cuo 4 7"],
    ["da yuan 1 2 3"],
  ])("%s is none", (text) => {
    const read = readSpoken(text);
    expect(isForm(read)).toBe(false);
    if (!isForm(read)) expect(isForm(readSpoken(read.nearest))).toBe(true);
  });
});

describe("sounds of the left hand", () => {
  const slid = (position: number | null, direction: Move["direction"]): Move => ({
    given: { sound: "stopped", position, finger: null, arrival: "slid" },
    direction,
  });
  test.each<[string, readonly Move[]]>([
    ["shang 9", [slid(9, "up")]],
    ["上七六", [slid(7.6, "up")]],
    ["xià qī huī jiǔ", [slid(7.9, "down")]],
    ["xia", [slid(null, "down")]],
    ["er shang 9 7.6", [slid(9, "up"), slid(7.6, "up")]],
    ["二上七", [slid(null, "up"), slid(7, "up")]],
    ["er xia", [slid(null, "down"), slid(null, "down")]],
    ["jìn fù", [slid(null, "up"), slid(null, "down")]],
    ["進復九", [slid(9, "up"), slid(null, "down")]],
    ["tui fu 10 9", [slid(10, "down"), slid(9, "up")]],
    ["退复", [slid(null, "down"), slid(null, "up")]],
    ["上九下十", [slid(9, "up"), slid(10, "down")]],
    ["wang lai", [slid(null, "up"), slid(null, "down"), slid(null, "up"), slid(null, "down")]],
    ["往來九", [slid(9, "up"), slid(null, "down"), slid(null, "up"), slid(null, "down")]],
    ["往来 7.6 7.9", [slid(7.6, "up"), slid(7.9, "down"), slid(null, "up"), slid(null, "down")]],
  ])("%s", (text, moves) => {
    const { given: own, direction, following } = formOf(text);
    const { sound, position, finger, arrival } = own;
    expect([{ given: { sound, position, finger, arrival }, direction }, ...following]).toEqual(moves);
  });

  test("moves behind a pluck belong to the notes after it", () => {
    const form = formOf("名十勾四上九");
    expect(form.given).toMatchObject(stop("ring", 10, "gou", 4));
    expect(form.following).toEqual([slid(9, "up")]);
    expect(formOf("gou er shang qi").following).toEqual([slid(7, "up")]);
    expect(formOf("gou san er shang").following).toHaveLength(2);
  });

  test.each([
    [
      ["dai qi", "帶起", "带起", "dài qǐ", "zhua qi", "抓起", "zhao qi", "爪起"],
      { sound: "open", arrival: "pulled-off" },
    ],
    [["qia qi", "掐起"], { sound: "stopped", finger: "ring", arrival: "pulled-off" }],
    [["yan 9", "罨九", "掩九", "yǎn jiǔ"], { sound: "stopped", position: 9, arrival: "hammered" }],
  ] as const)("%j", (writings, meant) => {
    for (const text of writings) expect(given(text), text).toMatchObject(meant);
  });
});

describe("ornaments of a stopped note", () => {
  test.each([
    ["yin", ["ming 10 gou 3 yin", "名十勾三吟", "ming shi gou san yín"]],
    ["nao", ["ming 10 gou 3 nao", "名十勾三猱", "ming 10 gou 3 náo"]],
    ["zhuang", ["ming 10 gou 3 zhuang", "名十勾三撞"]],
    ["dou", ["ming 10 gou 3 dou", "名十勾三逗"]],
    ["huan", ["ming 10 gou 3 huan", "名十勾三喚", "名十勾三唤"]],
  ] as const)("%s", (ornament, writings) => {
    for (const text of writings) {
      const meant = { ...NOTHING_GIVEN, ...stop("ring", 10, "gou", 3), ornament, written: true, text };
      expect(given(text), text).toEqual(meant);
      expect(formOf(text).unjudged).toBeNull();
    }
  });

  test("stand alone, after a slide, and before the moves of later notes", () => {
    expect(given("yin")).toEqual({ ...NOTHING_GIVEN, ornament: "yin", written: true, text: "yin" });
    expect(given("上九猱")).toMatchObject({ arrival: "slid", position: 9, ornament: "nao" });
    const form = formOf("ming 10 gou 4 yin shang 9 nao");
    expect(form.given).toMatchObject({ ...stop("ring", 10, "gou", 4), ornament: "yin" });
    expect(form.following).toMatchObject([{ given: { position: 9, ornament: "nao" } }]);
  });

  test.each([["san gou 1 yin"], ["fan 9 tiao 5 nao"], ["dai qi yin"]])("%s: no finger holds the string", (text) => {
    expect(isForm(readSpoken(text))).toBe(false);
  });
});

describe("techniques that are known and not judged", () => {
  test.each([
    ["jian-gou", ["jian gou 3 5", "間勾", "小間勾三五", "xiao jian gou"]],
    ["fen-kai", ["fen kai", "分開", "分开"]],
  ] as const)("%s alone gives nothing", (technique, writings) => {
    for (const text of writings) expect(readSpoken(text), text).toEqual({ nearest: "", unjudged: technique });
  });

  test("what stands beside fen kai is read", () => {
    const form = formOf("名十勾四分開");
    expect(form.given).toMatchObject(stop("ring", 10, "gou", 4));
    expect(form.unjudged).toBe("fen-kai");
  });

  test.each(["xu yan 9", "虛罨九", "xū yǎn jiǔ"])("%s keeps its place", (text) => {
    const form = formOf(text);
    expect(form.given).toMatchObject({ sound: "stopped", finger: "thumb", position: 9, arrival: null });
    expect(form.unjudged).toBe("xu-yan");
  });
});

describe("signs of harmonics", () => {
  test.each([
    ["fan qi", "begin"],
    ["泛起", "begin"],
    ["fàn zhǐ", "end"],
    ["泛止", "end"],
    ["泛起九挑五", "begin"],
    ["fan 7 gou 3 fan zhi", "end"],
    ["泛七勾三泛止", "end"],
    ["fan qi gou 3", null],
  ])("%s", (text, sign) => {
    expect(formOf(text).harmonics).toBe(sign);
  });
});

describe("texts that only look like it", () => {
  test.each([
    ...[
      "open",
      "Harmonic",
      "down",
      "ring",
      "thumb",
      "half",
      "one",
      "7.6",
      "九",
      "yi",
      "li",
      "gou",
      "da",
      "ming",
      "san san",
    ],
    ...["gou 8", "da 14 gou 3", "fan 7.5 gou 2", "san gou 1 2", "da da da", "名勾", "la la la", "pizz.", ""],
    ...["fan qi qi qi", "shang shang 99", "san gou 1 yin"],
  ])("%j is not understood, and the nearest form is", (text) => {
    const read = readSpoken(text);
    expect(isForm(read)).toBe(false);
    if (!isForm(read)) expect(isForm(readSpoken(read.nearest))).toBe(true);
  });

  test("long texts are answered at once", () => {
    expect(isForm(readSpoken("ti".repeat(20_000)))).toBe(false);
    expect(isForm(readSpoken("shang 9 ".repeat(5_000)))).toBe(false);
    expect(isForm(readSpoken("散勾一".repeat(20_000)))).toBe(false);
  });
});

describe("what is written out is read back", () => {
  const figure = fc.constantFrom(...FIGURES);
  const strings = fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 2, maxLength: 2 });
  const tenths = fc.integer({ min: 10, max: 139 }).map((n) => n / 10);
  const place = fc.oneof(
    fc.constant({ sound: "open", position: null, finger: null, contact: null, entry: null, ornament: null } as const),
    fc
      .integer({ min: 1, max: 13 })
      .map(
        (position) =>
          ({ sound: "harmonic", position, finger: null, contact: null, entry: null, ornament: null }) as const,
      ),
    fc.record({
      sound: fc.constant("stopped" as const),
      position: tenths,
      finger: fc.constantFrom(...FINGERS),
      contact: fc.constantFrom(...CONTACTS),
      entry: fc.constantFrom(null, ...ENTRIES),
      ornament: fc.constantFrom(null, ...ORNAMENTS),
    }),
  );

  test("with any figure on any string", () => {
    fc.assert(
      fc.property(place, figure, fc.integer({ min: 1, max: 7 }), (placed, name, string) => {
        const note: SpokenNote = {
          ...placed,
          string,
          stroke: "mo",
          arrival: "plucked",
          figure: name,
          across: null,
          previous: null,
        };
        expect(given(spokenForm(note))).toMatchObject({
          ...placed,
          compound: name,
          across: null,
          string,
          arrival: "plucked",
        });
      }),
      { numRuns: 500 },
    );
  });

  test("with sweeps and pairs over their strings", () => {
    fc.assert(
      fc.property(place, figure, strings, (placed, name, [a = 1, b = 2]) => {
        const over = readSpoken(`${name.replaceAll("-", " ")} ${a} ${b}`);
        fc.pre(isForm(over));
        const across = isForm(over) ? over.given.across : null;
        const note: SpokenNote = {
          ...placed,
          string: a,
          stroke: "mo",
          arrival: "plucked",
          figure: name,
          across,
          previous: null,
        };
        expect(given(spokenForm(note))).toMatchObject({ ...placed, compound: name, across, string: null });
      }),
      { numRuns: 500 },
    );
  });

  const HANZI = ["", ..."一二三四五六七八九十"];
  const FINGER_HANZI = { thumb: "大", index: "食", middle: "中", ring: "名" } as const;
  const STROKE_HANZI = {
    bo: "擘",
    tuo: "托",
    mo: "抹",
    tiao: "挑",
    gou: "勾",
    ti: "剔",
    da: "打",
    zhai: "摘",
  } as const;

  test("in characters, whatever the finger, the place, the stroke and the string", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...FINGERS),
        fc.integer({ min: 1, max: 13 }),
        fc.integer({ min: 0, max: 9 }),
        fc.constantFrom(...STROKES),
        fc.integer({ min: 1, max: 7 }),
        (finger, hui, fen, stroke, string) => {
          const numeral = hui > 10 ? `十${HANZI[hui - 10]}` : HANZI[hui];
          const text = `${FINGER_HANZI[finger]}${numeral}徽${fen === 0 ? "" : `${HANZI[fen]}分`}${STROKE_HANZI[stroke]}${HANZI[string]}`;
          expect(given(text)).toMatchObject(stop(finger, Math.round(10 * hui + fen) / 10, stroke, string));
        },
      ),
      { numRuns: 500 },
    );
  });
});
