// SPDX-License-Identifier: AGPL-3.0-or-later
// Pins that cannot be played together are named before anything is written.
import { choicesOf } from "../candidates/candidates.js";
import { smallestContradiction } from "../check/contradiction.js";
import { placeWords } from "../check/remedies/words.js";
import type { Brief, Pin } from "../model/brief.js";
import { momentsOf } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { InputProblem } from "../problem.js";
import { unweigh } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import { weightingOf } from "../rule/weighting.js";
import type { Played } from "../search/charges.js";
import { solve } from "../search/solve.js";
import { inWords } from "../words.js";

/**
 * Makes sure that the pins of a brief can be played together.
 *
 * @param played the best line under all of them
 * @throws InputProblem naming the fewest that cannot, where a pinned note was left out that can be played without them
 */
export function guardTogether(brief: Brief, played: Played, score: Score, setting: Setting, rules: readonly Rule[]) {
  if (!leavesOutPinned(brief, played)) return;
  const blockedUnder = (pins: readonly Pin[]): number => {
    const moments = momentsOf(score, setting, { ...brief, pins });
    const weighting = weightingOf(brief, moments, rules);
    return unweigh(solve(choicesOf(moments, setting, rules), setting, rules, { weighting }).weight).blocked;
  };
  const without = blockedUnder([]);
  const fails = (pins: readonly Pin[]): boolean => blockedUnder(pins) > without;
  if (!fails(brief.pins)) return;
  const [first, ...others] = smallestContradiction(brief.pins, fails);
  if (first === undefined) return;
  const named = [first, ...others].map(
    (pin) => `${inWords(placeWords(pin.note, { score }), "en")} (${pin.place.replace(/^.*, /, "")}: "${pin.text}")`,
  );
  throw new InputProblem(
    "pins-contradict",
    first.place,
    others.length === 0
      ? `this pin cannot be played where it stands: ${named[0]}`
      : `these pins cannot be played together: ${named.join(" and ")}`,
    others.length === 0 ? "change it or leave it out" : "change one of them or leave it out",
  );
}

function leavesOutPinned({ pins }: Brief, { moments, lefts }: Played): boolean {
  const pinned = new Set(pins.map((pin) => pin.note));
  return lefts.some((left, at) =>
    left.missing.some(({ note }) => pinned.has(moments[at]?.notes[note]?.source.id ?? "")),
  );
}
