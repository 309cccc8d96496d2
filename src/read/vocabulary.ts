// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of a fingering in pinyin, characters and English, brought into one spelling. Characters and components of
// the tablature: J. A. van Aalst, Chinese Music (1884), for fingers and strokes; the rest common practice, no source.

/** Pinyin syllables of fingerings. Some mean several things (san: open, three), which the grammar sorts out. */
const SYLLABLES =
  "san fan da shi zhong ming jie gui zhi bo pi tuo mo tiao gou ti zhai yi er si wu liu qi ba jiu hui wai ban fen xian shang xia jin tui fu chuo zhu dai zhua zhao qia yan xu cuo xiao li lun gun yuan suo bei duan chang ru die juan ling shuang tan la po yin nao zhuang dou huan wang lai quan lou jian kai".split(
    " ",
  );

/** English words that stand for one meaning each; characters are read as these, or as a pinyin word of one meaning. */
const ENGLISH =
  "open harmonic thumb index middle ring tip joint kneeling one two three four five six seven eight nine ten half small large reverse up down".split(
    " ",
  );

/** Simplified and traditional characters, and components of the tablature, with the words that they stand for. */
const CHARACTERS: Readonly<Record<string, string>> = {
  ...spread("散艹", "open"),
  ...spread("泛乏", "harmonic"),
  ...{ 大: "thumb", 食: "index", 人: "index", 中: "middle", 名: "ring", 夕: "ring", 指: "zhi" },
  ...spread("跪足", "kneeling"),
  ...spread("節节", "joint"),
  ...spread("徽暉晖", "hui"),
  ...{ 分: "fen", 外: "wai", 半: "half", 卜: "bu" },
  ...spread("弦絃", "xian"),
  ...{ 一: "one", 二: "two", 三: "three", 四: "four", 五: "five", 六: "six", 七: "seven", 八: "eight", 九: "nine" },
  ...{ 十: "ten", 小: "small", 反: "reverse", 背: "bei", 短: "duan", 如: "ru", 起: "rise", 止: "stop" },
  ...spread("擘劈尸", "bo"),
  ...spread("托乇", "tuo"),
  ...spread("抹木", "mo"),
  ...spread("挑乚", "tiao"),
  ...spread("勾鉤钩勹", "gou"),
  ...spread("剔", "ti"),
  ...spread("打丁", "hit"),
  ...spread("摘", "zhai"),
  ...spread("上", "up"),
  ...spread("下", "down"),
  ...spread("進进", "jin"),
  ...spread("退", "tui"),
  ...spread("復复拂弗", "fu"),
  ...spread("綽绰", "chuo"),
  ...spread("注氵", "zhu"),
  ...spread("帶带", "dai"),
  ...spread("抓爪", "zhua"),
  ...spread("掐", "qia"),
  ...spread("掩罨", "yan"),
  ...spread("虛虚", "xu"),
  ...spread("撮早", "cuo"),
  ...spread("歷历厂", "li"),
  ...spread("輪轮", "lun"),
  ...spread("滾滚", "gun"),
  ...spread("圓圆", "yuan"),
  ...spread("鎖锁索", "suo"),
  ...spread("長长", "chang"),
  ...spread("疊叠", "die"),
  ...spread("蠲捐", "juan"),
  ...spread("鈴铃", "ling"),
  ...spread("雙双", "shuang"),
  ...spread("彈弹", "tan"),
  ...spread("撥拨", "po"),
  ...spread("潑泼", "po"),
  ...spread("剌", "la"),
  ...spread("全", "quan"),
  ...spread("扶", "fu"),
  ...spread("摟搂", "lou"),
  ...spread("間间", "jian"),
  ...spread("往", "wang"),
  ...spread("來来", "lai"),
  ...spread("開开", "kai"),
  ...spread("吟", "yin"),
  ...spread("猱", "nao"),
  ...spread("撞", "zhuang"),
  ...spread("逗", "dou"),
  ...spread("喚唤", "huan"),
};

function spread(characters: string, word: string): Record<string, string> {
  return Object.fromEntries([...characters].map((character) => [character, word]));
}

const KNOWN: ReadonlySet<string> = new Set([...SYLLABLES, ...ENGLISH]);
/** Longer syllables first, so that `tiao` is not taken for `ti`. */
const LONGEST_FIRST = [...SYLLABLES].sort((a, b) => b.length - a.length);
const PARTS = /\p{Script=Han}|[a-z]+|\d+(?:[.,]\d+)?|[^\s\p{Script=Han}a-z\d'’_‐-―-]+/gu;

/**
 * The words of a text in one spelling: tone marks and capitals are dropped, characters become words, syllables written
 * together are parted. What is no word of a fingering stays as it is.
 *
 * @example wordsOf("sǎn-GOU 1") // ["san", "gou", "1"]
 * @example wordsOf("大七六挑四") // ["thumb", "seven", "six", "tiao", "four"]
 */
export function wordsOf(text: string): readonly string[] {
  const plain = text
    .normalize("NFKD")
    .replace(/\p{Mn}/gu, "")
    .toLowerCase();
  return (plain.match(PARTS) ?? []).flatMap((part) => {
    const word = CHARACTERS[part] ?? (part === "string" ? "xian" : part);
    return KNOWN.has(word) || !/^[a-z]+$/.test(word) ? [word] : (syllablesOf(word) ?? [word]);
  });
}

/** A word as a row of syllables; null where it is none. */
function syllablesOf(word: string): readonly string[] | null {
  if (word === "") return [];
  // A text that long is no fingering, and trying to part it would take time.
  if (word.length > 40) return null;
  for (const syllable of LONGEST_FIRST)
    if (word.startsWith(syllable)) {
      const rest = syllablesOf(word.slice(syllable.length));
      if (rest !== null) return [syllable, ...rest];
    }
  return null;
}

/** Whether a text is a single English word, which means too many other things beside a note. */
export function isLoneEnglish(words: readonly string[], text: string): boolean {
  const [word = ""] = words;
  return words.length === 1 && ENGLISH.includes(word) && text.trim().toLowerCase() === word;
}

const DIGIT_OF: ReadonlyMap<string, number> = new Map(
  [
    ["one", "yi"],
    ["two", "er"],
    ["three", "san"],
    ["four", "si"],
    ["five", "wu"],
    ["six", "liu"],
    ["seven", "qi"],
    ["eight", "ba"],
    ["nine", "jiu"],
    ["ten", "shi"],
  ].flatMap((names, i) => names.map((name): [string, number] => [name, i + 1])),
);

/** The number that a word or digits say. */
export function numberOf(word: string): number {
  return DIGIT_OF.get(word) ?? Number(word);
}

/** The words for a span of numbers, as alternatives of a pattern. */
export function numberWords(from: number, to: number): string {
  return [...DIGIT_OF].flatMap(([word, value]) => (value >= from && value <= to ? [word] : [])).join("|");
}

const PINYIN_OF: Readonly<Record<string, string>> = {
  ...{ open: "san", harmonic: "fan", thumb: "da", index: "shi", middle: "zhong", ring: "ming", joint: "jie" },
  ...{ kneeling: "gui", small: "xiao", large: "da", reverse: "fan", up: "shang", down: "xia", hit: "da", half: "ban" },
  ...{ rise: "qi", stop: "zhi" },
};

/** Words as pinyin with digits, for comparing and for messages. */
export function asPinyin(words: readonly string[]): string {
  return words
    .map((word) => PINYIN_OF[word] ?? (ENGLISH.includes(word) && DIGIT_OF.has(word) ? String(numberOf(word)) : word))
    .join(" ");
}
