// SPDX-License-Identifier: AGPL-3.0-or-later
// Two fingerings of a fixture side by side, for tests of the page and the terminal.

import { assembleComparison, type Comparison, type Side } from "../../src/report/compare.js";
import { PLAIN_WEIGHTING } from "../../src/rule/weighting.js";
import { chargesOf, type Played } from "../../src/search/charges.js";
import { type InLanguage, inLanguage } from "../../src/words.js";
import { readMelody } from "../support/melodies.js";
import { play, settingOf } from "../support/playing.js";
import { strayLine } from "../support/stray.js";

/** Long enough for more places than stand open. */
const MELODY = "four-walks-round-the-pond";

/** A stray fingering of a melody against its best one: more places than stand open, in more than one bar. */
export function sampleComparison(): InLanguage<Comparison> {
  const setting = settingOf();
  const score = readMelody(MELODY);
  const best = play(score, setting);
  const { rules } = best;
  const stray = strayLine(MELODY, setting, { salt: 1, most: 400, every: 5 });
  const side = (file: string, played: Played): Side => ({
    file,
    score,
    setting,
    brief: null,
    billed: { played, charges: chargesOf(played, rules, PLAIN_WEIGHTING) },
  });
  const sides = [side("stray.musicxml", stray), side("best.musicxml", best.played)] as const;
  return inLanguage(assembleComparison(...sides, rules, "0.0.0"), "en");
}
