// SPDX-License-Identifier: AGPL-3.0-or-later
// The components that tablature is composed of: characters of the font, and figures of our own strokes for the frames
// that go around a string number and for what the font does not have. What each stands for, and where that comes from,
// is in reports/handbook/tablature.ts.
import type { OutlinedCharacter } from "./outlines.js";

/** Strokes of our own in a square of 1000: an SVG path of the absolute commands M, L and Q. */
export interface Strokes {
  readonly path: string;
  /** strokes that lie above each other */
  readonly rows: number;
  /** strokes that stand beside each other */
  readonly columns: number;
}

/** Components that the font draws. */
const CHARACTERS = {
  zero: "〇",
  one: "一",
  two: "二",
  three: "三",
  four: "四",
  five: "五",
  six: "六",
  seven: "七",
  eight: "八",
  nine: "九",
  ten: "十",
  half: "半",
  wai: "卜",
  san: "艹",
  fan: "乏",
  thumb: "大",
  index: "人",
  middle: "中",
  ring: "夕",
  kneeling: "足",
  joint: "卩",
  mo: "木",
  ti: "勿",
  da: "丁",
  cuo: "早",
  reverse: "反",
  yuan: "囗",
  lou: "女",
  die: "田",
  juan: "益",
  lun: "侖",
  bei: "北",
  "suo-above": "小",
  "suo-below": "貝",
  duan: "矢",
  chang: "長",
  gun: "袞",
  fu: "弗",
  suo: "索",
  ling: "令",
  "ru-left": "女",
  "ru-right": "口",
  shuang: "双",
  tan: "弓",
  po: "癶",
  la: "束",
  quan: "全",
  hold: "夫",
  chuo: "卜",
  zhu: "氵",
  yin: "今",
  nao: "犭",
  zhuang: "立",
  dou: "豆",
  huan: "奐",
  shang: "上",
  xia: "下",
  dai: "帶",
  zhua: "爪",
  qia: "掐",
  qi: "己",
  yan: "奄",
  bo: "尸",
  tiao: "乚",
  gou: "勹",
  li: "厂",
} as const satisfies Readonly<Record<string, OutlinedCharacter>>;

/** Components of our own strokes. */
const STROKES = {
  tuo: {
    path: "M760 0Q500 95 170 110M0 310L985 255M275 105L275 800Q275 960 440 960L790 960Q945 960 950 800",
    rows: 3,
    columns: 2,
  },
  zhai: {
    path: "M500 0L500 125M40 140L960 140M315 200L375 310M685 200L625 310M100 985L100 355L900 355L900 890Q890 1000 770 945",
    rows: 3,
    columns: 2,
  },
} as const satisfies Readonly<Record<string, Strokes>>;

type CharacterName = keyof typeof CHARACTERS;
type StrokesName = keyof typeof STROKES;

/** The name of a component. */
export type ComponentName = CharacterName | StrokesName;

/** All components, those of the font first. */
export const COMPONENTS = [...Object.keys(CHARACTERS), ...Object.keys(STROKES)] as readonly ComponentName[];

const isCharacter = (name: ComponentName): name is CharacterName => Object.hasOwn(CHARACTERS, name);

/** Characters that go around a string's number. */
const FRAMES: ReadonlySet<CharacterName> = new Set(["bo", "tiao", "gou", "li"]);

/** How a component is drawn: by strokes of our own, or by the outline of a character, which may be a frame. */
export type Drawing =
  | { readonly strokes: Strokes }
  | { readonly character: OutlinedCharacter; readonly frames: boolean };

/** How a component is drawn. */
export function drawingOf(name: ComponentName): Drawing {
  return isCharacter(name) ? { character: CHARACTERS[name], frames: FRAMES.has(name) } : { strokes: STROKES[name] };
}
