// SPDX-License-Identifier: AGPL-3.0-or-later
// A compound stroke as it sounds: one attack after the other, or two strings at once.
import { courseOf, strokesOf } from "../model/compounds.js";
import type { FigureName, Stroke } from "../model/fingering.js";

/** One string struck in a compound stroke. */
export interface FigureAttack {
  readonly stroke: Stroke;
  readonly string: number;
  /** seconds after the first */
  readonly after: number;
}

/** Seconds from one attack to the next: by kind, how quickly the hand does it unhurried (our judgement; no source gives times). */
const PACE_SECONDS: Readonly<Record<FigureName, number>> = {
  "mo-tiao": 0.16,
  "gou-ti": 0.16,
  "mo-gou": 0.14,
  die: 0.09,
  juan: 0.045,
  "ban-lun": 0.09,
  lun: 0.085,
  "bei-suo": 0.12,
  "duan-suo": 0.13,
  "chang-suo": 0.13,
  li: 0.08,
  gun: 0.07,
  fu: 0.07,
  "gun-fu": 0.065,
  "suo-ling": 0.12,
  "ru-yi": 0.16,
  "shuang-tan": 0.2,
  "bo-la": 0.2,
  "quan-fu": 0.12,
  "da-yuan": 0.16,
};

/** One finger crosses two strings in this time, heard as one. */
const ACROSS_SECONDS = 0.014;

/** All of a figure fits into this share of its note. */
const SHARE_OF_NOTE = 0.8;

/** Figures whose every stroke takes both strings of the pair; the others take them by turns. */
const BOTH_STRINGS: ReadonlySet<FigureName> = new Set(["ru-yi", "shuang-tan", "bo-la"]);

/**
 * The attacks of a figure in order.
 *
 * @param string  where the note lies
 * @param across  the strings that it goes over in the order struck, where it names several
 * @param seconds how long the note lasts
 * @example figureAttacks("lun", 3, null, 1) // zhai 3, ti 3 after 0.085, tiao 3 after 0.17
 */
export function figureAttacks(
  figure: FigureName,
  string: number,
  across: readonly number[] | null,
  seconds: number,
): readonly FigureAttack[] {
  const rounds = roundsOf(figure, across ?? [string]);
  const pace = Math.min(PACE_SECONDS[figure], (SHARE_OF_NOTE * seconds) / Math.max(1, rounds.length));
  return rounds.flatMap(({ stroke, strings }, i) =>
    strings.map((struck, k) => ({
      stroke,
      string: struck,
      after: Math.round((i * pace + k * Math.min(ACROSS_SECONDS, pace / 2)) * 1e4) / 1e4,
    })),
  );
}

interface Round {
  readonly stroke: Stroke;
  readonly strings: readonly number[];
}

function roundsOf(figure: FigureName, struck: readonly number[]): readonly Round[] {
  const strokes = strokesOf(figure);
  const each = (strings: readonly number[], stroke: Stroke): Round[] =>
    strings.map((one) => ({ stroke, strings: [one] }));
  const course = courseOf(figure);
  switch (course) {
    case "one":
      return strokes.map((stroke) => ({ stroke, strings: struck.slice(0, 1) }));
    case "outward":
    case "inward":
      return each(struck, strokes[0]);
    case "out-and-back":
      return [...each(struck, strokes[0]), ...each([...struck].reverse(), strokes[1] ?? strokes[0])];
    case "pair":
      return pairRounds(figure, strokes, struck);
  }
}

/** Which strokes take the inner string of a pair first, or alone: those of the index and the outward ones that sweep. */
function pairRounds(figure: FigureName, strokes: readonly Stroke[], struck: readonly number[]): readonly Round[] {
  const outer = Math.min(...struck);
  const inner = Math.max(...struck);
  if (outer === inner) return strokes.map((stroke) => ({ stroke, strings: [outer] }));
  if (BOTH_STRINGS.has(figure))
    return strokes.map((stroke) => ({ stroke, strings: closing(stroke) ? [outer, inner] : [inner, outer] }));
  if (figure === "quan-fu") return strokes.map((stroke, i) => ({ stroke, strings: [i % 2 === 0 ? outer : inner] }));
  return strokes.map((stroke) => ({ stroke, strings: [closing(stroke) ? outer : inner] }));
}

const closing = (stroke: Stroke): boolean => stroke === "gou" || stroke === "mo" || stroke === "da";
