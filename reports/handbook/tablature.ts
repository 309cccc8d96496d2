// SPDX-License-Identifier: AGPL-3.0-or-later
// The tablature: what each component stands for and where that comes from, and what the grids of the specimen show.
// Characters are facts of the trade; how they are put together here is our own rule.
import type { ComponentName } from "../../src/engrave/tablature/components.js";
import type { SpecimenTopic, TablatureSpecimen } from "../../src/engrave/tablature/specimen.js";
import { placeInCharacters, readingInWords, stringInCharacters, strokeCharacter } from "../../src/model/characters.js";
import { phrase, type Said } from "../../src/words.js";
import { OwnMarkup } from "../template.js";
import { type Grounds, groundsWords, JUDGEMENT, MEMORY, PRACTICE, published } from "./evidence.js";

/** What a component stands for. */
interface ComponentFact {
  /** the character that it is part of, or that it is */
  readonly of: string;
  readonly meaning: Said;
  readonly grounds: Grounds;
}

const AALST = published(
  "J. A. van Aalst, Chinese Music (1884), pp. 60–61",
  "J. A. van Aalst，Chinese Music（1884），第60至61页",
);
const TERMS = published("list of right-hand terms, yueqixuexi.com", "右手指法表，yueqixuexi.com");
const SIGNS = published("list of signs for hui and fen, kxting.com", "徽分谱字表，kxting.com");
const READING = published(
  "tutorial on reading the tablature, mondayisformusic.com",
  "减字谱读法教程，mondayisformusic.com",
);

const fact = (of: string, en: string, zh: string, grounds: Grounds): ComponentFact => ({
  of,
  meaning: phrase(en, zh),
  grounds,
});

const number = (of: string, value: number): ComponentFact =>
  fact(of, `${value}: hui, tenth or string`, `${value}：徽、分或弦`, READING);
const partOf = (of: string, en: string, zh: string): ComponentFact => fact(of, en, zh, JUDGEMENT);

/** Every component with its meaning. */
export const COMPONENT_FACTS: Readonly<Record<ComponentName, ComponentFact>> = {
  san: fact("散", "the open string", "散音", AALST),
  fan: fact("泛", "a harmonic", "泛音", MEMORY),
  thumb: fact("大", "the thumb", "大指", AALST),
  index: fact("食", "the index finger", "食指", AALST),
  middle: fact("中", "the middle finger", "中指", AALST),
  ring: fact("名", "the ring finger", "名指", AALST),
  kneeling: fact("跪", "the ring finger kneeling", "名指跪按", MEMORY),
  joint: fact("節", "with the joint", "以节按弦", JUDGEMENT),
  zero: fact("〇", "no tenth, before hundredths", "没有分，后面接厘", JUDGEMENT),
  one: number("一", 1),
  two: number("二", 2),
  three: number("三", 3),
  four: number("四", 4),
  five: number("五", 5),
  six: number("六", 6),
  seven: number("七", 7),
  eight: number("八", 8),
  nine: number("九", 9),
  ten: fact("十", "10; with 一 to 三 beside it hui 11 to 13", "十；旁边有一至三时为十一至十三徽", READING),
  half: fact("半", "half way to the next hui; half a lun", "两徽正中；半轮", PRACTICE),
  wai: fact("外", "outside hui 13, written 13.1", "十三徽外，数字写作13.1", SIGNS),
  bo: fact("擘", "thumb: bo", "大指：擘", AALST),
  tuo: fact("托", "thumb: tuo", "大指：托", AALST),
  mo: fact("抹", "index finger inward: mo", "食指向内：抹", AALST),
  tiao: fact("挑", "index finger outward: tiao", "食指向外：挑", AALST),
  gou: fact("勾", "middle finger inward: gou", "中指向内：勾", AALST),
  ti: fact("剔", "middle finger outward: ti; the lower half of 易", "中指向外：剔；易字的下半", MEMORY),
  da: fact("打", "ring finger inward: da", "名指向内：打", AALST),
  zhai: fact("摘", "ring finger outward: zhai; the top of 啇", "名指向外：摘；啇字的上部", MEMORY),
  cuo: fact("撮", "a pinch", "撮", MEMORY),
  reverse: fact("反", "the pinch the other way round", "反撮", TERMS),
  yuan: fact("圓", "yuan lou and da yuan", "圆搂、打圆", JUDGEMENT),
  lou: fact("摟", "yuan lou; the lower half of 婁", "圆搂；婁字的下半", JUDGEMENT),
  die: partOf("疊", "die; one of its three fields", "叠；三个田之一"),
  juan: fact("蠲", "juan", "蠲", JUDGEMENT),
  lun: fact("輪", "lun", "轮", MEMORY),
  bei: fact("背", "bei suo", "背锁", JUDGEMENT),
  duan: fact("短", "duan suo", "短锁", JUDGEMENT),
  chang: fact("長", "chang suo", "长锁", JUDGEMENT),
  "suo-above": partOf("鎖", "a suo: its right half, above", "锁：右半的上部"),
  "suo-below": partOf("鎖", "a suo: its right half, below", "锁：右半的下部"),
  li: fact("歷", "li", "历", TERMS),
  gun: fact("滾", "gun", "滚", JUDGEMENT),
  fu: fact("拂", "fu", "拂", TERMS),
  suo: fact("索", "suo ling", "索铃", JUDGEMENT),
  ling: fact("鈴", "suo ling", "索铃", JUDGEMENT),
  "ru-left": partOf("如", "ru yi, with 一", "如一，与“一”合写"),
  "ru-right": partOf("如", "ru yi, with 一", "如一，与“一”合写"),
  shuang: fact("雙", "shuang tan, in its short form", "双弹", JUDGEMENT),
  tan: fact("彈", "shuang tan", "双弹", JUDGEMENT),
  po: fact("撥", "bo la: the top of 發", "拨剌：發字的上部", JUDGEMENT),
  la: fact("剌", "bo la", "拨剌", JUDGEMENT),
  quan: fact("全", "quan fu", "全扶", JUDGEMENT),
  hold: fact("扶", "quan fu", "全扶", JUDGEMENT),
  chuo: fact("綽", "chuo: up into the place", "绰：自下而上进到徽位", MEMORY),
  zhu: fact("注", "zhu: down into the place", "注：自上而下进到徽位", MEMORY),
  yin: fact("吟", "yin", "吟", JUDGEMENT),
  nao: fact("猱", "nao", "猱", MEMORY),
  zhuang: fact("撞", "zhuang; a form of its right half", "撞；右半的省写", MEMORY),
  dou: fact("逗", "dou", "逗", MEMORY),
  huan: fact("喚", "huan", "唤", JUDGEMENT),
  shang: fact("上", "slide up to the place", "上滑到徽位", PRACTICE),
  xia: fact("下", "slide down to the place", "下滑到徽位", PRACTICE),
  yan: fact("掩", "hammer-on: yan", "掩（罨）", JUDGEMENT),
  dai: fact("帶", "dai qi: the ring finger lifts", "带起：名指离弦", PRACTICE),
  zhua: fact("抓", "zhua qi: the thumb lifts", "抓起：大指离弦", PRACTICE),
  qia: fact("掐", "qia qi: the thumb lifts, the ring finger stays", "掐起：大指离弦，名指不动", PRACTICE),
  qi: fact("起", "lifting off: qi", "起", JUDGEMENT),
};

/** Components in the order of the reading, each group under a heading. */
const GROUPS: readonly { readonly title: Said; readonly names: readonly ComponentName[] }[] = [
  {
    title: phrase("Left hand", "左手"),
    names: ["san", "fan", "thumb", "index", "middle", "ring", "kneeling", "joint"],
  },
  {
    title: phrase("Numbers and places", "数目与徽位"),
    names: ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "zero", "half", "wai"],
  },
  { title: phrase("The eight strokes", "右手八法"), names: ["bo", "tuo", "mo", "tiao", "gou", "ti", "da", "zhai"] },
  {
    title: phrase("Pinches and compound strokes", "撮与组合指法"),
    names: [
      ...(["cuo", "reverse", "yuan", "lou", "die", "juan", "lun", "bei", "duan", "chang", "suo-above"] as const),
      ...(["suo-below", "li", "gun", "fu", "suo", "ling", "ru-left", "ru-right", "shuang", "tan", "po"] as const),
      ...(["la", "quan", "hold"] as const),
    ],
  },
  {
    title: phrase("Ornaments, and sounds of the left hand", "吟猱绰注与左手得音"),
    names: ["chuo", "zhu", "yin", "nao", "zhuang", "dou", "huan", "shang", "xia", "yan", "dai", "zhua", "qia", "qi"],
  },
];

/** What each grid shows. */
const TOPICS: Readonly<Record<SpecimenTopic, { readonly title: Said; readonly words: Said; readonly side: Said }>> = {
  open: {
    title: phrase("Open strings", "散音"),
    words: phrase(
      "The sign of the open string above, the stroke below; the string's number in the stroke's frame, or under a stroke that has none.",
      "上面是散音的记号，下面是弹法；弦数写在弹法的框里，没有框的写在它下面。",
    ),
    side: phrase("Stroke", "弹法"),
  },
  stopped: {
    title: phrase("Stopped notes", "按音"),
    words: phrase(
      "Above on the left the finger, beside it the place; below the stroke with its string.",
      "左上是左手指，右上是徽位，下面是弹法和弦数。",
    ),
    side: phrase("Stroke", "弹法"),
  },
  holds: {
    title: phrase("Fingers and strokes", "左手指与弹法"),
    words: phrase(
      "Every way to hold a string with every stroke. Kneeling is always the ring finger, whose own sign is then left out.",
      "每一种按法配每一种弹法。跪指总是名指，所以不再写“名”。",
    ),
    side: phrase("Stroke", "弹法"),
  },
  places: {
    title: phrase("Fingers and places", "左手指与徽位"),
    words: phrase(
      "The hui above, tenths of the way to the next below it. Hui 11 to 13 are written ten and a unit beside each other, so that 12 and 10.2 cannot be mistaken for each other. 13.1 has the sign of wai.",
      "上面是徽，下面是分。十一至十三徽把“十”与个位并排写，免得十二徽与十徽二分相混。13.1写作“外”。",
    ),
    side: phrase("Place", "徽位"),
  },
  harmonics: {
    title: phrase("Harmonics", "泛音"),
    words: phrase(
      "The sign of harmonics where a stopped note has its finger, at every hui. Handbooks write it once for a whole passage; here each glyph says it, since each is read by itself.",
      "“泛”的记号写在按音写左手指的地方，十三个徽都有。琴谱在一段里只写一次；这里每个字要单独读懂，所以个个写出。",
    ),
    side: phrase("Hui", "徽"),
  },
  compounds: {
    title: phrase("Compound strokes", "组合指法"),
    words: phrase(
      "The compound's sign above the string; of a sweep or a pair the first and the last string, left and right.",
      "组合指法写在弦数上面；历、滚、拂和弹两根弦的，左右写第一根和最后一根弦。",
    ),
    side: phrase("Compound", "组合指法"),
  },
  pinches: {
    title: phrase("Pinches", "撮"),
    words: phrase(
      "A pinch is two notes at once, with a glyph each: the sign of the pinch stands left of the stroke on that string.",
      "撮是两音同响，一音一字：撮的记号写在该弦弹法的左边。",
    ),
    side: phrase("Pinch", "撮"),
  },
  "left-hand": {
    title: phrase("Sounds of the left hand alone", "左手得音"),
    words: phrase(
      "Without a stroke and without a string, which is that of the note before: slides and hammer-ons with their place; lifting off the string by ring finger or thumb, and thumb over a ring finger that stays.",
      "没有右手指法，弦与前一音相同：上、下、罨都写徽位；带起、抓起是名指或大指离弦得散音，掐起是大指离弦而名指不动，得名指所按的音。",
    ),
    side: phrase("Place", "徽位"),
  },
  ornaments: {
    title: phrase("Ornaments", "吟猱绰注"),
    words: phrase(
      "How the finger enters its place stands left of the stroke, what it does there stands right of it.",
      "绰、注写在弹法左边，吟、猱、撞、逗、唤写在右边。",
    ),
    side: phrase("Ornament", "吟猱"),
  },
};

const SIDES = { component: "0 0 700 700", glyph: "0 0 1000 1250" } as const;

const use = (symbol: string, kind: keyof typeof SIDES): OwnMarkup =>
  new OwnMarkup(`<svg class="jz" viewBox="${SIDES[kind]}" aria-hidden="true"><use href="#${symbol}"/></svg>`);

/** Heads of the grids that are no words of a reading. */
const HEADS: Readonly<Record<string, string>> = {
  an: "按",
  "small cuo": "小撮",
  "large cuo": "大撮",
  "reverse cuo": "反撮",
};

/** Grids whose columns are ways to hold a string, where da is the thumb. */
const HELD: readonly SpecimenTopic[] = ["holds", "places"];

/** A row's head: a place, or strokes and signs. */
function rowHead(head: string): Said {
  return phrase(head, /^\d/.test(head) ? placeInCharacters(Number(head)) : (HEADS[head] ?? strokeCharacter(head)));
}

/** A column's head: a string, a way to hold it, or strokes and signs. */
function columnHead(topic: SpecimenTopic, head: string): Said {
  if (/^\d$/.test(head)) return phrase(head, stringInCharacters(Number(head)));
  const thumb = HELD.includes(topic) ? /^da\b ?(?<contact>.*)$/.exec(head)?.groups : undefined;
  if (thumb !== undefined) return phrase(head, `大${strokeCharacter(thumb.contact ?? "")}`);
  return phrase(head, HEADS[head] ?? strokeCharacter(head));
}

/** The specimen as the guide's template prints it. */
export function viewTablature({ symbols, components, grids }: TablatureSpecimen): object {
  const symbolOf = new Map(components.map(({ name, symbol }) => [name, symbol]));
  return {
    symbols: new OwnMarkup(symbols),
    groups: GROUPS.map(({ title, names }) => ({
      title,
      components: names.map((name) => {
        const { of, meaning, grounds } = COMPONENT_FACTS[name];
        return { drawing: use(symbolOf.get(name) ?? "", "component"), of, meaning, grounds: groundsWords(grounds) };
      }),
    })),
    grids: grids.map(({ topic, head, rows }) => ({
      ...TOPICS[topic],
      id: `tablature-${topic}`,
      head: head.map((one) => columnHead(topic, one)),
      rows: rows.map((row) => ({
        head: rowHead(row.head),
        cells: row.cells.map(({ symbol, spoken }) => ({ glyph: use(symbol, "glyph"), spoken: readingInWords(spoken) })),
      })),
    })),
  };
}
