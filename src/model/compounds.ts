// SPDX-License-Identifier: AGPL-3.0-or-later
// The compound strokes: several attacks of the right hand under one name. Attacks and strings follow the right-hand term
// list at yueqixuexi.com; lun, and the directions of gun and fu, also the list of 75 terms at silkqin.com; gun-fu, suo-ling's
// place among the sweeps and what the middle finger stands for are common practice or our judgement.
import { FIGURES, type FigureName, type GivenCompound, type Stroke } from "./fingering.js";

/** Over which strings a figure goes: one; several neighbours outward, inward, or out and back; or a pair. */
export type Course = "one" | "outward" | "inward" | "out-and-back" | "pair";

/** What a figure consists of. */
interface Making {
  readonly course: Course;
  /** the attacks in order; of a sweep one for each way over the strings */
  readonly strokes: readonly [Stroke, ...Stroke[]];
  /** of a pair the string that the first and the last attack take first */
  readonly enters?: "outer" | "inner";
  /** of a pair the string that sounds last */
  readonly leaves?: "outer" | "inner";
}

const MAKINGS: Readonly<Record<FigureName, Making>> = {
  "mo-tiao": { course: "one", strokes: ["mo", "tiao"] },
  "gou-ti": { course: "one", strokes: ["gou", "ti"] },
  "mo-gou": { course: "one", strokes: ["mo", "gou"] },
  die: { course: "one", strokes: ["mo", "gou"] },
  juan: { course: "one", strokes: ["mo", "gou"] },
  "ban-lun": { course: "one", strokes: ["ti", "tiao"] },
  lun: { course: "one", strokes: ["zhai", "ti", "tiao"] },
  "bei-suo": { course: "one", strokes: ["ti", "mo", "tiao"] },
  "duan-suo": { course: "one", strokes: ["mo", "gou", "ti", "mo", "tiao"] },
  // Seven attacks here; other lists count nine. The first and the last are the same in both.
  "chang-suo": { course: "one", strokes: ["mo", "tiao", "mo", "gou", "ti", "mo", "tiao"] },
  li: { course: "outward", strokes: ["tiao"] },
  gun: { course: "outward", strokes: ["zhai"] },
  fu: { course: "inward", strokes: ["mo"] },
  "gun-fu": { course: "out-and-back", strokes: ["zhai", "mo"] },
  "suo-ling": { course: "outward", strokes: ["tiao"] },
  "ru-yi": { course: "pair", strokes: ["ti"], enters: "inner", leaves: "outer" },
  "shuang-tan": { course: "pair", strokes: ["ti", "tiao"], enters: "inner", leaves: "outer" },
  // Index, middle and ring finger in a bunch, inward and outward: the middle finger stands for all three (our judgement).
  "bo-la": { course: "pair", strokes: ["gou", "ti"], enters: "outer", leaves: "outer" },
  // Two strings with mo, then both with gou; inward strokes take the outer string first (our judgement).
  "quan-fu": { course: "pair", strokes: ["mo", "mo", "gou", "gou"], enters: "outer", leaves: "inner" },
  "da-yuan": {
    course: "pair",
    strokes: ["tiao", "gou", "tiao", "gou", "tiao", "gou", "tiao"],
    enters: "inner",
    leaves: "inner",
  },
};

/** Over which strings a figure goes. */
export function courseOf(figure: FigureName): Course {
  return MAKINGS[figure].course;
}

/** Whether a compound belongs to a single note, not to two at once. */
export function isFigure(compound: GivenCompound | null): compound is FigureName {
  return FIGURES.some((figure) => figure === compound);
}

/** One attack: a stroke on a string. */
export interface Attack {
  readonly stroke: Stroke;
  readonly string: number;
}

/** The attacks of a figure in order; of a sweep one for each way over the strings. */
export function strokesOf(figure: FigureName): readonly [Stroke, ...Stroke[]] {
  return MAKINGS[figure].strokes;
}

/**
 * The first and the last attack of a figure, between which the hand is on its own.
 *
 * @param strings the strings in the order in which they are struck; of a pair in any order; one alone where the score
 *                names no other
 * @example attacksOf("lun", [3]) // { first: zhai 3, last: tiao 3 }
 * @example attacksOf("li", [7, 6, 5]) // { first: tiao 7, last: tiao 5 }
 */
export function attacksOf(figure: FigureName, strings: readonly number[]): { first: Attack; last: Attack } {
  const making = MAKINGS[figure];
  const { strokes, course } = making;
  const start = strings[0] as number;
  const end = strings.at(-1) as number;
  const side = (which: Making["enters"]): number => (which === "inner" ? Math.max(start, end) : Math.min(start, end));
  const first = course === "pair" ? side(making.enters) : start;
  const last = course === "pair" ? side(making.leaves) : course === "out-and-back" ? start : end;
  return { first: { stroke: strokes[0], string: first }, last: { stroke: strokes.at(-1) as Stroke, string: last } };
}

/** Figures in which several fingers roll over one string, or one sweeps over several: as quick as the hand. */
const ROLLS: ReadonlySet<FigureName> = new Set(["ban-lun", "lun", "li", "gun", "fu", "gun-fu", "suo-ling"]);

/** Whether a figure is as quick as the hand, so that no pace is too fast for it. */
export function rolls(figure: FigureName): boolean {
  return ROLLS.has(figure);
}
