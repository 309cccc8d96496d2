// SPDX-License-Identifier: AGPL-3.0-or-later
// Readings and places in Chinese characters, simplified, as players say and write them (common practice, no source).
import { phrase, type Said } from "../words.js";

/** Digits from 0 to 10. */
const DIGITS = "〇一二三四五六七八九十";
/** Wai: outside hui 13, a whole tone above the open string. */
const WAI = 13.1;

const WORDS: Readonly<Record<string, string>> = {
  ...{ san: "散", fan: "泛", shi: "食", zhong: "中", ming: "名", jie: "节", gui: "跪", chuo: "绰", zhu: "注" },
  ...{ bo: "擘", pi: "劈", tuo: "托", mo: "抹", tiao: "挑", gou: "勾", ti: "剔", zhai: "摘", shang: "上", xia: "下" },
  ...{ yan: "罨", qi: "起", dai: "带", zhua: "抓", qia: "掐", yin: "吟", nao: "猱", zhuang: "撞", dou: "逗" },
  ...{ huan: "唤", cuo: "撮", xiao: "小", li: "历", gun: "滚", fu: "拂", lun: "轮", ban: "半", bei: "背", duan: "短" },
  ...{ chang: "长", suo: "锁", die: "叠", juan: "蠲", ling: "铃", ru: "如", shuang: "双", tan: "弹", la: "剌" },
  ...{ quan: "全", yuan: "圆", lou: "搂" },
};

/** Words of several syllables in which one syllable stands for another character than alone. */
const TOGETHER: Readonly<Record<string, string>> = {
  "quan fu": "全扶",
  "ru yi": "如一",
  "bo la": "拨剌",
  "suo ling": "索铃",
  "da yuan": "打圆",
  "jin fu": "进复",
  "tui fu": "退复",
  "wang lai": "往来",
  "fen kai": "分开",
};

const PLUCKED =
  /^(?<entry>chuo |zhu )?(?:(?<open>san)|(?<harmonic>fan) (?<touched>[\d.]+)|(?<finger>da|shi|zhong|ming)(?<contact> jie| gui)? (?<place>[\d.]+)) (?!string)(?<stroke>[a-z ]+?) (?<string>\d)(?: (?<last>\d))?(?<ornament>(?: [a-z]+){1,2})?$/;
/** A stroke on a string, as one writes it where sound and place need no words. */
const BARE = /^(?<stroke>bo|pi|tuo|mo|tiao|gou|ti|da|zhai) (?<string>\d)$/;
const UNPLUCKED = /^(?<move>shang|xia|yan) (?<place>[\d.]+)(?<ornament> [a-z]+)?$/;

/** A row of pinyin words in characters. */
const spell = (words: string | undefined): string => {
  const plain = (words ?? "").trim();
  return (
    TOGETHER[plain] ?? plain.replace(/[a-z]+ ?/g, (word) => WORDS[word.trim()] ?? (word.trim() === "da" ? "打" : word))
  );
};

/**
 * A reading in characters; what is no reading stays as it is.
 *
 * @param reading in pinyin with digits, as `spokenForm` makes it; several with " + " between
 * @example inCharacters("da 7.6 tiao 4") // "大七六挑四"
 */
export function inCharacters(reading: string): string {
  return reading.split(" + ").map(oneInCharacters).join("+");
}

function oneInCharacters(reading: string): string {
  const plucked = pluckedInCharacters(reading);
  if (plucked !== null) return plucked.left + plucked.right;
  const slid = UNPLUCKED.exec(reading)?.groups;
  if (slid !== undefined) return spell(slid.move) + shortPlace(slid.place ?? "") + spell(slid.ornament);
  const bare = BARE.exec(reading)?.groups;
  if (bare !== undefined) return spell(bare.stroke) + digit(bare.string);
  return /^(?:dai|zhua|qia) qi(?: [a-z]+)?$/.test(reading) ? spell(reading) : partlyInCharacters(reading);
}

/** What each hand does, in characters; null for a reading without a stroke. */
function pluckedInCharacters(reading: string): { readonly left: string; readonly right: string } | null {
  const plucked = PLUCKED.exec(reading)?.groups;
  if (plucked === undefined) return null;
  const { entry, open, touched, finger, contact, place, stroke, string, last, ornament } = plucked;
  const hand = finger === "da" ? "大" : spell(finger);
  const where =
    open !== undefined
      ? "散"
      : touched !== undefined
        ? `泛${shortPlace(touched)}`
        : hand + spell(contact) + shortPlace(place ?? "");
  return { left: spell(entry) + where, right: spell(stroke) + digit(string) + digit(last) + spell(ornament) };
}

/**
 * A reading by hands, for two lines: what the left hand does, then the stroke with its string. Nothing for the right hand
 * where it does nothing.
 *
 * @example readingByHands("da 7.6 tiao 4") // { left: "da 7.6", right: "tiao 4" }
 */
export function readingByHands(reading: string): { readonly left: Said; readonly right: Said } {
  const parts = pluckedInCharacters(reading);
  const stroke = PLUCKED.exec(reading)?.groups?.stroke;
  if (parts === null || stroke === undefined) return { left: readingInWords(reading), right: "" };
  const at = reading.indexOf(` ${stroke} `, reading.search(/\d|san/));
  return { left: phrase(reading.slice(0, at), parts.left), right: phrase(reading.slice(at + 1), parts.right) };
}

/** Words beside those of readings that tell what a writer gives. */
const GIVEN_WORDS: Readonly<Record<string, string>> = { string: "", small: "小", large: "大", reverse: "反" };
/** A number behind one of these is that of a string. */
const STRUCK = new Set("bo pi tuo mo tiao gou ti zhai cuo li gun fu lun die juan suo ling yuan lou".split(" "));
const isNumber = (word: string | undefined): boolean => /^[\d.]+$/.test(word ?? "");

/** A reading with gaps, as a writer may have given it; what is none stays as it is. @example partlyInCharacters("da 9 string 4") // "大九四弦" */
function partlyInCharacters(reading: string): string {
  const words = reading.split(" ");
  const known = (word: string): string | undefined => (word === "da" ? "大" : (WORDS[word] ?? GIVEN_WORDS[word]));
  if (!words.every((word) => isNumber(word) || known(word) !== undefined)) return reading;
  const isRingStroke = (i: number): boolean => words[i] === "da" && (words[i - 1] === "san" || isNumber(words[i - 1]));
  const struck = words.findIndex((word, i) => STRUCK.has(word) || isRingStroke(i));
  return words
    .map((word, i) => {
      if (!isNumber(word)) return isRingStroke(i) ? "打" : known(word);
      if (words[i - 1] === "string") return stringInCharacters(Number(word));
      return struck >= 0 && i > struck ? digit(word) : shortPlace(word);
    })
    .join("");
}

const digit = (text: string | undefined): string => (text === undefined ? "" : (DIGITS[Number(text)] ?? text));

/** Hui as it is counted: 十三. */
function huiInCharacters(hui: number): string {
  return hui <= 10 ? (DIGITS[hui] as string) : `十${DIGITS[hui - 10]}`;
}

/** A place without the words for hui and tenth, but where it would then be another: 10.2 is 十徽二, since 十二 is hui 12. */
function shortPlace(text: string): string {
  const { hui, tenths } = partsOf(Number(text));
  if (Number(text) === WAI) return "外";
  if (tenths === null) return text;
  if (tenths === 0) return huiInCharacters(hui);
  return `${huiInCharacters(hui)}${hui === 10 && tenths <= 3 ? "徽" : ""}${DIGITS[tenths]}`;
}

/** Hui and tenths; no tenths where the place is written finer. */
function partsOf(position: number): { readonly hui: number; readonly tenths: number | null } {
  const tenths = Math.round(position * 1000) / 100;
  return { hui: Math.floor(position), tenths: Number.isInteger(tenths) ? tenths - 10 * Math.floor(position) : null };
}

/** A place as a sentence says it. @example placeInCharacters(7.6) // "七徽六分" */
export function placeInCharacters(position: number): string {
  const { hui, tenths } = partsOf(position);
  if (position === WAI) return "徽外";
  if (tenths === null) return `${position}徽`;
  return `${huiInCharacters(hui)}徽${tenths === 0 ? "" : `${DIGITS[tenths]}分`}`;
}

/** A string as a sentence names it. @example stringInCharacters(4) // "四弦" */
export function stringInCharacters(string: number): string {
  return `${DIGITS[string]}弦`;
}

/** A reading as a part of a sentence, in Chinese between quotation marks; empty for none. @example "“大七六挑四”" */
export function quotedReading(reading: string): Said {
  return reading === "" ? "" : phrase(reading, `“${inCharacters(reading)}”`);
}

/** A right-hand stroke. @example strokeInCharacters("da") // "打" */
export function strokeInCharacters(stroke: string): string {
  return spell(stroke);
}

/** A reading in both languages. */
export function readingInWords(reading: string): Said {
  return reading === "" ? "" : phrase(reading, inCharacters(reading));
}

/** A single stroke. @example strokeCharacter("gou") // "勾" */
export function strokeCharacter(stroke: string): string {
  return spell(stroke);
}

/** Tones of the scale on gong; 徵 is not simplified where it is the tone. */
const TONES: Readonly<Record<string, string>> = {
  ...{ gōng: "宫", shāng: "商", jué: "角", zhǐ: "徵", yǔ: "羽" },
  ...{ qīngjué: "清角", biàngōng: "变宫", biànzhǐ: "变徵", rùn: "闰" },
};

/** A tone of the scale by its name in pinyin; empty for one without a name. @example toneInWords("gōng") // phrase("gōng", "宫") */
export function toneInWords(name: string): Said {
  const characters = TONES[name];
  return characters === undefined ? name : phrase(name, characters);
}
