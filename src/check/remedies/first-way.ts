// SPDX-License-Identifier: AGPL-3.0-or-later
// A figure that returns: the return played like the first time, or the first time like the return.
import type { Moment } from "../../model/moments.js";
import { barAndBeat } from "../../model/place-words.js";
import type { Left } from "../../model/playing.js";
import type { Searched } from "../../search/solve.js";
import { type Phrase, phraseOf } from "../../words.js";
import type { Finding } from "../check.js";
import { fingeringRemedy, freedAt } from "./fingering.js";
import { cheapest, momentsOfFinding, type Remediable, type Remedy } from "./line.js";
import { placeAt } from "./words.js";

/**
 * The cheaper of two lines: the notes of the finding on the places of the same notes before, and those before on the
 * places of these. Null where no such notes came before, or where neither way takes the finding away.
 */
export function firstWay(finding: Finding, line: Remediable): Remedy | null {
  const { moments } = line.played;
  const now = momentsOfFinding(finding, moments);
  const earlier = firstTime(now, moments);
  if (earlier === null) return null;
  const then = now.map((_, i) => earlier + i);
  const place = placeAt(earlier, line);
  const first = barAndBeat(place.bar, place.beat);
  const asThen = phraseOf({ en: (say) => `Play it as in ${say(first)}`, zh: (say) => `照${say(first)}那样弹` });
  const asHere = phraseOf({ en: (say) => `Play it in ${say(first)} as here`, zh: (say) => `${say(first)}也照这里弹` });
  return cheapest([...way(now, then, asThen, finding, line), ...way(then, now, asHere, finding, line)]);
}

/** Where the notes of these moments, in a row, stand for the first time on the same beat; null where never before. */
export function firstTime(now: readonly number[], moments: readonly Moment[]): number | null {
  const from = now[0];
  if (from === undefined || now.some((at, i) => at !== from + i)) return null;
  for (let earlier = 0; earlier + now.length <= from; earlier++) {
    if (moments[earlier]?.notes[0]?.source.beat !== moments[from]?.notes[0]?.source.beat) continue;
    if (now.every((at, i) => sounds(moments[at] as Moment) === sounds(moments[earlier + i] as Moment))) return earlier;
  }
  return null;
}

function sounds({ notes }: Moment): string {
  return notes.map(({ semitone, source }) => `${semitone} ${source.duration.toFraction()}`).join("+");
}

/** The cheapest line in which these moments lie on the places that others have now. */
function way(
  moved: readonly number[],
  models: readonly number[],
  told: Phrase,
  finding: Finding,
  line: Remediable,
): readonly Remedy[] {
  const { lefts } = line.played;
  const searched = moved.reduce<Searched>(
    (one, at, i) => {
      const model = placesOf(lefts[models[i] as number] as Left);
      if (!Number.isFinite(one.solution.weight) || placesOf(lefts[at] as Left) === model) return one;
      return one.tolling(at, {
        left: (left) => (placesOf(left) === model ? 0 : Number.POSITIVE_INFINITY),
        right: () => 0,
      });
    },
    freedAt(moved, line),
  );
  const remedy = fingeringRemedy(searched.solution, finding, line, told);
  return remedy === null ? [] : [remedy];
}

/** Strings and places of a hand. */
export function placesOf({ placed }: Left): string {
  return placed.map(({ sound, string, position }) => `${sound} ${string} ${position}`).join("+");
}
