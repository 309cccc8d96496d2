// SPDX-License-Identifier: AGPL-3.0-or-later
// Words that the page and the terminal share when settings are ranked.

import type { StopComparison } from "../src/model/string-comparison.js";
import type { FitEntry } from "../src/report/fit.js";
import { count, moves } from "./words.js";

/** The command that checks a melody again, but for its setting. */
export interface Again {
  readonly score: string;
  /** options that the ranking was called with and that bear on the fingering, as they are typed */
  readonly options: readonly string[];
}

/** The call that gives the fingering of a setting, word by word. */
export function commandWords({ json }: FitEntry, { score, options }: Again): readonly string[] {
  const setting = ["--tuning", json.tuning, "--transpose", String(json.transpose)];
  return ["huipath", "check", score, ...setting, ...options].map(quoted);
}

const quoted = (word: string): string => (/^[\w./,:+=#-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`);

/** What a setting costs: "25.74 spare moves", what cannot be played before it. */
export function totalWords({ json: { total } }: FitEntry): string {
  return total.blocked === 0
    ? moves(total.effort)
    : `${count(total.blocked, "place")} unplayable, ${moves(total.effort)}`;
}

/** How a comparison by ear goes: "open 5 sounds like string 2 at 8.5". */
export function checkWords({ open, string, position }: StopComparison): string {
  if (position === 14) return `string ${open} open sounds like string ${string} open`;
  return `string ${open} open sounds like string ${string} stopped at ${position}`;
}
