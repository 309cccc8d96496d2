// SPDX-License-Identifier: AGPL-3.0-or-later
// What to keep in mind with every table, and the names of the strings.
import { phrase, type Said } from "../../src/words.js";
import { bothForms, simplified } from "../simplified.js";
import { type Grounds, JUDGEMENT, PRACTICE, published } from "./evidence.js";

/** Something to keep in mind. */
export interface CautionFact extends Grounds {
  readonly about: Said;
  readonly text: Said;
}

const COMPUTED: Grounds = { evidence: "computed", source: null };

type Row = readonly [about: Said, text: Said, Grounds];

const ROWS: readonly Row[] = [
  [
    phrase("Pain", "疼痛"),
    phrase(
      "Wide stretches, deep presses and long or fast repetition can hurt. Pain, numbness or tiredness is a reason to stop, and a teacher who sees the hand decides.",
      "大幅度的伸张、过重的按弦、长久或快速的反复都可能伤手。疼了、麻了、累了就停下；以看得见你手的老师的判断为准。",
    ),
    PRACTICE,
  ],
  [
    phrase("Raising strings", "紧弦"),
    phrase(
      "A string tuned up can break or strain the instrument. Where a tuning raises strings, the same one with the others lowered sounds alike at another pitch; ask whoever knows the strings.",
      "把弦调高，弦可能断，琴也可能受损。凡要紧弦的定弦，改为慢其余各弦，音程关系不变，只是音高不同；拿不准就请教懂弦的人。",
    ),
    PRACTICE,
  ],
  [
    phrase("Pitch of the instrument", "琴的音高"),
    phrase(
      "C2 for string 1 is today's convention. Silk strings often stand lower, with string 1 anywhere from A1 to C2; every place stays the same.",
      "一弦定为C2是今天的习惯。丝弦往往定得低些，一弦在A1到C2之间；各音的徽位都不变。",
    ),
    published(
      "Yuguzhai qinpu (1855), v326; J. Thompson, silkqin.com",
      "《与古斋琴谱》（1855），v326；J. Thompson，silkqin.com",
    ),
  ],
  [
    phrase("A tenth is no pitch", "“分”不是音高"),
    phrase(
      "Rounding to a tenth of a hui costs up to about 18 cents, and above hui 7 one tenth is worth 29 to 57. The ear sets the finger; the written place says where to listen.",
      "取整到分，误差可达约18音分；七徽以上，一分就值29至57音分。按在哪里由耳朵定；写出的徽位只说到哪里去听。",
    ),
    COMPUTED,
  ],
  [
    phrase("Two kinds of thirds", "两种三度"),
    phrase(
      "Written places such as 10.8, 8.5 and 7.9 follow pure fifths; hui 12, 11, 8, 6 and 3 are pure thirds and sixths, about 22 cents away. Instructions that mix them cannot all be exact.",
      "十徽八分、八徽五分、七徽九分这类徽位依纯五度相生；十二、十一、八、六、三徽则是纯三度、纯六度，相差约22音分。把两种混在一起的定弦法，不可能处处准确。",
    ),
    COMPUTED,
  ],
  [
    phrase("Harmonics on hui 3, 6, 8 and 11", "三、六、八、十一徽的泛音"),
    phrase(
      "The fifth partial lies a comma below the third of the open strings, and many pieces of later centuries avoid it. They are used for their colour.",
      "五倍音比散音之间的三度低一个音差，后世许多琴曲避而不用。用它们，取的是音色。",
    ),
    published("J. Thompson, silkqin.com", "J. Thompson，silkqin.com"),
  ],
  [
    phrase("Old sources", "古谱"),
    phrase(
      "A bare hui in an early handbook may mean a place near it: 12 for 12.2, 11 for 10.8, 8 for 7.9, 13 for 13.1. Tenths became general late.",
      "早期琴谱只写徽数，可能指它附近的位置：十二徽指十二徽二分，十一徽指十徽八分，八徽指七徽九分，十三徽指徽外。分的写法通行得较晚。",
    ),
    published(
      "J. Thompson, silkqin.com, on the semitones of a Ming list; 13 and when tenths became general: common practice",
      "J. Thompson，silkqin.com，论一份明代表中的半音；十三徽一项与分何时通行为通行说法",
    ),
  ],
  [
    phrase("Beyond hui 13", "十三徽以外"),
    phrase(
      "Places there are tenths of what remains to the nut: 13.1 is the whole tone. It is also written as one sign, wai 外, about two centimetres past hui 13.",
      "那里的分，是把十三徽到龙龈的一段分作十份：十三徽一分比散音高一个全音。也写作一个“外”字，在十三徽外约两厘米处。",
    ),
    published(
      "a beginner's list of signs, kxting.com; the tenths computed",
      "一份给初学者的徽分写法表，kxting.com；分数为推算",
    ),
  ],
  [
    phrase("Numbers run together", "数字连写"),
    phrase(
      "In characters 十八 can be hui 10 and 8 tenths, 十二 hui 12 or 10.2: the note decides.",
      "“十八”可以是十徽八分，“十二”可以是十二徽，也可以是十徽二分：看音高而定。",
    ),
    PRACTICE,
  ],
  [
    phrase("Thumb strokes", "大指的弹法"),
    phrase(
      "Tuo goes outward and bo inward in most of the books that we could read, and the other way in some. Say which when it matters.",
      "我们读到的书，多数以托为向外、擘为向内，有的正相反。要紧的地方请写明是哪一种。",
    ),
    published(
      "Zhu Qirun, study of the history of bo and tuo (2023); Yuguzhai qinpu (1855), v44",
      "一篇论擘、托源流的论文（2023），fx361.com；《与古斋琴谱》（1855），v44",
    ),
  ],
  [
    phrase("Names of tunings", "定弦的名称"),
    phrase(
      "Huangzhong, man gong, qingshang and others mean different strings in different books. Name the strings, not only the tuning.",
      "黄钟、慢宫、清商等名称，各书所指的弦不同。除了定弦的名称，也请写明紧慢哪几根弦。",
    ),
    published(
      "J. Thompson, silkqin.com, on the 1425 and 1525 handbooks",
      "J. Thompson，silkqin.com，论1425年与1525年琴谱",
    ),
  ],
  [
    phrase("How long a note lasts", "余音多长"),
    phrase(
      "No measured times could be found. Those that the rules use are defaults: longest open, shorter with the thumb, shorter still with a fingertip or high up.",
      "没有找到实测的时值。规则所用的是默认值：散音最长，大指按音较短，指尖按音或高徽位更短。",
    ),
    JUDGEMENT,
  ],
];

/** Cautions, those about the body first. */
export const CAUTION_FACTS: readonly CautionFact[] = ROWS.map(([about, text, grounds]) => ({
  about,
  text,
  ...grounds,
}));

const STRINGS: readonly (readonly [pinyin: string, characters: string])[] = [
  ["gōng", "宮"],
  ["shāng", "商"],
  ["jué", "角"],
  ["zhǐ", "徵"],
  ["yǔ", "羽"],
  ["wén", "文"],
  ["wǔ", "武"],
];

/** Names of the seven strings, 1 first: names only, not degrees of a scale (Huan Tan, Xin lun, as quoted on the web). */
export const STRING_NAMES: readonly { readonly name: Said; readonly characters: Said }[] = STRINGS.map(
  ([pinyin, characters]) => ({ name: phrase(pinyin, simplified(characters)), characters: bothForms(characters) }),
);
