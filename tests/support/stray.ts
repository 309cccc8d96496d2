// SPDX-License-Identifier: AGPL-3.0-or-later
// Fingerings that nobody would choose, for comparison with chosen ones.
import { choicesOf } from "../../src/candidates/candidates.js";
import { momentsOf } from "../../src/model/moments.js";
import type { Left, Right } from "../../src/model/playing.js";
import type { Setting } from "../../src/model/setting.js";
import type { Played } from "../../src/search/charges.js";
import { search } from "../../src/search/solve.js";
import { readMelody } from "./melodies.js";
import { bookFor } from "./playing.js";
import { scatter } from "./small-lines.js";

/** Where and how far a line goes astray. */
export interface Straying {
  readonly salt: number;
  /** what a hand may cost more, in thousandths */
  readonly most: number;
  /** at every so many moments */
  readonly every: number;
}

/** A line that follows other tastes: at some notes each hand and stroke costs more, at random. */
export function strayLine(name: string, setting: Setting, { salt, most, every }: Straying): Played {
  const rules = bookFor(setting);
  const moments = momentsOf(readMelody(name), setting);
  const tolls = moments.map((_, at) =>
    at % every > 0
      ? null
      : {
          left: ({ first }: Left) =>
            scatter(salt + at, Math.round((first?.cm ?? 0) * 7 + (first?.string ?? 0))) % (most + 1),
          right: ({ id }: Right) => scatter(salt + at, id) % (most / 2 + 1),
        },
  );
  const { lefts, rights } = search(choicesOf(moments, setting, rules), setting, rules, { tolls }).solution;
  return { moments, lefts, rights };
}
