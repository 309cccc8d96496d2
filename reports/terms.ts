// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of a fingering, each with its characters and one plain sentence. What sounds in a compound stroke, and in
// which direction, is what src/model/compounds.ts counts with, and has its sources there.
import { PINCHES, type Stroke } from "../src/model/fingering.js";
import type { NoteJson } from "../src/report.js";

/** A term without its pinyin. */
interface Term {
  readonly characters: string;
  readonly meaning: string;
}

/** A term of the trade with its characters and meaning. */
export interface TermView extends Term {
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
  bo: { characters: "擘", meaning: "thumb, the opposite way to tuo; also called pi" },
  tuo: { characters: "托", meaning: "thumb, outward (away from the player) in most schools, inward in some" },
  mo: { characters: "抹", meaning: "index finger, inward: toward the player" },
  tiao: { characters: "挑", meaning: "index finger, outward: away from the player" },
  gou: { characters: "勾", meaning: "middle finger, inward: toward the player" },
  ti: { characters: "剔", meaning: "middle finger, outward: away from the player" },
  da: { characters: "打", meaning: "ring finger, inward: toward the player" },
  zhai: { characters: "摘", meaning: "ring finger, outward: away from the player" },
};

/** The other name of bo, where a brief prints it. */
const PI: Term = { characters: "劈", meaning: "thumb, the opposite way to tuo; also called bo" };

/** Words of the left hand in the spoken reading. */
const LEFT_WORDS: Readonly<Record<string, Term>> = {
  san: { characters: "散", meaning: "the open string" },
  fan: { characters: "泛", meaning: "a harmonic: the finger only touches the string at the hui" },
  chuo: { characters: "綽", meaning: "the finger slides up into its place as the note begins: an ornament" },
  zhu: { characters: "注", meaning: "the finger slides down into its place as the note begins: an ornament" },
  da: { characters: "大", meaning: "before a place: the thumb presses there" },
  shi: { characters: "食", meaning: "the index finger presses" },
  zhong: { characters: "中", meaning: "the middle finger presses" },
  ming: { characters: "名", meaning: "the ring finger presses" },
  jie: { characters: "節", meaning: "with the joint, not the tip" },
  gui: { characters: "跪", meaning: "kneeling: with the back of the bent finger" },
  shang: { characters: "上", meaning: "slide up to the place, without a new stroke" },
  xia: { characters: "下", meaning: "slide down to the place, without a new stroke" },
  yin: { characters: "吟", meaning: "a light, narrow vibrato" },
  nao: { characters: "猱", meaning: "a wider and heavier vibrato" },
  zhuang: { characters: "撞", meaning: "a quick flick up and back after the stroke" },
  dou: { characters: "逗", meaning: "a flick up and back together with the stroke" },
  huan: { characters: "喚", meaning: "a quick turn about the place: up, down and back" },
  "dai qi": { characters: "帶起", meaning: "the finger that lifts plucks the string, which sounds open" },
  "zhua qi": { characters: "抓起", meaning: "the thumb that lifts plucks the string, which sounds open" },
  "qia qi": {
    characters: "掐起",
    meaning: "the thumb that lifts plucks the string, which sounds at the held ring finger",
  },
  yan: {
    characters: "罨",
    meaning: "the finger strikes the string down onto the place, without a stroke of the right hand",
  },
};

/** Compound strokes of the right hand. */
const COMPOUND_WORDS: Readonly<Record<string, Term & { readonly term?: string }>> = {
  "small-cuo": {
    term: "xiao cuo",
    characters: "小撮",
    meaning: "a pinch: index finger outward and middle finger inward at once, on two strings",
  },
  "large-cuo": {
    term: "da cuo",
    characters: "大撮",
    meaning: "a pinch: thumb and middle finger toward each other at once, on two strings farther apart",
  },
  "reverse-cuo": {
    term: "fan cuo",
    characters: "反撮",
    meaning: "the pinch the other way round: thumb and middle finger apart at once, on two strings",
  },
  "yuan-lou": { characters: "圓摟", meaning: "index and middle finger inward at once, on two strings" },
  "mo-tiao": { characters: "抹挑", meaning: "index finger inward, then outward, on one string" },
  "gou-ti": { characters: "勾剔", meaning: "middle finger inward, then outward, on one string" },
  "mo-gou": { characters: "抹勾", meaning: "index finger, then middle finger, both inward on one string" },
  die: { characters: "疊", meaning: "index finger, then middle finger, both inward on one string in quick succession" },
  juan: {
    characters: "蠲",
    meaning: "index and middle finger inward on one string, so close that they almost sound as one",
  },
  "ban-lun": {
    characters: "半輪",
    meaning: "middle finger, then index finger, both outward on one string: half a lun",
  },
  lun: { characters: "輪", meaning: "ring, middle and index finger outward on one string, one after the other" },
  "bei-suo": {
    characters: "背鎖",
    meaning: "three strokes on one string: middle finger outward, index finger in and out",
  },
  "duan-suo": {
    characters: "短鎖",
    meaning:
      "five strokes on one string: index and middle finger inward, then middle finger outward, index finger in and out",
  },
  "chang-suo": {
    characters: "長鎖",
    meaning:
      "a long run of strokes on one string, seven here, nine in other lists: index finger in and out, then a duan suo",
  },
  li: { characters: "歷", meaning: "index finger outward over neighbouring strings, from the nearer to the farther" },
  gun: { characters: "滾", meaning: "ring finger outward over many strings, from the nearer to the farther" },
  fu: { characters: "拂", meaning: "index finger inward over many strings, from the farther to the nearer" },
  "gun-fu": { characters: "滾拂", meaning: "ring finger outward over many strings, then index finger back over them" },
  "suo-ling": {
    characters: "索鈴",
    meaning: "index finger outward over several strings while the left hand only touches each: a row of harmonics",
  },
  "ru-yi": {
    characters: "如一",
    meaning: "middle finger outward across two neighbouring strings of one pitch, so that they sound as one",
  },
  "shuang-tan": {
    characters: "雙彈",
    meaning: "middle finger, then index finger, each outward across two neighbouring strings of one pitch",
  },
  "bo-la": {
    characters: "撥剌",
    meaning: "three fingers together, inward and then outward across two neighbouring strings of one pitch",
  },
  "quan-fu": {
    characters: "全扶",
    meaning: "index finger inward over two strings, then middle finger inward over them",
  },
  "da-yuan": {
    characters: "打圓",
    meaning:
      "seven strokes on two strings, index finger outward and middle finger inward by turns, with a breath after two",
  },
};

function viewOf(term: string, { characters, meaning }: Term): TermView {
  return { term, characters, meaning };
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
