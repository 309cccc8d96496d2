// SPDX-License-Identifier: AGPL-3.0-or-later
// Tuning by comparison: which stop or harmonic of one string should sound like another string, and by how much it does
// not. Printed instructions mix pure and Pythagorean thirds, a comma apart, so the differences are no faults.

import { type Phrase, phrase } from "../words.js";
import { centsAt, harmonicCents, NUT_POSITION } from "./board.js";
import { centsOf, type Temperament } from "./temperament.js";
import type { Tuning } from "./tuning.js";

/** Who compares the two places: `lesson`, `1855` and `retuning` are published (see {@link COMPARISON_SOURCES}). */
export type ComparedBy = "lesson" | "1855" | "retuning" | "computed";

/** Where comparisons are from. */
export const COMPARISON_SOURCES: Readonly<Record<ComparedBy, Phrase>> = {
  lesson: phrase(
    "a tuning lesson, yinyue.81art.com/fudao/guqin/9486.html",
    "一篇调弦课文，yinyue.81art.com/fudao/guqin/9486.html",
  ),
  "1855": phrase(
    "Zhu Fengjie, Yuguzhai qinpu (1855), sections v316 and v326",
    "祝凤喈《与古斋琴谱》（1855），v316、v326两节",
  ),
  retuning: phrase(
    "J. Thompson, silkqin.com, on the retunings of the 1425 and 1525 handbooks",
    "J. Thompson，silkqin.com，论1425年与1525年琴谱的各种定弦",
  ),
  computed: phrase("computed", "推算"),
};

/** An open string and the stop of another that sounds the same, or an octave away. */
export interface StopComparison {
  readonly open: number;
  readonly string: number;
  /** written place of the stop; 14 where the other string is open, too */
  readonly position: number;
  readonly by: ComparedBy;
}

/** A harmonic of one string and one of another. */
export interface HarmonicComparison {
  readonly string: number;
  readonly hui: number;
  readonly otherString: number;
  readonly otherHui: number;
  readonly by: ComparedBy;
}

const stop = ([open, string, position, by]: readonly [number, number, number, ComparedBy]): StopComparison => ({
  open,
  string,
  position,
  by,
});

/** Comparisons in the standard tuning: the open string, and the stop that should sound like it. */
export const STOP_COMPARISONS: readonly StopComparison[] = (
  [
    [7, 4, 9, "lesson"],
    [6, 4, 10, "lesson"],
    [5, 3, 10.8, "lesson"],
    [5, 3, 11, "computed"],
    [4, 2, 10, "lesson"],
    [3, 1, 10, "lesson"],
    [7, 2, 7, "lesson"],
    [6, 1, 7, "lesson"],
    [7, 5, 10, "1855"],
    [6, 5, 12, "1855"],
    [5, 1, 8, "1855"],
    [5, 7, 9, "lesson"],
    [3, 6, 10, "lesson"],
    [2, 5, 10, "lesson"],
    [6, 3, 9, "computed"],
    [5, 2, 9, "computed"],
    [4, 1, 9, "computed"],
    [7, 3, 7.9, "computed"],
    [6, 5, 12.2, "computed"],
    [5, 1, 7.9, "computed"],
    [6, 2, 7.6, "computed"],
    [7, 6, 13.1, "computed"],
    [5, 4, 13.1, "computed"],
    [4, 3, 13.1, "computed"],
    [2, 1, 13.1, "computed"],
  ] as const
).map(stop);

/** Comparisons of harmonics in the standard tuning. */
export const HARMONIC_COMPARISONS: readonly HarmonicComparison[] = (
  [
    [7, 7, 4, 9, "lesson"],
    [4, 10, 6, 9, "lesson"],
    [6, 7, 3, 9, "lesson"],
    [3, 11, 5, 10, "lesson"],
    [5, 7, 2, 9, "lesson"],
    [4, 7, 1, 9, "lesson"],
    [7, 9, 5, 10, "computed"],
    [4, 10, 1, 12, "computed"],
    [7, 10, 4, 12, "computed"],
    [6, 10, 3, 12, "computed"],
    [1, 10, 6, 7, "computed"],
    [2, 10, 7, 7, "computed"],
  ] as const
).map(([string, hui, otherString, otherHui, by]) => ({ string, hui, otherString, otherHui, by }));

/** What old handbooks compare after a retuning, by the tuning's name. */
export const RETUNING_COMPARISONS: Readonly<Record<string, readonly StopComparison[]>> = {
  ruibin: [stop([7, 5, 11, "retuning"])],
  qiliang: [stop([7, 5, 11, "retuning"]), stop([4, 2, 11, "retuning"])],
  qingshang: [stop([4, 2, 11, "retuning"]), stop([7, 5, 10, "retuning"]), stop([7, 4, 8.5, "retuning"])],
};

/** A difference between two places: whole octaves that are meant, and the cents that are left. */
export interface Difference {
  readonly octaves: number;
  readonly cents: number;
}

function openCents({ semitones, gong }: Tuning, string: number, temperament: Temperament): number {
  return centsOf(semitones[string - 1] as number, gong, temperament);
}

function apart(cents: number): Difference {
  // Adding 0 turns -0 into 0, which JSON and tests tell apart.
  const octaves = Math.round(cents / 1200) + 0;
  return { octaves, cents: cents - 1200 * octaves };
}

/** By how much a stop sounds above the open string, with the open strings tuned in a temperament on the tuning's gong. */
export function stopAgainstOpen(
  tuning: Tuning,
  { open, string, position }: StopComparison,
  temperament: Temperament,
): Difference {
  const stopped = openCents(tuning, string, temperament) + (position === NUT_POSITION ? 0 : centsAt(position));
  return apart(stopped - openCents(tuning, open, temperament));
}

/** By how much the first harmonic of a comparison sounds above the second. */
export function harmonicAgainstHarmonic(
  tuning: Tuning,
  { string, hui, otherString, otherHui }: HarmonicComparison,
  temperament: Temperament,
): Difference {
  const one = openCents(tuning, string, temperament) + harmonicCents(hui);
  return apart(one - openCents(tuning, otherString, temperament) - harmonicCents(otherHui));
}

/** Places that are pure in every reading: the open string itself, fourth, fifth and octave. */
const PURE_PLACES = [NUT_POSITION, 10, 9, 7] as const;

/**
 * Every open string that a farther string sounds open or at hui 10, 9 or 7: by these a tuning can be set pure. The
 * nearest string first.
 */
export function pureComparisons({ semitones }: Tuning): readonly StopComparison[] {
  return [7, 6, 5, 4, 3, 2].flatMap((open) =>
    PURE_PLACES.flatMap((position) =>
      semitones.slice(0, open - 1).flatMap((low, at): readonly StopComparison[] => {
        const above = position === NUT_POSITION ? 0 : Math.round(centsAt(position) / 100);
        const fits = (semitones[open - 1] as number) - low === above;
        return fits ? [{ open, string: at + 1, position, by: "computed" }] : [];
      }),
    ),
  );
}
