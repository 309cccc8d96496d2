// SPDX-License-Identifier: AGPL-3.0-or-later
// What a fingering exercises: strokes and places by string, strokes in pairs, signs, and what never comes.
import { NUT_POSITION } from "../../model/board.js";
import { STROKES, type Stroke } from "../../model/fingering.js";
import type { Left, Placed, Right } from "../../model/playing.js";
import { SIGNS, type Sign } from "../../model/sign.js";
import type { Played } from "../../search/charges.js";
import { strokeOn } from "../check.js";

/** How often something comes on each string, string 1 first. */
export type ByString = readonly number[];

/** What a fingering exercises. */
export interface Practice {
  /** all eight strokes, those that never come as well */
  readonly strokes: readonly { readonly stroke: Stroke; readonly uses: ByString }[];
  /** places from the nut to the bridge; 14 for the open string */
  readonly places: readonly { readonly position: number; readonly uses: ByString }[];
  readonly harmonics: readonly { readonly hui: number; readonly uses: ByString }[];
  /** one stroke followed by another, the most frequent first */
  readonly pairs: readonly { readonly from: Stroke; readonly to: Stroke; readonly uses: number }[];
  readonly signs: readonly { readonly sign: Sign; readonly uses: number }[];
}

const STRINGS = [1, 2, 3, 4, 5, 6, 7] as const;

/** Counts what a line exercises. */
export function practiceOf(played: Played): Practice {
  const notes = played.moments.flatMap((_, at) => soundsAt(played, at));
  const byString = (matches: (note: SoundingNote) => boolean): ByString =>
    STRINGS.map((string) => notes.filter((note) => note.placed.string === string && matches(note)).length);
  const placesOf = (sounds: readonly Placed["sound"][]): readonly number[] =>
    [...new Set(notes.filter(({ placed }) => sounds.includes(placed.sound)).map(({ placed }) => placeOf(placed)))].sort(
      (a, b) => b - a,
    );
  return {
    strokes: STROKES.map((stroke) => ({ stroke, uses: byString((note) => note.stroke === stroke) })),
    places: placesOf(["open", "stopped"]).map((position) => ({
      position,
      uses: byString(({ placed }) => placed.sound !== "harmonic" && placeOf(placed) === position),
    })),
    harmonics: placesOf(["harmonic"]).map((hui) => ({
      hui,
      uses: byString(({ placed }) => placed.sound === "harmonic" && placeOf(placed) === hui),
    })),
    pairs: pairsIn(played),
    signs: SIGNS.map((sign) => ({ sign, uses: notes.filter((note) => note.signs.includes(sign)).length })),
  };
}

/** The written place; 14 for the open string. */
export function placeOf({ position }: Placed): number {
  return position ?? NUT_POSITION;
}

/** One sounding note with what both hands do for it. */
export interface SoundingNote {
  readonly placed: Placed;
  /** the first stroke of a compound; null without a pluck */
  readonly stroke: Stroke | null;
  readonly signs: readonly Sign[];
}

/** The notes of a moment. */
export function soundsAt(played: Played, at: number): readonly SoundingNote[] {
  const left = played.lefts[at] as Left;
  const right = played.rights[at] as Right;
  const before = played.lefts[at - 1]?.first ?? null;
  return left.placed.map((placed) => {
    const stroke = left.chain > 0 ? null : strokeOn(right, placed);
    return { placed, stroke, signs: [...(stroke === null ? [] : [stroke]), ...leftSigns(placed, left, before)] };
  });
}

function leftSigns(placed: Placed, { arrival }: Left, before: Placed | null): readonly Sign[] {
  const { sound, finger, contact } = placed;
  const held: readonly Sign[] =
    sound === "stopped"
      ? [...(finger === null ? [] : [finger]), ...(contact === "joint" || contact === "kneeling" ? [contact] : [])]
      : [sound];
  switch (arrival) {
    case "slid":
      return [...held, before !== null && placed.cm < before.cm ? "shang" : "xia"];
    case "pulled-off":
      return [...held, "pull-off"];
    case "hammered":
      return [...held, "yan"];
    case "plucked":
      return held;
  }
}

/** Strokes that follow each other; of a compound the last attack comes before, the first after. */
function pairsIn(played: Played): Practice["pairs"] {
  const counts = new Map<string, number>();
  let last: Stroke | null = null;
  for (const [at, right] of played.rights.entries()) {
    if ((played.lefts[at] as Left).chain > 0 || right.stroke === null) continue;
    if (last !== null) counts.set(`${last} ${right.stroke}`, (counts.get(`${last} ${right.stroke}`) ?? 0) + 1);
    last = right.figure?.last.stroke ?? right.stroke;
  }
  return [...counts]
    .map(([key, uses]) => {
      const [from, to] = key.split(" ") as [Stroke, Stroke];
      return { from, to, uses };
    })
    .sort((a, b) => b.uses - a.uses || STROKES.indexOf(a.from) - STROKES.indexOf(b.from));
}
