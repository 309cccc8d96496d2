// SPDX-License-Identifier: AGPL-3.0-or-later
// The right hand: eight strokes, and what is made of them. Numbers of attacks mean separate onsets.
import { closes, STROKE_FINGER, STROKES, type Stroke } from "../../src/model/fingering.js";
import { type Grounds, MEMORY, PRACTICE, published } from "./evidence.js";

/** One of the eight strokes. */
export interface StrokeFact extends Grounds {
  readonly name: Stroke;
  readonly pinyin: string;
  readonly characters: string;
  readonly finger: string;
  readonly direction: "toward the player" | "away from the player";
  /** whether it closes the hand toward a fist or opens it */
  readonly hand: "closing" | "opening";
  /** where it is usually heard */
  readonly strings: string;
  readonly tone: string;
}

/** A stroke made of several, or of several fingers at once. */
export interface CompoundFact extends Grounds {
  readonly name: string;
  readonly pinyin: string;
  readonly characters: string;
  readonly sounds: string;
  readonly strings: string;
  readonly attacks: string;
}

const DIRECTIONS = "J. Thompson, 75 right-hand terms, silkqin.com; directions of index, middle and ring finger";
const RING = published(`${DIRECTIONS}; strings: a workshop summary, yangzhousiyue.com`);
const THUMB = published(
  "Yuguzhai qinpu (1855), v44, and van Aalst, Chinese Music (1884): tuo goes outward; the Yongle handbook as quoted by Zhu Qirun (2023) has it inward",
);

const STROKE_TABLE: Readonly<
  Record<Stroke, readonly [pinyin: string, characters: string, strings: string, tone: string, grounds: Grounds]>
> = {
  bo: ["bò, also pī", "擘 (劈)", "6 and 7, sometimes 5", "strong", THUMB],
  tuo: ["tuō", "托", "6 and 7", "strong and round", THUMB],
  mo: ["mǒ", "抹", "2 to 7", "soft and warm", published(`${DIRECTIONS}; strings: common practice`)],
  tiao: ["tiāo", "挑", "3 to 7, most of all 5 to 7", "bright", published(`${DIRECTIONS}; strings: common practice`)],
  gou: ["gōu", "勾", "1 to 6, most of all 1 to 4", "full", published(`${DIRECTIONS}; strings: common practice`)],
  ti: ["tī", "剔", "1 to 5", "forceful", published(`${DIRECTIONS}; strings: common practice`)],
  da: ["dǎ", "打", "1 and 2", "soft", RING],
  zhai: ["zhāi", "摘", "1 and 2", "soft", RING],
};

/** The eight strokes, finger by finger. The thumb's directions are those of most schools; some have them the other way. */
export const STROKE_FACTS: readonly StrokeFact[] = STROKES.map((name) => {
  const [pinyin, characters, strings, tone, grounds] = STROKE_TABLE[name];
  const hand = closes(name) ? "closing" : "opening";
  const toward = STROKE_FINGER[name] === "thumb" ? hand === "opening" : hand === "closing";
  return {
    name,
    pinyin,
    characters,
    finger: STROKE_FINGER[name],
    direction: toward ? "toward the player" : "away from the player",
    hand,
    strings,
    tone,
    ...grounds,
  };
});

const LIST = published("a right-hand term list, yueqixuexi.com/guqin");
const BOTH = published("the term list at yueqixuexi.com and J. Thompson's 75 terms, silkqin.com");

type Row = readonly [string, string, string, sounds: string, strings: string, attacks: string, Grounds];

const COMPOUND_TABLE: readonly Row[] = [
  ["mo tiao", "mǒ tiāo", "抹挑", "mo, then tiao", "one", "2", LIST],
  ["gou ti", "gōu tī", "勾剔", "gou, then ti", "one", "2", LIST],
  ["mo gou", "mǒ gōu", "抹勾", "mo, then gou", "one", "2", LIST],
  ["die", "dié", "疊", "mo and gou in quick succession", "one", "2", LIST],
  ["juan", "juān", "蠲", "mo and gou so close that they are heard nearly as one", "one, or two", "2", MEMORY],
  ["ban lun", "bàn lún", "半輪", "ti, then tiao", "one", "2", LIST],
  ["lun", "lún", "輪", "zhai, ti, tiao: three fingers roll outward", "one", "3", BOTH],
  ["bei suo", "bèi suǒ", "背鎖", "ti, mo, tiao", "one", "3", LIST],
  ["duan suo", "duǎn suǒ", "短鎖", "mo, gou, then bei suo", "one", "5", LIST],
  ["chang suo", "cháng suǒ", "長鎖", "mo, tiao, then duan suo", "one", "7; some count 9", LIST],
  ["li", "lì", "歷", "tiao after tiao, from the inner string outward", "2 or 3 neighbours, or more", "1 each", BOTH],
  ["gun", "gǔn", "滾", "zhai after zhai, from string 7 toward 1", "many", "1 each", BOTH],
  ["fu", "fú", "拂", "mo after mo, from string 1 toward 7", "many", "1 each", BOTH],
  ["gun fu", "gǔn fú", "滾拂", "gun and then fu, often several times", "many", "1 each, both ways", PRACTICE],
  ["small cuo", "xiǎo cuō", "小撮", "index tiao and middle finger gou in one pinch", "2", "1, two notes", LIST],
  [
    "large cuo",
    "dà cuō",
    "大撮",
    "thumb tuo and middle finger gou in one pinch",
    "2 far apart, as 1 and 6 or 2 and 7",
    "1, two notes",
    LIST,
  ],
  ["reverse cuo", "fǎn cuō", "反撮", "thumb bo and middle finger ti, opening from a pinch", "2", "1, two notes", LIST],
  ["yuan lou", "yuán lōu", "圓摟", "mo and gou together", "2", "1, two notes", LIST],
  ["ru yi", "rú yī", "如一", "one ti over an open and a stopped string in unison", "2 neighbours", "1", LIST],
  [
    "shuang tan",
    "shuāng tán",
    "雙彈",
    "ti, then tiao, each over an open and a stopped string",
    "2 neighbours",
    "2",
    LIST,
  ],
  ["bo", "bō", "撥", "three fingers in a bunch, inward over an open and a stopped string", "2 neighbours", "1", LIST],
  ["la", "là", "剌", "the same bunch, outward", "2 neighbours", "1", LIST],
  ["bo la", "bō là", "撥剌", "bo, then la", "2 neighbours", "2", LIST],
  ["quan fu", "quán fú", "全扶", "mo, mo, then gou, gou", "2", "4", LIST],
  [
    "da yuan",
    "dǎ yuán",
    "打圓",
    "tiao, gou, a short rest, then quickly tiao, gou, tiao, gou, tiao",
    "2, mostly an octave, a unison or a fifth",
    "7",
    LIST,
  ],
  [
    "suo ling",
    "suǒ líng",
    "索鈴",
    "tiao on each string while the left hand touches it: harmonics, inner string first",
    "several",
    "1 each",
    LIST,
  ],
];

/** Compound strokes, from those on one string to those over many. */
export const COMPOUND_FACTS: readonly CompoundFact[] = COMPOUND_TABLE.map(
  ([name, pinyin, characters, sounds, strings, attacks, grounds]) => ({
    name,
    pinyin,
    characters,
    sounds,
    strings,
    attacks,
    ...grounds,
  }),
);
