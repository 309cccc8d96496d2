// SPDX-License-Identifier: AGPL-3.0-or-later
// The right hand: eight strokes, and what is made of them. Numbers of attacks mean separate onsets.
import { closes, STROKE_FINGER, STROKES, type Stroke } from "../../src/model/fingering.js";
import { phrase, type Said } from "../../src/words.js";
import { bothForms } from "../simplified.js";
import { type Grounds, MEMORY, PRACTICE, published } from "./evidence.js";

/** One of the eight strokes. */
export interface StrokeFact extends Grounds {
  readonly name: Stroke;
  readonly pinyin: Said;
  /** traditional or simplified by language */
  readonly characters: Said;
  readonly finger: (typeof STROKE_FINGER)[Stroke];
  readonly direction: "toward the player" | "away from the player";
  /** whether it closes the hand toward a fist or opens it */
  readonly hand: "closing" | "opening";
  /** where it is usually heard */
  readonly strings: Said;
  readonly tone: Said;
}

/** A stroke made of several, or of several fingers at once. */
export interface CompoundFact extends Grounds {
  readonly name: string;
  readonly pinyin: string;
  /** traditional or simplified by language */
  readonly characters: Said;
  readonly sounds: Said;
  readonly strings: Said;
  readonly attacks: Said;
}

const THOMPSON = phrase(
  "J. Thompson, 75 right-hand terms, silkqin.com; directions of index, middle and ring finger",
  "食指、中指、名指的方向据J. Thompson所列75个右手术语，silkqin.com",
);
const RING = published(
  `${THOMPSON.en}; strings: a workshop summary, yangzhousiyue.com`,
  `${THOMPSON.zh}；所用的弦据一次讲习的摘要，yangzhousiyue.com`,
);
const THUMB = published(
  "Yuguzhai qinpu (1855), v44, and van Aalst, Chinese Music (1884): tuo goes outward; the Yongle handbook as quoted by Zhu Qirun (2023) has it inward",
  "《与古斋琴谱》（1855），v44，以及J. A. van Aalst，Chinese Music（1884）：托向外；一篇论擘、托源流的论文（2023）所引《永乐琴书集成》则以托向内",
);
const FINGERS = published(`${THOMPSON.en}; strings: common practice`, `${THOMPSON.zh}；所用的弦为通行做法`);

const STROKE_TABLE: Readonly<
  Record<Stroke, readonly [pinyin: Said, characters: string, strings: Said, tone: Said, grounds: Grounds]>
> = {
  bo: [
    phrase("bò, also pī", "bò；劈：pī"),
    "擘 (劈)",
    phrase("6 and 7, sometimes 5", "六、七弦，有时五弦"),
    phrase("strong", "刚健"),
    THUMB,
  ],
  tuo: ["tuō", "托", phrase("6 and 7", "六、七弦"), phrase("strong and round", "刚健而圆润"), THUMB],
  mo: ["mǒ", "抹", phrase("2 to 7", "二至七弦"), phrase("soft and warm", "柔和温润"), FINGERS],
  tiao: [
    "tiāo",
    "挑",
    phrase("3 to 7, most of all 5 to 7", "三至七弦，五至七弦最多"),
    phrase("bright", "明亮"),
    FINGERS,
  ],
  gou: ["gōu", "勾", phrase("1 to 6, most of all 1 to 4", "一至六弦，一至四弦最多"), phrase("full", "饱满"), FINGERS],
  ti: ["tī", "剔", phrase("1 to 5", "一至五弦"), phrase("forceful", "有力"), FINGERS],
  da: ["dǎ", "打", phrase("1 and 2", "一、二弦"), phrase("soft", "柔和"), RING],
  zhai: ["zhāi", "摘", phrase("1 and 2", "一、二弦"), phrase("soft", "柔和"), RING],
};

/** The eight strokes, finger by finger. The thumb's directions are those of most schools; some have them the other way. */
export const STROKE_FACTS: readonly StrokeFact[] = STROKES.map((name) => {
  const [pinyin, characters, strings, tone, grounds] = STROKE_TABLE[name];
  const hand = closes(name) ? "closing" : "opening";
  const toward = STROKE_FINGER[name] === "thumb" ? hand === "opening" : hand === "closing";
  return {
    name,
    pinyin,
    characters: bothForms(characters),
    finger: STROKE_FINGER[name],
    direction: toward ? "toward the player" : "away from the player",
    hand,
    strings,
    tone,
    ...grounds,
  };
});

const LIST = published("a right-hand term list, yueqixuexi.com/guqin", "一份右手指法名目，yueqixuexi.com/guqin");
const BOTH = published(
  "the term list at yueqixuexi.com and J. Thompson's 75 terms, silkqin.com",
  "yueqixuexi.com的指法名目，以及J. Thompson所列75个右手术语，silkqin.com",
);

const ONE_STRING = phrase("one", "一根");
const TWO_NEIGHBOURS = phrase("2 neighbours", "相邻两根");
const MANY = phrase("many", "多根");
const EACH = phrase("1 each", "每弦1声");
const PINCHED = phrase("1, two notes", "1声，两音");

type Row = readonly [string, string, string, sounds: Said, strings: Said, attacks: Said, Grounds];

const COMPOUND_TABLE: readonly Row[] = [
  ["mo tiao", "mǒ tiāo", "抹挑", phrase("mo, then tiao", "先抹后挑"), ONE_STRING, "2", LIST],
  ["gou ti", "gōu tī", "勾剔", phrase("gou, then ti", "先勾后剔"), ONE_STRING, "2", LIST],
  ["mo gou", "mǒ gōu", "抹勾", phrase("mo, then gou", "先抹后勾"), ONE_STRING, "2", LIST],
  ["die", "dié", "疊", phrase("mo and gou in quick succession", "抹、勾急速相连"), ONE_STRING, "2", LIST],
  [
    "juan",
    "juān",
    "蠲",
    phrase("mo and gou so close that they are heard nearly as one", "抹、勾紧接，听来几乎是一声"),
    phrase("one, or two", "一根或两根"),
    "2",
    MEMORY,
  ],
  ["ban lun", "bàn lún", "半輪", phrase("ti, then tiao", "先剔后挑"), ONE_STRING, "2", LIST],
  [
    "lun",
    "lún",
    "輪",
    phrase("zhai, ti, tiao: three fingers roll outward", "摘、剔、挑：三指依次向外轮出"),
    ONE_STRING,
    "3",
    BOTH,
  ],
  ["bei suo", "bèi suǒ", "背鎖", phrase("ti, mo, tiao", "剔、抹、挑"), ONE_STRING, "3", LIST],
  ["duan suo", "duǎn suǒ", "短鎖", phrase("mo, gou, then bei suo", "抹、勾，再接背锁"), ONE_STRING, "5", LIST],
  [
    "chang suo",
    "cháng suǒ",
    "長鎖",
    phrase("mo, tiao, then duan suo", "抹、挑，再接短锁"),
    ONE_STRING,
    phrase("7; some count 9", "7声；有的作9声"),
    LIST,
  ],
  [
    "li",
    "lì",
    "歷",
    phrase("tiao after tiao, from the inner string outward", "连挑数弦，由内而外"),
    phrase("2 or 3 neighbours, or more", "相邻两三根，或更多"),
    EACH,
    BOTH,
  ],
  ["gun", "gǔn", "滾", phrase("zhai after zhai, from string 7 toward 1", "连摘数弦，由七弦往一弦"), MANY, EACH, BOTH],
  ["fu", "fú", "拂", phrase("mo after mo, from string 1 toward 7", "连抹数弦，由一弦往七弦"), MANY, EACH, BOTH],
  [
    "gun fu",
    "gǔn fú",
    "滾拂",
    phrase("gun and then fu, often several times", "先滚后拂，常反复几次"),
    MANY,
    phrase("1 each, both ways", "来回每弦各1声"),
    PRACTICE,
  ],
  [
    "small cuo",
    "xiǎo cuō",
    "小撮",
    phrase("index tiao and middle finger gou in one pinch", "食指挑、中指勾，一撮同响"),
    phrase("2", "两根"),
    PINCHED,
    LIST,
  ],
  [
    "large cuo",
    "dà cuō",
    "大撮",
    phrase("thumb tuo and middle finger gou in one pinch", "大指托、中指勾，一撮同响"),
    phrase("2 far apart, as 1 and 6 or 2 and 7", "相隔较远的两根，如一、六弦或二、七弦"),
    PINCHED,
    LIST,
  ],
  [
    "reverse cuo",
    "fǎn cuō",
    "反撮",
    phrase("thumb bo and middle finger ti, opening from a pinch", "大指擘、中指剔，由撮的手势张开"),
    phrase("2", "两根"),
    PINCHED,
    LIST,
  ],
  ["yuan lou", "yuán lōu", "圓摟", phrase("mo and gou together", "抹、勾同时"), phrase("2", "两根"), PINCHED, LIST],
  [
    "ru yi",
    "rú yī",
    "如一",
    phrase("one ti over an open and a stopped string in unison", "一剔过同音的一散一按两弦"),
    TWO_NEIGHBOURS,
    "1",
    LIST,
  ],
  [
    "shuang tan",
    "shuāng tán",
    "雙彈",
    phrase("ti, then tiao, each over an open and a stopped string", "先剔后挑，各过一散一按两弦"),
    TWO_NEIGHBOURS,
    "2",
    LIST,
  ],
  [
    "bo",
    "bō",
    "撥",
    phrase("three fingers in a bunch, inward over an open and a stopped string", "三指并拢，向内过一散一按两弦"),
    TWO_NEIGHBOURS,
    "1",
    LIST,
  ],
  ["la", "là", "剌", phrase("the same bunch, outward", "同样三指并拢，向外"), TWO_NEIGHBOURS, "1", LIST],
  ["bo la", "bō là", "撥剌", phrase("bo, then la", "先拨后剌"), TWO_NEIGHBOURS, "2", LIST],
  ["quan fu", "quán fú", "全扶", phrase("mo, mo, then gou, gou", "抹、抹，再勾、勾"), phrase("2", "两根"), "4", LIST],
  [
    "da yuan",
    "dǎ yuán",
    "打圓",
    phrase(
      "tiao, gou, a short rest, then quickly tiao, gou, tiao, gou, tiao",
      "挑、勾，略停，再急弹挑、勾、挑、勾、挑",
    ),
    phrase("2, mostly an octave, a unison or a fifth", "两根，多为八度、同音或五度"),
    "7",
    LIST,
  ],
  [
    "suo ling",
    "suǒ líng",
    "索鈴",
    phrase(
      "tiao on each string while the left hand touches it: harmonics, inner string first",
      "逐弦挑，左手同时轻触：泛音，由内侧的弦起",
    ),
    phrase("several", "数根"),
    EACH,
    LIST,
  ],
];

/** Compound strokes, from those on one string to those over many. */
export const COMPOUND_FACTS: readonly CompoundFact[] = COMPOUND_TABLE.map(
  ([name, pinyin, characters, sounds, strings, attacks, grounds]) => ({
    name,
    pinyin,
    characters: bothForms(characters),
    sounds,
    strings,
    attacks,
    ...grounds,
  }),
);
