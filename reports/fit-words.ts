// SPDX-License-Identifier: AGPL-3.0-or-later
// Words that the page and the terminal share when settings are ranked.

import { NUT_POSITION } from "../src/model/board.js";
import { placeInCharacters, stringInCharacters } from "../src/model/characters.js";
import type { StopComparison } from "../src/model/string-comparison.js";
import type { FitEntry } from "../src/report/fit.js";
import { type Phrase, phrase } from "../src/words.js";
import { shellWord } from "./shell-word.js";
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
  return ["huipath", "check", score, ...setting, ...options].map(shellWord);
}

/** What a setting costs: "25.74 spare moves", what cannot be played before it. */
export function totalWords({ json: { total } }: FitEntry): Phrase {
  const own = moves(total.effort);
  return total.blocked === 0
    ? own
    : phrase(`${count(total.blocked, "place")} unplayable, ${own.en}`, `${total.blocked}处不能弹，${own.zh}`);
}

/** How a comparison by ear goes: "open 5 sounds like string 2 at 8.5". */
export function checkWords({ open, string, position }: StopComparison): Phrase {
  const [own, other] = [stringInCharacters(open), stringInCharacters(string)];
  if (position === NUT_POSITION)
    return phrase(`string ${open} open sounds like string ${string} open`, `${own}散音与${other}散音同音`);
  return phrase(
    `string ${open} open sounds like string ${string} stopped at ${position}`,
    `${own}散音与${other}${placeInCharacters(position)}同音`,
  );
}
