// SPDX-License-Identifier: AGPL-3.0-or-later
// What to keep in mind with every table, and the names of the strings.
import { type Grounds, JUDGEMENT, PRACTICE, published } from "./evidence.js";

/** Something to keep in mind. */
export interface CautionFact extends Grounds {
  readonly about: string;
  readonly text: string;
}

const COMPUTED: Grounds = { evidence: "computed", source: null };

type Row = readonly [about: string, text: string, Grounds];

const ROWS: readonly Row[] = [
  [
    "Pain",
    "Wide stretches, deep presses and long or fast repetition can hurt. Pain, numbness or tiredness is a reason to stop, and a teacher who sees the hand decides.",
    PRACTICE,
  ],
  [
    "Raising strings",
    "A string tuned up can break or strain the instrument. Where a tuning raises strings, the same one with the others lowered sounds alike at another pitch; ask whoever knows the strings.",
    PRACTICE,
  ],
  [
    "Pitch of the instrument",
    "C2 for string 1 is today's convention. Silk strings often stand lower, with string 1 anywhere from A1 to C2; every place stays the same.",
    published("Yuguzhai qinpu (1855), v326; J. Thompson, silkqin.com"),
  ],
  [
    "A tenth is no pitch",
    "Rounding to a tenth of a hui costs up to about 18 cents, and above hui 7 one tenth is worth 29 to 57. The ear sets the finger; the written place says where to listen.",
    COMPUTED,
  ],
  [
    "Two kinds of thirds",
    "Written places such as 10.8, 8.5 and 7.9 follow pure fifths; hui 12, 11, 8, 6 and 3 are pure thirds and sixths, about 22 cents away. Instructions that mix them cannot all be exact.",
    COMPUTED,
  ],
  [
    "Harmonics on hui 3, 6, 8 and 11",
    "The fifth partial lies a comma below the third of the open strings, and many pieces of later centuries avoid it. They are used for their colour.",
    published("J. Thompson, silkqin.com"),
  ],
  [
    "Old sources",
    "A bare hui in an early handbook may mean a place near it: 12 for 12.2, 11 for 10.8, 8 for 7.9, 13 for 13.1. Tenths became general late.",
    published(
      "J. Thompson, silkqin.com, on the semitones of a Ming list; 13 and when tenths became general: common practice",
    ),
  ],
  [
    "Beyond hui 13",
    "Places there are tenths of what remains to the nut: 13.1 is the whole tone. It is also written as one sign, wai 外, about two centimetres past hui 13.",
    published("a beginner's list of signs, kxting.com; the tenths computed"),
  ],
  [
    "Numbers run together",
    "In characters 十八 can be hui 10 and 8 tenths, 十二 hui 12 or 10.2: the note decides.",
    PRACTICE,
  ],
  [
    "Thumb strokes",
    "Tuo goes outward and bo inward in most of the books that we could read, and the other way in some. Say which when it matters.",
    published("Zhu Qirun, study of the history of bo and tuo (2023); Yuguzhai qinpu (1855), v44"),
  ],
  [
    "Names of tunings",
    "Huangzhong, man gong, qingshang and others mean different strings in different books. Name the strings, not only the tuning.",
    published("J. Thompson, silkqin.com, on the 1425 and 1525 handbooks"),
  ],
  [
    "How long a note lasts",
    "No measured times could be found. Those that the rules use are defaults: longest open, shorter with the thumb, shorter still with a fingertip or high up.",
    JUDGEMENT,
  ],
];

/** Cautions, those about the body first. */
export const CAUTION_FACTS: readonly CautionFact[] = ROWS.map(([about, text, grounds]) => ({
  about,
  text,
  ...grounds,
}));

/** Names of the seven strings, 1 first: names only, not degrees of a scale (Huan Tan, Xin lun, as quoted on the web). */
export const STRING_NAMES: readonly (readonly [pinyin: string, characters: string])[] = [
  ["gōng", "宮"],
  ["shāng", "商"],
  ["jué", "角"],
  ["zhǐ", "徵"],
  ["yǔ", "羽"],
  ["wén", "文"],
  ["wǔ", "武"],
];
