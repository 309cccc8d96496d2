// SPDX-License-Identifier: AGPL-3.0-or-later
// What sets one fingering of a line apart from another, as players would say it.
import type { Left, Placed } from "../model/playing.js";
import type { Played } from "../search/charges.js";
import { type Phrase, phrase } from "../words.js";

/** A number of a line that players think in. */
interface Trait {
  readonly measure: (line: Played) => number;
  /** a difference smaller than this is not worth naming */
  readonly least: number;
  readonly more: (here: string, there: string) => Phrase;
  readonly less: (here: string, there: string) => Phrase;
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

/** A count that is more or less than in the first way. @param what the things in English and in Chinese, with their measure word */
const counted = (
  measure: Trait["measure"],
  least: number,
  what: string,
  inChinese: string,
  measureWord: string,
): Trait => ({
  measure,
  least,
  more: (here, there) =>
    phrase(
      `more ${what} (${here} against ${there})`,
      `${inChinese}较多（${here}${measureWord}，第一种${there}${measureWord}）`,
    ),
  less: (here, there) =>
    phrase(
      `fewer ${what} (${here} against ${there})`,
      `${inChinese}较少（${here}${measureWord}，第一种${there}${measureWord}）`,
    ),
});

const TRAITS: readonly Trait[] = [
  counted((line) => countOf(line, "open"), 3, "open strings", "散音", "个"),
  counted(shifts, 2, "shifts of the hand", "换把", "次"),
  {
    measure: (line) =>
      mean(placedIn(line).flatMap((one) => (one.sound === "stopped" && one.position !== null ? [one.position] : []))),
    least: 0.4,
    more: (here, there) =>
      phrase(
        `stopped lower on the board, towards the nut (hui ${here} on average against ${there})`,
        `按音更靠龙龈（平均在${here}徽，第一种${there}徽）`,
      ),
    less: (here, there) =>
      phrase(
        `stopped higher on the board, towards the bridge (hui ${here} on average against ${there})`,
        `按音更靠岳山（平均在${here}徽，第一种${there}徽）`,
      ),
  },
  {
    measure: (line) => mean(placedIn(line).map((one) => one.string)),
    least: 0.4,
    more: (here, there) =>
      phrase(
        `on thinner strings (string ${here} on average against ${there})`,
        `偏用细弦（弦序平均${here}，第一种${there}）`,
      ),
    less: (here, there) =>
      phrase(
        `on thicker strings (string ${here} on average against ${there})`,
        `偏用粗弦（弦序平均${here}，第一种${there}）`,
      ),
  },
  counted(colours, 3, "changes between open, stopped and harmonic sound", "散音、按音、泛音之间的转换", "次"),
  counted((line) => countOf(line, "harmonic"), 2, "harmonics", "泛音", "个"),
  counted(
    ({ lefts }) => lefts.filter((left) => left.chain > 0).length,
    2,
    "notes without a pluck",
    "左手出声的音",
    "个",
  ),
];

/** What sets a line apart from the first, the plainest difference first; empty where it lies elsewhere and no more. */
export function traitsOf(first: Played, line: Played): readonly Phrase[] {
  const measured = TRAITS.map((trait) => ({ trait, there: trait.measure(first), here: trait.measure(line) }))
    .map((one) => ({ ...one, weight: Math.abs(one.here - one.there) / one.trait.least }))
    .sort((a, b) => b.weight - a.weight);
  const plain = measured.filter(({ weight }) => weight >= 1).slice(0, NAMED);
  const named = plain.length > 0 ? plain : measured.slice(0, 1).filter(({ weight }) => weight >= SLIGHT);
  return named.map(({ trait, here, there }) => (here > there ? trait.more : trait.less)(short(here), short(there)));
}

const short = (value: number): string => String(Math.round(value * 10) / 10);
