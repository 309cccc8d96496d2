// SPDX-License-Identifier: AGPL-3.0-or-later
// What sets one fingering of a line apart from another, as players would say it.
import type { Left, Placed } from "../model/playing.js";
import type { Played } from "../search/charges.js";

/** A number of a line that players think in. */
interface Trait {
  readonly measure: (line: Played) => number;
  /** a difference smaller than this is not worth naming */
  readonly least: number;
  readonly more: (here: string, there: string) => string;
  readonly less: (here: string, there: string) => string;
}

/** The hand has moved when its thumb lies this much farther on, in cm. */
const SHIFT_CM = 2;
/** So many traits are named. */
const NAMED = 2;
/** Where none is worth naming by itself, the plainest is named from this share of its least difference on. */
const SLIGHT = 0.5;

const placedIn = ({ lefts }: Played): readonly Placed[] => lefts.flatMap((left) => left.placed);
const countOf = (line: Played, sound: Placed["sound"]): number =>
  placedIn(line).filter((placed) => placed.sound === sound).length;
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

function shifts({ lefts }: Played): number {
  return lefts.filter((left, at) => at > 0 && apartCm(lefts[at - 1] as Left, left) > SHIFT_CM).length;
}

/** How far a hand must travel, in cm: nothing where it may lie at the same place both times. */
function apartCm(a: Left, b: Left): number {
  return Math.max(0, a.handFromCm - b.handToCm, b.handFromCm - a.handToCm);
}

function colours({ lefts }: Played): number {
  const sounds = lefts.flatMap((left) => left.first?.sound ?? []);
  return sounds.filter((sound, at) => at > 0 && sound !== sounds[at - 1]).length;
}

const TRAITS: readonly Trait[] = [
  {
    measure: (line) => countOf(line, "open"),
    least: 3,
    more: (here, there) => `more open strings (${here} against ${there})`,
    less: (here, there) => `fewer open strings (${here} against ${there})`,
  },
  {
    measure: shifts,
    least: 2,
    more: (here, there) => `more shifts of the hand (${here} against ${there})`,
    less: (here, there) => `fewer shifts of the hand (${here} against ${there})`,
  },
  {
    measure: (line) =>
      mean(placedIn(line).flatMap((one) => (one.sound === "stopped" && one.position !== null ? [one.position] : []))),
    least: 0.4,
    more: (here, there) => `stopped lower on the board, towards the nut (hui ${here} on average against ${there})`,
    less: (here, there) => `stopped higher on the board, towards the bridge (hui ${here} on average against ${there})`,
  },
  {
    measure: (line) => mean(placedIn(line).map((one) => one.string)),
    least: 0.4,
    more: (here, there) => `on thinner strings (string ${here} on average against ${there})`,
    less: (here, there) => `on thicker strings (string ${here} on average against ${there})`,
  },
  {
    measure: colours,
    least: 3,
    more: (here, there) => `more changes between open, stopped and harmonic sound (${here} against ${there})`,
    less: (here, there) => `fewer changes between open, stopped and harmonic sound (${here} against ${there})`,
  },
  {
    measure: (line) => countOf(line, "harmonic"),
    least: 2,
    more: (here, there) => `more harmonics (${here} against ${there})`,
    less: (here, there) => `fewer harmonics (${here} against ${there})`,
  },
  {
    measure: ({ lefts }) => lefts.filter((left) => left.chain > 0).length,
    least: 2,
    more: (here, there) => `more notes without a pluck (${here} against ${there})`,
    less: (here, there) => `fewer notes without a pluck (${here} against ${there})`,
  },
];

/** What sets a line apart from the first, the plainest difference first; empty where it lies elsewhere and no more. */
export function traitsOf(first: Played, line: Played): readonly string[] {
  const measured = TRAITS.map((trait) => ({ trait, there: trait.measure(first), here: trait.measure(line) }))
    .map((one) => ({ ...one, weight: Math.abs(one.here - one.there) / one.trait.least }))
    .sort((a, b) => b.weight - a.weight);
  const plain = measured.filter(({ weight }) => weight >= 1).slice(0, NAMED);
  const named = plain.length > 0 ? plain : measured.slice(0, 1).filter(({ weight }) => weight >= SLIGHT);
  return named.map(({ trait, here, there }) => (here > there ? trait.more : trait.less)(short(here), short(there)));
}

const short = (value: number): string => String(Math.round(value * 10) / 10);
