// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of the report page that depend on a value: labels of severities and groups, numbers with their units.
import { NUT_POSITION } from "../src/model/board.js";
import { readingInWords } from "../src/model/characters.js";
import type { Finger } from "../src/model/fingering.js";
import type { RuleKind } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import { type Phrase, phrase, type Said } from "../src/words.js";

/** A severity in plain words, worst first. The key also names its shape and colour. */
export const SEVERITY_WORD: Readonly<Record<Severity, Phrase>> = {
  blocker: phrase("cannot be played", "无法演奏"),
  problem: phrase("a player would ask", "演奏者会追问"),
  caution: phrase("noticeable", "听得出来"),
  note: phrase("worth knowing", "值得一知"),
};

/** The same of places that are counted: "1 place a player would ask about, 22 worth knowing". */
export const SEVERITY_PLACES: Readonly<Record<Severity, Phrase>> = {
  ...SEVERITY_WORD,
  problem: phrase("a player would ask about", "演奏者会追问"),
};

/** The colon that ends a place, with nothing behind it. */
export const COLON = phrase(":", "：");

/** Severities from the worst to the mildest. */
export const WORST_FIRST: readonly Severity[] = ["blocker", "problem", "caution", "note"];

/** What a group of rules is about, in the order of the page. */
export const KINDS: readonly { readonly kind: RuleKind; readonly title: Phrase; readonly about: Phrase }[] = [
  {
    kind: "range",
    title: phrase("Range", "音域"),
    about: phrase("What lies on the strings, and what does not.", "哪些音在弦上，哪些不在。"),
  },
  {
    kind: "intonation",
    title: phrase("Intonation", "音准"),
    about: phrase("What would sound out of tune.", "哪些会听来不准。"),
  },
  {
    kind: "idiom",
    title: phrase("Idiom", "合琴"),
    about: phrase("What sounds like the guqin, and what works against it.", "哪些像琴，哪些不合琴性。"),
  },
  {
    kind: "efficiency",
    title: phrase("Efficiency", "省力"),
    about: phrase("Movements that make no sound, and how to save them.", "不出声的动作，以及怎样省去。"),
  },
  {
    kind: "character",
    title: phrase("Character", "性格"),
    about: phrase("Awkwardness that may be meant.", "也许有意为之的别扭。"),
  },
  {
    kind: "notation",
    title: phrase("Notation", "记谱"),
    about: phrase("What the score leaves open.", "乐谱没有说明的地方。"),
  },
];

/** What a player says of a place that breaks this rule, where it is not simply a matter of moves. */
const BREAKS_THE_SOUND = phrase("breaks the sound", "断音");
const ASK = phrase("ask", "请问明");
const EFFECT: Readonly<Record<string, Phrase>> = {
  "travel-under-sound": BREAKS_THE_SOUND,
  "tip-and-joint": BREAKS_THE_SOUND,
  "damped-neighbour": BREAKS_THE_SOUND,
  "fading-note": BREAKS_THE_SOUND,
  knot: ASK,
  "knot-in-song": ASK,
};

/** "needs a move", "breaks the sound" or "ask"; empty where neither word fits the rule. */
export function effectOf(rule: string, kind: RuleKind): Said {
  return EFFECT[rule] ?? (kind === "efficiency" ? phrase("needs a move", "需多动一下") : "");
}

/** How a fingering came about. */
export const SOURCE_WORDS = {
  submitted: phrase("This is the fingering that the score gives.", "这是乐谱所给的指法。"),
  completed: phrase(
    "The score gives part of the fingering; the rest was found by search.",
    "乐谱给出了一部分指法，其余由搜索补全。",
  ),
  searched: phrase(
    "The score gives no fingering; this one was found by search, as the line with the least effort.",
    "乐谱没有给指法；这份是搜索得出的最省力的指法。",
  ),
} as const;

/** How the sum of the bill came about. */
export const SUM_WORDS = {
  submitted: phrase("This is the sum for the fingering that the score gives.", "这是乐谱所给指法的总和。"),
  completed: phrase(
    "Of all fingerings that keep what the score gives, the one shown has the smallest sum.",
    "在保留乐谱所给部分的一切指法中，这一份总和最小。",
  ),
  searched: phrase("Of all fingerings, the one shown has the smallest sum.", "在一切指法中，这一份总和最小。"),
} as const;

/** Effort with its unit, to hundredths: the tables have the thousandths. @example moves(0.5) // "0.5 spare moves", "0.5空动" */
export function moves(effort: number): Phrase {
  return spareMoves(hundredths(effort), effort);
}

/** A printed effort with its unit. */
export function spareMoves(printed: string, effort: number): Phrase {
  return phrase(`${printed} spare ${effort === 1 ? "move" : "moves"}`, `${printed}空动`);
}

/** A number with at most two digits after the point. */
export function hundredths(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** A number with at most three digits after the point. */
export function number(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

/** ", chosen as the best of 637 settings"; empty where the setting was named. */
export function chosenWords({ chosenFrom }: { readonly chosenFrom: number | null }): Said {
  return chosenFrom === null
    ? ""
    : phrase(`, chosen as the best of ${count(chosenFrom, "setting")}`, `，从${chosenFrom}种设置中选出`);
}

/** "1 place", "3 places". */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** "bar 3, beat 2" at the start of a sentence. */
export function placeWords(bar: string, beat: string | null): Phrase {
  return beat === null
    ? phrase(`Bar ${bar}`, `第${bar}小节`)
    : phrase(`Bar ${bar}, beat ${beat}`, `第${bar}小节第${beat}拍`);
}

/** A finger of either hand. */
export const FINGER_WORD: Readonly<Record<Finger, Phrase>> = {
  thumb: phrase("thumb", "大指"),
  index: phrase("index", "食指"),
  middle: phrase("middle", "中指"),
  ring: phrase("ring", "名指"),
};

/** A note's reading; of a note without a place the words for that. */
export function spokenWords({ spoken }: { readonly spoken: string | null }): Said {
  return spoken === null ? phrase("no place", "无处可按") : readingInWords(spoken);
}

/** A reading in a change; of nothing the word for that. */
export function changedWords(reading: string): Said {
  return reading === "" ? phrase("nothing", "不弹") : readingInWords(reading);
}

/** A place as a table heads its row: "open", "7.6". */
export function placeName(position: number): Said {
  return position === NUT_POSITION ? phrase("open", "散") : String(position);
}
