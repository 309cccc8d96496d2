// SPDX-License-Identifier: AGPL-3.0-or-later
// The handbook's tables as sections of words and cells, from which page and Markdown are both made.
import { phrase, phraseOf, type Said } from "../../src/words.js";
import { FINGER_WORD } from "../words.js";
import { comparisonSection, keySection } from "./comparison-tables.js";
import { groundsWords } from "./evidence.js";
import type { HandbookJson } from "./json.js";
import { positionSection } from "./position-tables.js";
import { rangeSection } from "./range-table.js";
import type { StrokeFact } from "./right-hand.js";
import { type Part, type Section, type Table, term, text } from "./table.js";
import { tuningSection } from "./tuning-tables.js";

/** All sections in order. */
export function handbookSections(handbook: HandbookJson): readonly Section[] {
  return [
    positionSection(handbook),
    tuningSection(handbook),
    keySection(handbook),
    comparisonSection(handbook),
    rangeSection(handbook),
    rightHandSection(handbook),
    leftHandSection(handbook),
    cautionSection(handbook),
  ];
}

/** A table of facts, which hold sentences. */
function wide(caption: Said, head: readonly Said[], rows: Table["rows"]): Table {
  return { caption, layout: "wide", head: [...head, WHERE_FROM], rows };
}

const WHERE_FROM = phrase("Where from", "出处");
const STROKE = phrase("Stroke", "弹法");
const PINYIN = phrase("Pinyin", "拼音");

const DIRECTION_WORDS: Readonly<Record<StrokeFact["direction"], Said>> = {
  "toward the player": phrase("toward the player", "向身"),
  "away from the player": phrase("away from the player", "离身"),
};

const HAND_WORDS: Readonly<Record<StrokeFact["hand"], Said>> = {
  closing: phrase("closing", "收拢"),
  opening: phrase("opening", "张开"),
};

function rightHandSection(handbook: HandbookJson): Section {
  return {
    id: "right-hand",
    title: phrase("The right hand", "右手"),
    words: [
      phrase(
        "Strokes that close the hand prepare those that open it, and the other way round. The little finger is not used, nor any pick.",
        "使手收拢的弹法为使手张开的弹法作好准备，反过来也一样。不用小指，也不用拨片。",
      ),
    ],
    parts: [strokePart(handbook), compoundPart(handbook)],
  };
}

function strokePart({ strokes }: HandbookJson): Part {
  const title = phrase("The eight strokes", "八种基本弹法");
  const head = [
    STROKE,
    PINYIN,
    phrase("Finger and direction", "手指与方向"),
    phrase("Hand", "手势"),
    phrase("Usual strings", "常用的弦"),
    phrase("Tone", "音色"),
  ];
  const rows = strokes.map((one) => ({
    head: term(one.name, one.characters),
    cells: [
      one.pinyin,
      phraseOf({
        en: (say) => `${say(FINGER_WORD[one.finger])}, ${say(DIRECTION_WORDS[one.direction])}`,
        zh: (say) => `${say(FINGER_WORD[one.finger])}，${say(DIRECTION_WORDS[one.direction])}`,
      }),
      HAND_WORDS[one.hand],
      one.strings,
      one.tone,
      groundsWords(one),
    ].map(text),
    strong: true,
  }));
  return { id: "strokes", title, words: [], tables: [wide(title, head, rows)] };
}

function compoundPart({ compounds }: HandbookJson): Part {
  const title = phrase("Compound strokes", "组合指法");
  const head = [STROKE, PINYIN, phrase("What sounds", "怎样弹"), phrase("Strings", "弦"), phrase("Attacks", "声数")];
  const rows = compounds.map((one) => ({
    head: term(one.name, one.characters),
    cells: [one.pinyin, one.sounds, one.strings, one.attacks, groundsWords(one)].map(text),
    strong: true,
  }));
  const words = [
    phrase("An attack is a separate onset; two strings in one pinch are one.", "一声是一次起音；一撮两弦算一声。"),
  ];
  return { id: "compounds", title, words, tables: [wide(title, head, rows)] };
}

function leftHandSection(handbook: HandbookJson): Section {
  return {
    id: "left-hand",
    title: phrase("The left hand", "左手"),
    words: [],
    parts: [fingerPart(handbook), signPart(handbook)],
  };
}

function fingerPart({ fingers }: HandbookJson): Part {
  const title = phrase("Fingers and what touches the string", "手指与触弦的部位");
  const head = [phrase("Said", "谱字"), phrase("Finger and part", "手指与部位"), phrase("Used for", "用处")];
  const rows = fingers.map((one) => ({
    head: term(one.name ?? "not said", one.characters),
    cells: [one.part, one.use, groundsWords(one)].map(text),
    strong: true,
  }));
  return { id: "fingers", title, words: [], tables: [wide(title, head, rows)] };
}

function signPart({ signs }: HandbookJson): Part {
  const title = phrase("Signs of the left hand", "左手的谱字");
  const head = [
    phrase("Sign", "谱字"),
    PINYIN,
    phrase("What the hand does", "手怎样动"),
    phrase("Extra notes", "另得之音"),
  ];
  const rows = signs.map((one) => ({
    head: term(one.name, one.characters),
    cells: [one.pinyin, one.action, one.extraNotes, groundsWords(one)].map(text),
    strong: true,
  }));
  const words = [
    phrase(
      "Extra notes are further pitches that are clearly heard without a new stroke of the right hand. Each later one is weaker: after an ordinary pluck no more than three, by our judgement.",
      "另得之音，是右手不再弹而清楚听到的别的音。一个比一个弱：平常弹一声之后不超过三个，这是我们的判断。",
    ),
  ];
  return { id: "signs", title, words, tables: [wide(title, head, rows)] };
}

function cautionSection({ cautions }: HandbookJson): Section {
  const title = phrase("Cautions", "注意事项");
  const head = [phrase("About", "关于"), phrase("What to keep in mind", "要记住的")];
  const rows = cautions.map((one) => ({
    head: text(one.about),
    cells: [one.text, groundsWords(one)].map(text),
    strong: true,
  }));
  return {
    id: "cautions",
    title,
    words: [],
    parts: [{ id: null, title: null, words: [], tables: [wide(title, head, rows)] }],
  };
}
