// SPDX-License-Identifier: AGPL-3.0-or-later
// How a player gets from the standard tuning to another, and by which sounds it is checked.
import { pureComparisons, RETUNING_COMPARISONS, type StopComparison } from "./string-comparison.js";
import { STANDARD, type Tuning } from "./tuning.js";

/** One string that is tuned otherwise. */
export interface Retuned {
  readonly string: number;
  /** open pitches, scientific */
  readonly from: string;
  readonly to: string;
  readonly semitones: number;
}

/** The strings that differ from the standard tuning, string 1 first. */
export function retunedStrings(tuning: Tuning): readonly Retuned[] {
  return tuning.semitones.flatMap((semitone, i) => {
    const semitones = semitone - (STANDARD.semitones[i] as number);
    if (semitones === 0) return [];
    return [{ string: i + 1, from: STANDARD.strings[i] as string, to: tuning.strings[i] as string, semitones }];
  });
}

/**
 * For each retuned string one comparison with a string that is in tune by then: one that a handbook gives for this tuning,
 * else the first that is pure in every reading. A string that no such comparison reaches has none.
 */
export function checksByEar(tuning: Tuning): readonly StopComparison[] {
  const known = [...(RETUNING_COMPARISONS[tuning.name] ?? []), ...pureComparisons(tuning)];
  const waiting = new Set(retunedStrings(tuning).map(({ string }) => string));
  const checks: StopComparison[] = [];
  for (;;) {
    const next = known.find(({ open, string }) => waiting.has(open) !== waiting.has(string));
    if (next === undefined) return checks;
    waiting.delete(next.open);
    waiting.delete(next.string);
    checks.push(next);
  }
}
