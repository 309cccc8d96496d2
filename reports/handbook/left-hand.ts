// SPDX-License-Identifier: AGPL-3.0-or-later
// The left hand: which part of which finger, and the signs of what it does after or without a pluck.
import { phrase, type Said } from "../../src/words.js";
import { bothForms } from "../simplified.js";
import { type Grounds, MEMORY, PRACTICE, published } from "./evidence.js";

/** A finger with the part of it that touches the string. */
export interface FingerFact extends Grounds {
  /** as it is said before a place; null where nothing is said */
  readonly name: string | null;
  /** traditional or simplified by language */
  readonly characters: Said;
  readonly part: Said;
  readonly use: Said;
}

/** A sign of the left hand. */
export interface SignFact extends Grounds {
  readonly name: string;
  readonly pinyin: string;
  /** traditional or simplified by language */
  readonly characters: Said;
  readonly action: Said;
  /** further clearly heard pitches without a new pluck; counts are common practice */
  readonly extraNotes: Said;
}

const POSTURE = published(
  "Gu Meigeng, Qinxue beiyao, on the posture of the hands, as excerpted on the web",
  "顾梅羹《琴学备要》论手势，据网上摘录",
);

type FingerRow = readonly [name: string | null, characters: string, part: Said, use: Said, Grounds];

const FINGERS: readonly FingerRow[] = [
  [
    "da",
    "大",
    phrase("thumb, at the edge of nail and flesh", "大指，甲肉相接处"),
    phrase("the usual stop of the thumb; sounds longer than a fingertip", "大指最常用的按法；余音比用指尖按的长"),
    POSTURE,
  ],
  [
    "da jie",
    "大節",
    phrase("thumb, bony joint", "大指，骨节处"),
    phrase(
      "holds the inner string while the tip holds the next outer one",
      "骨节按住内侧的一弦，同时指尖按住外侧的邻弦",
    ),
    POSTURE,
  ],
  [
    "ming",
    "名",
    phrase("ring finger, tip, its last joint curved outward", "名指，指尖，末节向外弓起"),
    phrase(
      "most stops in the low and middle of the board; the joint must not give way",
      "下准、中准的大部分按音；末节不可塌陷",
    ),
    published(
      "zgmzyq.cn, article on posture, for the joint; the rest common practice",
      "末节一项据zgmzyq.cn论手势的文章，其余为通行做法",
    ),
  ],
  [
    "ming jie",
    "名節",
    phrase("ring finger, crease of the last joint", "名指，末节横纹处"),
    phrase("holds two or three strings at one place, low on the board", "在下准同一徽位上一并按住两三根弦"),
    PRACTICE,
  ],
  [
    "ming gui",
    "名跪",
    phrase("ring finger, bent, back of the last joint", "名指弯曲，用末节背面"),
    phrase(
      "high on the board, where the fingers crowd: from hui 7 in 1855, today mostly from hui 6 or 5",
      "徽位高、手指拥挤的地方：1855年的谱从七徽起用，今天多从六徽或五徽起",
    ),
    published(
      "Yuguzhai qinpu (1855), v46; today's use common practice",
      "《与古斋琴谱》（1855），v46；今天的用法为通行做法",
    ),
  ],
  [
    "zhong",
    "中",
    phrase("middle finger, tip", "中指，指尖"),
    phrase("now and then, high on the board or on string 1", "偶尔用于高徽位，或用于一弦"),
    PRACTICE,
  ],
  [
    "shi",
    "食",
    phrase("index finger, tip", "食指，指尖"),
    phrase("harmonics, and at times a stop", "泛音，偶尔也按弦"),
    published("Yuguzhai qinpu (1855), v46", "《与古斋琴谱》（1855），v46"),
  ],
  [
    null,
    "小指",
    phrase("little finger", "小指"),
    phrase("not used, in either hand", "左右手都不用"),
    published("Yuguzhai qinpu (1855), v47", "《与古斋琴谱》（1855），v47"),
  ],
];

/** Fingers and the part that touches. */
export const FINGER_FACTS: readonly FingerFact[] = FINGERS.map(([name, characters, part, use, grounds]) => ({
  name,
  characters: bothForms(characters),
  part,
  use,
  ...grounds,
}));

type SignRow = readonly [string, string, string, action: Said, extraNotes: Said, Grounds];

const NO_NOTE = "0";
const ONE_EACH = phrase("1 each", "每次1个");
const JOINS = phrase("1, joins a pluck", "1，与弹弦同响");

const SIGNS: readonly SignRow[] = [
  [
    "chuo",
    "chuò",
    "綽",
    phrase("slide up into the written place, plucked as it begins", "自下而上滑入所写徽位，起滑时即弹"),
    NO_NOTE,
    MEMORY,
  ],
  ["zhu", "zhù", "注", phrase("slide down into the written place", "自上而下滑入所写徽位"), NO_NOTE, MEMORY],
  [
    "shang",
    "shàng",
    "上",
    phrase("after the pluck slide up to the place named", "弹后上滑到所写徽位"),
    ONE_EACH,
    MEMORY,
  ],
  ["xia", "xià", "下", phrase("after the pluck slide down to the place named", "弹后下滑到所写徽位"), ONE_EACH, MEMORY],
  ["jin fu", "jìn fù", "進復", phrase("one step up and back", "往上走一音，再回本位"), "2", MEMORY],
  ["tui fu", "tuì fù", "退復", phrase("one step down and back", "往下走一音，再回本位"), "2", MEMORY],
  ["wang lai", "wǎng lái", "往來", phrase("up, back, up, back", "上、回，再上、回"), "4", MEMORY],
  [
    "fen kai",
    "fēn kāi",
    "分開",
    phrase("pluck, slide up, pluck again, return", "弹后上滑，再弹一声，回本位"),
    phrase("1 or 2", "1或2"),
    MEMORY,
  ],
  ["yin", "yín", "吟", phrase("light vibrato about the place", "在本位上下轻轻颤动"), NO_NOTE, MEMORY],
  [
    "nao",
    "náo",
    "猱",
    phrase("wide, heavy vibrato, mostly below the place", "颤动大而重，多在本位之下"),
    NO_NOTE,
    published(
      "a Tang text on light and heavy, as cited on a player's notation page; widths common practice",
      "轻重之分据唐人的话，引自一位琴人讲减字谱的网页；幅度为通行做法",
    ),
  ],
  [
    "zhuang",
    "zhuàng",
    "撞",
    phrase("quick flick up and back after the pluck", "弹后急上急回"),
    phrase("0 to 2", "0至2"),
    MEMORY,
  ],
  [
    "dou",
    "dòu",
    "逗",
    phrase("quick flick up and back together with the pluck", "弹的同时急上急回"),
    phrase("0 or 1", "0或1"),
    MEMORY,
  ],
  ["huan", "huàn", "喚", phrase("turn: up, down and back", "急转：上、下、回本位"), phrase("0 to 2", "0至2"), MEMORY],
  [
    "dai qi",
    "dài qǐ",
    "帶起",
    phrase("the ring finger plucks the string as it lifts off: the open string", "名指离弦时带响该弦，得散音"),
    "1",
    MEMORY,
  ],
  [
    "zhua qi",
    "zhuā qǐ",
    "抓起",
    phrase("the thumb plucks the string as it lifts off: the open string", "大指离弦时抓响该弦，得散音"),
    "1",
    MEMORY,
  ],
  [
    "qia qi",
    "qiā qǐ",
    "掐起",
    phrase(
      "the ring finger holds, the thumb plucks the string above it: the ring finger's note",
      "名指按住不动，大指在其上方掐弦而起，得名指所按的音",
    ),
    "1",
    MEMORY,
  ],
  [
    "yan",
    "yǎn",
    "掩 (罨)",
    phrase(
      "the thumb taps a place of the string that the ring finger holds: the thumb's note",
      "名指按住一弦，大指击下同弦的另一徽位，得大指处的音",
    ),
    "1",
    POSTURE,
  ],
  [
    "xu yan",
    "xū yǎn",
    "虛罨",
    phrase("a tap without a pluck before it", "前面不弹，直接罨下"),
    phrase("1, soft", "1，音轻"),
    POSTURE,
  ],
  [
    "tui chu",
    "tuī chū",
    "推出",
    phrase("the middle finger pushes string 1 off the board: open string 1", "中指按一弦，向外推出，得一弦散音"),
    "1",
    MEMORY,
  ],
  [
    "fang he",
    "fàng hé",
    "放合",
    phrase(
      "a finger pulls off to the open string as the right hand plucks that pitch elsewhere",
      "左指放开带响散音，右手同时在别的弦上弹出同一个音",
    ),
    JOINS,
    MEMORY,
  ],
  [
    "ying he",
    "yìng hé",
    "應合",
    phrase("a slide arrives in unison with a plucked open string", "走音到位，恰与所弹的散音同音"),
    JOINS,
    MEMORY,
  ],
  [
    "tong sheng",
    "tóng shēng",
    "同聲",
    phrase("pull-off and pluck together in unison", "带起与弹弦同时发出同一个音"),
    JOINS,
    MEMORY,
  ],
];

/** Signs of the left hand: entries, slides, vibrato, then sounds that it makes alone. */
export const SIGN_FACTS: readonly SignFact[] = SIGNS.map(([name, pinyin, characters, action, extraNotes, grounds]) => ({
  name,
  pinyin,
  characters: bothForms(characters),
  action,
  extraNotes,
  ...grounds,
}));
