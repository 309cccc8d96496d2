// SPDX-License-Identifier: AGPL-3.0-or-later
// The left hand: which part of which finger, and the signs of what it does after or without a pluck.
import { type Grounds, MEMORY, PRACTICE, published } from "./evidence.js";

/** A finger with the part of it that touches the string. */
export interface FingerFact extends Grounds {
  /** as it is said before a place; null where nothing is said */
  readonly name: string | null;
  readonly characters: string;
  readonly part: string;
  readonly use: string;
}

/** A sign of the left hand. */
export interface SignFact extends Grounds {
  readonly name: string;
  readonly pinyin: string;
  readonly characters: string;
  readonly action: string;
  /** further clearly heard pitches without a new pluck; counts are common practice */
  readonly extraNotes: string;
}

const POSTURE = published("Gu Meigeng, Qinxue beiyao, on the posture of the hands, as excerpted on the web");

type FingerRow = readonly [name: string | null, characters: string, part: string, use: string, Grounds];

const FINGERS: readonly FingerRow[] = [
  [
    "da",
    "大",
    "thumb, at the edge of nail and flesh",
    "the usual stop of the thumb; sounds longer than a fingertip",
    POSTURE,
  ],
  ["da jie", "大節", "thumb, bony joint", "holds the inner string while the tip holds the next outer one", POSTURE],
  [
    "ming",
    "名",
    "ring finger, tip, its last joint curved outward",
    "most stops in the low and middle of the board; the joint must not give way",
    published("zgmzyq.cn, article on posture, for the joint; the rest common practice"),
  ],
  [
    "ming jie",
    "名節",
    "ring finger, crease of the last joint",
    "holds two or three strings at one place, low on the board",
    PRACTICE,
  ],
  [
    "ming gui",
    "名跪",
    "ring finger, bent, back of the last joint",
    "high on the board, where the fingers crowd: from hui 7 in 1855, today mostly from hui 6 or 5",
    published("Yuguzhai qinpu (1855), v46; today's use common practice"),
  ],
  ["zhong", "中", "middle finger, tip", "now and then, high on the board or on string 1", PRACTICE],
  ["shi", "食", "index finger, tip", "harmonics, and at times a stop", published("Yuguzhai qinpu (1855), v46")],
  [null, "小指", "little finger", "not used, in either hand", published("Yuguzhai qinpu (1855), v47")],
];

/** Fingers and the part that touches. */
export const FINGER_FACTS: readonly FingerFact[] = FINGERS.map(([name, characters, part, use, grounds]) => ({
  name,
  characters,
  part,
  use,
  ...grounds,
}));

type SignRow = readonly [string, string, string, action: string, extraNotes: string, Grounds];

const SIGNS: readonly SignRow[] = [
  ["chuo", "chuò", "綽", "slide up into the written place, plucked as it begins", "0", MEMORY],
  ["zhu", "zhù", "注", "slide down into the written place", "0", MEMORY],
  ["shang", "shàng", "上", "after the pluck slide up to the place named", "1 each", MEMORY],
  ["xia", "xià", "下", "after the pluck slide down to the place named", "1 each", MEMORY],
  ["jin fu", "jìn fù", "進復", "one step up and back", "2", MEMORY],
  ["tui fu", "tuì fù", "退復", "one step down and back", "2", MEMORY],
  ["wang lai", "wǎng lái", "往來", "up, back, up, back", "4", MEMORY],
  ["fen kai", "fēn kāi", "分開", "pluck, slide up, pluck again, return", "1 or 2", MEMORY],
  ["yin", "yín", "吟", "light vibrato about the place", "0", MEMORY],
  [
    "nao",
    "náo",
    "猱",
    "wide, heavy vibrato, mostly below the place",
    "0",
    published("a Tang text on light and heavy, as cited on a player's notation page; widths common practice"),
  ],
  ["zhuang", "zhuàng", "撞", "quick flick up and back after the pluck", "0 to 2", MEMORY],
  ["dou", "dòu", "逗", "quick flick up and back together with the pluck", "0 or 1", MEMORY],
  ["huan", "huàn", "喚", "turn: up, down and back", "0 to 2", MEMORY],
  ["dai qi", "dài qǐ", "帶起", "the ring finger plucks the string as it lifts off: the open string", "1", MEMORY],
  ["zhua qi", "zhuā qǐ", "抓起", "the thumb plucks the string as it lifts off: the open string", "1", MEMORY],
  [
    "qia qi",
    "qiā qǐ",
    "掐起",
    "the ring finger holds, the thumb plucks the string above it: the ring finger's note",
    "1",
    MEMORY,
  ],
  [
    "yan",
    "yǎn",
    "掩 (罨)",
    "the thumb taps a place of the string that the ring finger holds: the thumb's note",
    "1",
    POSTURE,
  ],
  ["xu yan", "xū yǎn", "虛罨", "a tap without a pluck before it", "1, soft", POSTURE],
  ["tui chu", "tuī chū", "推出", "the middle finger pushes string 1 off the board: open string 1", "1", MEMORY],
  [
    "fang he",
    "fàng hé",
    "放合",
    "a finger pulls off to the open string as the right hand plucks that pitch elsewhere",
    "1, joins a pluck",
    MEMORY,
  ],
  ["ying he", "yìng hé", "應合", "a slide arrives in unison with a plucked open string", "1, joins a pluck", MEMORY],
  ["tong sheng", "tóng shēng", "同聲", "pull-off and pluck together in unison", "1, joins a pluck", MEMORY],
];

/** Signs of the left hand: entries, slides, vibrato, then sounds that it makes alone. */
export const SIGN_FACTS: readonly SignFact[] = SIGNS.map(([name, pinyin, characters, action, extraNotes, grounds]) => ({
  name,
  pinyin,
  characters,
  action,
  extraNotes,
  ...grounds,
}));
