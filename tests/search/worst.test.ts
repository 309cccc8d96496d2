// SPDX-License-Identifier: AGPL-3.0-or-later
// The easiest worst moment, against every fingering of small lines: first the largest charge, then the sum.
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { Choice } from "../../src/candidates/candidates.js";
import { worstMoment } from "../../src/check/worst-moment.js";
import { type Left, type Right, rightAt } from "../../src/model/playing.js";
import { unweigh } from "../../src/rule/cost.js";
import { chargesOf, totalOf } from "../../src/search/charges.js";
import { type Searched, search } from "../../src/search/solve.js";
import { easiestWorst } from "../../src/search/worst.js";
import { faultsAt } from "../support/evaluator.js";
import { bookFor, settingOf } from "../support/playing.js";
import { choicesIn, smallLine, thin } from "../support/small-lines.js";

const setting = settingOf();
const rules = bookFor(setting);

/** Every legal fingering. */
function linesOf(choices: readonly Choice[]) {
  const moments = choices.map((choice) => choice.moment);
  const found: { moments: typeof moments; lefts: readonly Left[]; rights: readonly Right[] }[] = [];
  const offered = choices.map(({ rights }) => [...rights.keys()].filter((id) => rights[id] === 1).map(rightAt));
  const extend = (lefts: readonly Left[], rights: readonly Right[]): void => {
    const choice = choices[lefts.length];
    if (choice === undefined) {
      found.push({ moments, lefts, rights });
      return;
    }
    for (const left of choice.lefts) {
      const standing = rights.at(-1);
      const strokes = left.chain > 0 ? (standing === undefined ? [] : [standing]) : (offered[lefts.length] ?? []);
      for (const right of strokes) {
        if (right.strings !== left.strings) continue;
        const line = { moments, lefts: [...lefts, left], rights: [...rights, right] };
        if (faultsAt(line, lefts.length, setting).length === 0) extend(line.lefts, line.rights);
      }
    }
  };
  extend([], []);
  return found;
}

test("no fingering has an easier worst moment, and of those with the same none costs less", () => {
  let differed = 0;
  fc.assert(
    fc.property(smallLine(3), (line) => {
      const choices = thin(
        choicesIn(line, setting, rules),
        { plucked: 4, unplucked: 2, strokes: 2 },
        line.salt,
        setting,
      );
      if (choices.length === 0) return;
      const moments = choices.map((choice) => choice.moment);
      const worstOf = ({ solution }: Searched): number =>
        worstMoment(chargesOf({ moments, ...solution }, rules))?.cost.effort ?? 0;
      const free = search(choices, setting, rules);
      const { searched, worst } = easiestWorst(
        free,
        (ceiling) => search(choices, setting, rules, { ceiling }),
        worstOf,
      );
      const all = linesOf(choices).map((one) => {
        const charges = chargesOf(one, rules);
        const worst = Math.max(0, ...charges.map(({ cost }) => (cost.blocked > 0 ? 0 : cost.effort)));
        return { ...totalOf(charges), worst };
      });
      const blocked = Math.min(...all.map((one) => one.blocked));
      const playable = all.filter((one) => one.blocked === blocked);
      const easiest = Math.min(...playable.map((one) => one.worst));
      const least = Math.min(...playable.filter((one) => one.worst === easiest).map((one) => one.effort));
      expect([worst, unweigh(searched.solution.weight)]).toEqual([easiest, { blocked, effort: least }]);
      if (searched.solution.weight !== free.solution.weight) differed += 1;
    }),
    { numRuns: 100, seed: 2029 },
  );
  expect(differed).toBeGreaterThan(10);
});
