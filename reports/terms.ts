// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of a fingering, each with its characters and one plain sentence. What sounds in a compound stroke, and in
// which direction, is what src/model/compounds.ts counts with, and has its sources there.

import { PINCHES, type Stroke } from "../src/model/fingering.js";
import type { NoteJson } from "../src/report.js";
import { type Phrase, phrase, type Said } from "../src/words.js";
import { bothForms } from "./simplified.js";

/** A term without its pinyin. */
interface Term {
  readonly characters: string;
  readonly meaning: Phrase;
}

/** A term of the trade with its characters, traditional or simplified by language, and its meaning. */
export interface TermView {
  readonly characters: Said;
  readonly meaning: Phrase;
  /** pinyin without tone marks, as the readings say it */
  readonly term: string;
}

/** The terms of a fingering by what they name. */
export interface TermsView {
  readonly left: readonly TermView[];
  readonly strokes: readonly TermView[];
  readonly compounds: readonly TermView[];
}

/** A stroke with its character and what the finger does. */
const STROKE_WORDS: Readonly<Record<Stroke, Term>> = {
  bo: { characters: "擘", meaning: phrase("thumb, the opposite way to tuo; also called pi", "大指，与托相反；又称劈") },
  tuo: {
    characters: "托",
    meaning: phrase(
      "thumb, outward (away from the player) in most schools, inward in some",
      "大指，多数流派向外（离身）弹，有的向内",
    ),
  },
  mo: { characters: "抹", meaning: phrase("index finger, inward: toward the player", "食指向内（向身）弹") },
  tiao: { characters: "挑", meaning: phrase("index finger, outward: away from the player", "食指向外（离身）弹") },
  gou: { characters: "勾", meaning: phrase("middle finger, inward: toward the player", "中指向内（向身）弹") },
  ti: { characters: "剔", meaning: phrase("middle finger, outward: away from the player", "中指向外（离身）弹") },
  da: { characters: "打", meaning: phrase("ring finger, inward: toward the player", "名指向内（向身）弹") },
  zhai: { characters: "摘", meaning: phrase("ring finger, outward: away from the player", "名指向外（离身）弹") },
};

/** The other name of bo, where a brief prints it. */
const PI: Term = {
  characters: "劈",
  meaning: phrase("thumb, the opposite way to tuo; also called bo", "大指，与托相反；又称擘"),
};

/** Words of the left hand in the spoken reading. */
const LEFT_WORDS: Readonly<Record<string, Term>> = {
  san: { characters: "散", meaning: phrase("the open string", "散音：左手不按") },
  fan: {
    characters: "泛",
    meaning: phrase("a harmonic: the finger only touches the string at the hui", "泛音：左指在徽上轻触弦"),
  },
  chuo: {
    characters: "綽",
    meaning: phrase(
      "the finger slides up into its place as the note begins: an ornament",
      "起音时从下方滑上本位：装饰",
    ),
  },
  zhu: {
    characters: "注",
    meaning: phrase(
      "the finger slides down into its place as the note begins: an ornament",
      "起音时从上方滑下本位：装饰",
    ),
  },
  da: { characters: "大", meaning: phrase("before a place: the thumb presses there", "在徽位之前：大指按在那里") },
  shi: { characters: "食", meaning: phrase("the index finger presses", "食指按弦") },
  zhong: { characters: "中", meaning: phrase("the middle finger presses", "中指按弦") },
  ming: { characters: "名", meaning: phrase("the ring finger presses", "名指按弦") },
  jie: { characters: "節", meaning: phrase("with the joint, not the tip", "用指节而非指尖") },
  gui: { characters: "跪", meaning: phrase("kneeling: with the back of the bent finger", "跪指：用弯曲手指的背面") },
  shang: { characters: "上", meaning: phrase("slide up to the place, without a new stroke", "上到该位，不再弹弦") },
  xia: { characters: "下", meaning: phrase("slide down to the place, without a new stroke", "下到该位，不再弹弦") },
  yin: { characters: "吟", meaning: phrase("a light, narrow vibrato", "轻而窄的颤动") },
  nao: { characters: "猱", meaning: phrase("a wider and heavier vibrato", "较宽较重的颤动") },
  zhuang: { characters: "撞", meaning: phrase("a quick flick up and back after the stroke", "弹后急上急回") },
  dou: { characters: "逗", meaning: phrase("a flick up and back together with the stroke", "与弹弦同时上而即回") },
  huan: {
    characters: "喚",
    meaning: phrase("a quick turn about the place: up, down and back", "绕本位急转：上、下、回"),
  },
  "dai qi": {
    characters: "帶起",
    meaning: phrase("the finger that lifts plucks the string, which sounds open", "按指离弦时带响该弦，得散音"),
  },
  "zhua qi": {
    characters: "抓起",
    meaning: phrase("the thumb that lifts plucks the string, which sounds open", "大指离弦时抓响该弦，得散音"),
  },
  "qia qi": {
    characters: "掐起",
    meaning: phrase(
      "the thumb that lifts plucks the string, which sounds at the held ring finger",
      "名指按住，大指离弦时掐响",
    ),
  },
  yan: {
    characters: "罨",
    meaning: phrase(
      "the finger strikes the string down onto the place, without a stroke of the right hand",
      "手指击弦入位而发声，右手不弹",
    ),
  },
};

/** Compound strokes of the right hand. */
const COMPOUND_WORDS: Readonly<Record<string, Term & { readonly term?: string }>> = {
  "small-cuo": {
    term: "xiao cuo",
    characters: "小撮",
    meaning: phrase(
      "a pinch: index finger outward and middle finger inward at once, on two strings",
      "撮：挑与勾同时弹两弦",
    ),
  },
  "large-cuo": {
    term: "da cuo",
    characters: "大撮",
    meaning: phrase(
      "a pinch: thumb and middle finger toward each other at once, on two strings farther apart",
      "大指与中指同时相向弹较远的两弦",
    ),
  },
  "reverse-cuo": {
    term: "fan cuo",
    characters: "反撮",
    meaning: phrase(
      "the pinch the other way round: thumb and middle finger apart at once, on two strings",
      "反向的撮：大指与中指同时相离弹两弦",
    ),
  },
  "yuan-lou": {
    characters: "圓摟",
    meaning: phrase("index and middle finger inward at once, on two strings", "抹与勾同时弹两弦"),
  },
  "mo-tiao": {
    characters: "抹挑",
    meaning: phrase("index finger inward, then outward, on one string", "一弦上先抹后挑"),
  },
  "gou-ti": {
    characters: "勾剔",
    meaning: phrase("middle finger inward, then outward, on one string", "一弦上先勾后剔"),
  },
  "mo-gou": {
    characters: "抹勾",
    meaning: phrase("index finger, then middle finger, both inward on one string", "一弦上先抹后勾"),
  },
  die: {
    characters: "疊",
    meaning: phrase(
      "index finger, then middle finger, both inward on one string in quick succession",
      "一弦上抹勾相连，急速而下",
    ),
  },
  juan: {
    characters: "蠲",
    meaning: phrase(
      "index and middle finger inward on one string, so close that they almost sound as one",
      "一弦上抹勾几乎合为一声",
    ),
  },
  "ban-lun": {
    characters: "半輪",
    meaning: phrase(
      "middle finger, then index finger, both outward on one string: half a lun",
      "一弦上先剔后挑：半个轮",
    ),
  },
  lun: {
    characters: "輪",
    meaning: phrase(
      "ring, middle and index finger outward on one string, one after the other",
      "一弦上摘、剔、挑依次而出",
    ),
  },
  "bei-suo": {
    characters: "背鎖",
    meaning: phrase(
      "three strokes on one string: middle finger outward, index finger in and out",
      "一弦三声：剔、抹、挑",
    ),
  },
  "duan-suo": {
    characters: "短鎖",
    meaning: phrase(
      "five strokes on one string: index and middle finger inward, then middle finger outward, index finger in and out",
      "一弦五声：抹、勾，再剔、抹、挑",
    ),
  },
  "chang-suo": {
    characters: "長鎖",
    meaning: phrase(
      "a long run of strokes on one string, seven here, nine in other lists: index finger in and out, then a duan suo",
      "一弦上的一长串，此处七声，别的谱列九声：抹、挑，再接短锁",
    ),
  },
  li: {
    characters: "歷",
    meaning: phrase(
      "index finger outward over neighbouring strings, from the nearer to the farther",
      "食指连挑相邻数弦，由近而远",
    ),
  },
  gun: {
    characters: "滾",
    meaning: phrase("ring finger outward over many strings, from the nearer to the farther", "名指连摘多弦，由近而远"),
  },
  fu: {
    characters: "拂",
    meaning: phrase("index finger inward over many strings, from the farther to the nearer", "食指连抹多弦，由远而近"),
  },
  "gun-fu": {
    characters: "滾拂",
    meaning: phrase(
      "ring finger outward over many strings, then index finger back over them",
      "名指滚过多弦，食指随即拂回",
    ),
  },
  "suo-ling": {
    characters: "索鈴",
    meaning: phrase(
      "index finger outward over several strings while the left hand only touches each: a row of harmonics",
      "食指连挑数弦，左手逐弦轻触：一串泛音",
    ),
  },
  "ru-yi": {
    characters: "如一",
    meaning: phrase(
      "middle finger outward across two neighbouring strings of one pitch, so that they sound as one",
      "剔过相邻同音两弦，如同一声",
    ),
  },
  "shuang-tan": {
    characters: "雙彈",
    meaning: phrase(
      "middle finger, then index finger, each outward across two neighbouring strings of one pitch",
      "剔、挑先后弹过相邻同音两弦",
    ),
  },
  "bo-la": {
    characters: "撥剌",
    meaning: phrase(
      "three fingers together, inward and then outward across two neighbouring strings of one pitch",
      "三指并拢，向内再向外弹过相邻同音两弦",
    ),
  },
  "quan-fu": {
    characters: "全扶",
    meaning: phrase(
      "index finger inward over two strings, then middle finger inward over them",
      "先抹过两弦，再勾过两弦",
    ),
  },
  "da-yuan": {
    characters: "打圓",
    meaning: phrase(
      "seven strokes on two strings, index finger outward and middle finger inward by turns, with a breath after two",
      "两弦上七声，挑勾交替，二声后略停",
    ),
  },
};

function viewOf(term: string, { characters, meaning }: Term): TermView {
  return { term, characters: bothForms(characters), meaning };
}

function compoundView(name: string): TermView {
  const words = COMPOUND_WORDS[name];
  if (words === undefined) throw new Error(`no words for the compound stroke ${name}`);
  return viewOf(words.term ?? name.replaceAll("-", " "), words);
}

/** All terms, in the order in which a method would teach them. */
export function allTerms(): TermsView {
  return {
    left: Object.entries(LEFT_WORDS).map(([term, words]) => viewOf(term, words)),
    strokes: Object.entries(STROKE_WORDS).map(([term, words]) => viewOf(term, words)),
    compounds: Object.keys(COMPOUND_WORDS).map(compoundView),
  };
}

/** The terms that readings use, in the order in which they first come. */
export function termsOf(notes: readonly NoteJson[]): TermsView {
  const strokes = new Set(notes.flatMap(({ stroke }) => (stroke === null ? [] : [stroke])));
  const compounds = new Set(notes.flatMap(({ compound }) => (compound === null ? [] : [compound])));
  const left = new Set(notes.flatMap(leftTerms));
  return {
    left: [...left].map((term) => viewOf(term, LEFT_WORDS[term] as Term)),
    strokes: [...strokes].map((term) =>
      term === "bo" && notes.some(saysPi) ? viewOf("pi", PI) : viewOf(term, STROKE_WORDS[term]),
    ),
    compounds: [...compounds].map(compoundView),
  };
}

const saysPi = ({ spoken, stroke }: NoteJson): boolean => stroke === "bo" && / pi \d$/.test(spoken ?? "");

/** The terms of the left hand in one reading: without the stroke, since da and fan mean other things there. */
function leftTerms(note: NoteJson): readonly string[] {
  const stroke = ` ${strokeWords(note)} `;
  const spoken = ` ${note.spoken ?? ""} `;
  const at = spoken.lastIndexOf(stroke);
  const said = at < 0 ? spoken : `${spoken.slice(0, at)} ${spoken.slice(at + stroke.length)}`;
  return Object.keys(LEFT_WORDS).filter((term) => said.includes(` ${term} `));
}

/** The stroke or the compound as the reading says it; of a pinch the stroke on this string. */
function strokeWords({ stroke, compound }: NoteJson): string {
  const pinched = PINCHES.some((pinch) => pinch === compound);
  return compound === null || pinched ? (stroke ?? "") : compound.replaceAll("-", " ");
}
