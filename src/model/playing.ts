// SPDX-License-Identifier: AGPL-3.0-or-later
// What the two hands do at one moment: the left hand's place, the right hand's stroke.
import { type Attack, attacksOf, rolls, strokesOf } from "./compounds.js";
import type { Arrival, Contact, FigureName, Finger, Pinch, Sound, Stroke } from "./fingering.js";
import { STROKE_FINGER } from "./fingering.js";

/** One note as the left hand places it on its string. */
export interface Placed {
  /** index of the note within its moment, 0 = lowest */
  readonly note: number;
  readonly sound: Sound;
  /** 1 (lowest, farthest) to 7 */
  readonly string: number;
  /** written place: hui and tenths, the harmonic's hui, null for an open string */
  readonly position: number | null;
  /** exact place in hui and tenths, 14 for an open string */
  readonly exact: number;
  /** exact place in cm from the bridge */
  readonly cm: number;
  /** semitones above the open string that the note lies */
  readonly semitones: number;
  readonly finger: Finger | null;
  readonly contact: Contact | null;
  /** cents by which this place sounds above the melody's pitch: a harmonic's purity, or a written place that is wrong */
  readonly offCents: number;
  /** true for a written place that sounds another note than the score's */
  readonly mismatch: boolean;
}

/** Why a note cannot be placed. */
export type MissingCause = "below" | "above" | "voices" | "given";

/** A note of the moment that this left hand leaves out. */
export interface Missing {
  readonly note: number;
  readonly cause: MissingCause;
  /** semitones outside the range for "below" and "above", notes at once for "voices", 1 for "given" */
  readonly amount: number;
}

/** The strings that one stroke sounds: one, or the two of a pinch. Shared objects: compare by identity. */
export interface Strings {
  readonly id: number;
  /** the lower-numbered string, farther from the player */
  readonly outer: number;
  /** the same as `outer` for a single string */
  readonly inner: number;
}

/** All {@link Strings}: ids 0 to 6 are single strings, then the pairs, last the empty one. */
const STRINGS: readonly Strings[] = (() => {
  const all: Strings[] = [];
  for (let s = 1; s <= 7; s++) all.push({ id: s - 1, outer: s, inner: s });
  for (let outer = 1; outer <= 7; outer++)
    for (let inner = outer + 1; inner <= 7; inner++) all.push({ id: all.length, outer, inner });
  all.push({ id: all.length, outer: 0, inner: 0 });
  return all;
})();

/** No string at all: the moment of a note that cannot be placed. */
export const NO_STRINGS: Strings = STRINGS[STRINGS.length - 1] as Strings;

/** The strings of one or two string numbers. */
export function stringsOf(a: number, b: number = a): Strings {
  const outer = Math.min(a, b);
  const inner = Math.max(a, b);
  return STRINGS.find((strings) => strings.outer === outer && strings.inner === inner) ?? NO_STRINGS;
}

/** The left hand at one moment. */
export interface Left {
  /** one or two placed notes, lowest string first; none where nothing can be placed */
  readonly placed: readonly Placed[];
  /** the first of `placed`, null where nothing is placed */
  readonly first: Placed | null;
  /** the second of `placed`, null for a single note */
  readonly second: Placed | null;
  readonly missing: readonly Missing[];
  readonly strings: Strings;
  readonly arrival: Arrival;
  /** notes since the last pluck that the left hand alone sounded, this one included; 0 for a pluck */
  readonly chain: number;
  /** where the thumb of a relaxed hand lies, nearest and farthest from the bridge, in cm */
  readonly handFromCm: number;
  readonly handToCm: number;
}

/** Several attacks on one note. What comes before is followed by its first attack, what comes after follows its last. */
export interface Figure {
  readonly name: FigureName;
  /** the strings that it goes over in the order struck, where it names several */
  readonly across: readonly number[] | null;
  readonly first: Right;
  readonly last: Right;
}

/** The right hand at one moment. */
export interface Right {
  /** what {@link rightAt} finds it by: below the number of {@link RIGHTS} its index there, above a figure's */
  readonly id: number;
  /** the strings of the moment's notes */
  readonly strings: Strings;
  /** the stroke; of a pinch the one on the outer string, of a figure the first; null where nothing is struck */
  readonly stroke: Stroke | null;
  /** the stroke on the inner string of a pinch, else null */
  readonly innerStroke: Stroke | null;
  readonly pinch: Pinch | null;
  /** null for a single stroke or pinch, and for the attacks of a figure */
  readonly figure: Figure | null;
  /** a figure that is as quick as the hand, or an attack of one */
  readonly rolled: boolean;
  /** the string on which the middle finger waits meanwhile, 0 for none */
  readonly planted: number;
}

const PINCH_STROKES: Readonly<Record<Pinch, readonly [Stroke, Stroke]>> = {
  "small-cuo": ["gou", "tiao"],
  "large-cuo": ["gou", "tuo"],
  "reverse-cuo": ["ti", "bo"],
  "yuan-lou": ["gou", "mo"],
};

/** Strings between which each pinch reaches: index and middle finger 1 to 4 apart, thumb and middle 4 to 6. */
const PINCH_REACH: Readonly<Record<Pinch, readonly [number, number]>> = {
  "small-cuo": [1, 4],
  "large-cuo": [4, 6],
  "reverse-cuo": [4, 6],
  "yuan-lou": [1, 4],
};

function rightsOn(strings: Strings): Omit<Right, "id">[] {
  if (strings === NO_STRINGS)
    return [{ strings, stroke: null, innerStroke: null, pinch: null, figure: null, rolled: false, planted: 0 }];
  const apart = strings.inner - strings.outer;
  if (apart > 0)
    return (Object.keys(PINCH_STROKES) as Pinch[])
      .filter((pinch) => apart >= PINCH_REACH[pinch][0] && apart <= PINCH_REACH[pinch][1])
      .map((pinch) => {
        const [stroke, innerStroke] = PINCH_STROKES[pinch];
        return { strings, stroke, innerStroke, pinch, figure: null, rolled: false, planted: 0 };
      });
  return (Object.keys(STROKE_FINGER) as Stroke[]).flatMap((stroke) => {
    const waits = STROKE_FINGER[stroke] === "index" ? waitingOutside(strings.outer) : [];
    return [0, ...waits].map((planted) => single(strings, stroke, planted));
  });
}

/** The strings on which the middle finger may wait while the index strikes this one. */
const waitingOutside = (string: number): number[] => [1, 2, 3, 4].map((d) => string - d).filter((s) => s >= 1);

const single = (strings: Strings, stroke: Stroke, planted: number): Omit<Right, "id"> => ({
  strings,
  stroke,
  innerStroke: null,
  pinch: null,
  figure: null,
  rolled: false,
  planted,
});

/**
 * Every right hand there is: the eight strokes on each string (with the middle finger waiting 1 to 4 strings outside
 * an index stroke, or not), the pinches on each pair within reach, and none. Grouped by strings, in fixed order.
 */
export const RIGHTS: readonly Right[] = STRINGS.flatMap(rightsOn).map((right, id) => ({ ...right, id }));

/** For each id of {@link STRINGS} the first id of its rights in {@link RIGHTS} and, at the end, their number. */
export const RIGHTS_FROM: Int32Array = (() => {
  const from = new Int32Array(STRINGS.length + 1);
  for (const right of RIGHTS) from[right.strings.id + 1] = right.id + 1;
  for (let i = 1; i <= STRINGS.length; i++) if (from[i] === 0) from[i] = from[i - 1] as number;
  return from;
})();

/** Figures, made once each and only where a score gives them. */
const figures: Right[] = [];
const figuresByName = new Map<string, readonly Right[]>();

/**
 * The right hands that play a compound stroke: on each string, or on each of those that it goes over, with the middle
 * finger waiting outside of all of them where the index plays alone. Equal figures are the same objects.
 */
export function figureRights(name: FigureName, across: readonly number[] | null): readonly Right[] {
  const key = `${name} ${across?.join(" ") ?? ""}`;
  const known = figuresByName.get(key);
  if (known !== undefined) return known;
  const byIndex = strokesOf(name).every((stroke) => STROKE_FINGER[stroke] === "index");
  const rights = (across ?? [1, 2, 3, 4, 5, 6, 7]).flatMap((string) => {
    const struck = across ?? [string];
    const waits = byIndex ? waitingOutside(Math.min(...struck)) : [];
    return [0, ...waits].map((planted) => figureRight(name, string, struck, planted, across));
  });
  figuresByName.set(key, rights);
  return rights;
}

function figureRight(
  name: FigureName,
  string: number,
  struck: readonly number[],
  planted: number,
  across: readonly number[] | null,
): Right {
  const id = RIGHTS.length + figures.length;
  const { first, last } = attacksOf(name, struck);
  const attacked = ({ stroke, string: on }: Attack): Right => ({
    ...single(stringsOf(on), stroke, planted),
    rolled: rolls(name),
    id,
  });
  const figure = { name, across, first: attacked(first), last: attacked(last) };
  const right = { ...attacked({ stroke: first.stroke, string }), figure };
  figures.push(right);
  return right;
}

/** The right hand as a stroke before it sees it: a figure by its first attack. */
export function entering(right: Right): Right {
  return right.figure?.first ?? right;
}

/** The right hand as a stroke after it sees it: a figure by its last attack. */
export function leaving(right: Right): Right {
  return right.figure?.last ?? right;
}

/** A right hand by its id. */
export function rightAt(id: number): Right {
  return (id < RIGHTS.length ? RIGHTS[id] : figures[id - RIGHTS.length]) as Right;
}

/** How many right hands there are so far, figures included. */
export function countOfRights(): number {
  return RIGHTS.length + figures.length;
}

/** The time between two moments, as the left hand sees it. */
export interface HandGap {
  /** since the onset before */
  readonly seconds: number;
  /** a silence of a beat or more lies between: both hands are free */
  readonly rested: boolean;
  /** some silence lies between */
  readonly silent: boolean;
  /** the score asks for a slide into this note */
  readonly asked: boolean;
  /** the note before is a grace note: what leads away from it is an ornament */
  readonly ornament: boolean;
  /** since the pluck on which this note's chain hangs; equals `seconds` for a plucked note */
  readonly sincePluckSeconds: number;
}

/** The time between two plucks, as the right hand sees it. */
export interface StrokeGap {
  /** since the pluck before */
  readonly seconds: number;
  readonly rested: boolean;
  /** the note before is a grace note */
  readonly ornament: boolean;
  /** the note before must go on sounding by the score (tie, let-ring, second voice) */
  readonly ringsOn: boolean;
}
