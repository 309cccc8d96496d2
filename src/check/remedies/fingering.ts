// SPDX-License-Identifier: AGPL-3.0-or-later
// Another fingering: the cheapest line in which the finding is barred.
import { choicesOf } from "../../candidates/candidates.js";
import { setMomentFree } from "../../candidates/opened.js";
import { stringInCharacters } from "../../model/characters.js";
import { givesNothing } from "../../model/fingering.js";
import { barAndBeat } from "../../model/place-words.js";
import type { Left, Missing, Placed } from "../../model/playing.js";
import { unweigh } from "../../rule/cost.js";
import type { Rule } from "../../rule/types.js";
import { type Played, playedBy } from "../../search/charges.js";
import type { Toll } from "../../search/moves.js";
import { type Searched, type Solution, search } from "../../search/solve.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../../words.js";
import type { Finding } from "../check.js";
import { tollAt } from "../comparison.js";
import { strict } from "../strict.js";
import { blocksWithout, momentsOfFinding, type Remediable, type Remedy, type Tried } from "./line.js";
import { fresh, remainsIn, signsBetween, worseWords } from "./signs.js";
import { changesBetween, changeWords, placeAt } from "./words.js";

/** Whether the score or the brief gives something for a note of the finding. */
export function isPinned(finding: Finding, { played }: Remediable): boolean {
  return momentsOfFinding(finding, played.moments).some((at) => isGivenAt(at, played));
}

const isGivenAt = (at: number, { moments }: Played): boolean =>
  moments[at]?.notes.some((note) => !givesNothing(note.given)) ?? false;

/** The rules with the finding's own one made strict. */
export function strictRules(finding: Finding, line: Remediable): readonly Rule[] {
  const at = finding.at as number;
  const raised = Math.max(1, line.weighting.between(finding.from ?? at, at).of(finding.rule));
  return line.rules.map((rule) => (rule.id === finding.rule && rule.reach !== "passage" ? strict(rule, raised) : rule));
}

/**
 * The cheapest line without the finding, the finding's own notes set free from what is given for them. Of a rule that
 * sees the whole line, the cheapest line with those notes set free, if that does it.
 */
export function otherFingering(finding: Finding, line: Remediable): Tried {
  if (finding.at === null && !isPinned(finding, line)) return { remedy: null, unavoidable: false };
  const own = momentsOfFinding(finding, line.played.moments);
  const searched = freedAt(own, line);
  const slip = isSlip(finding, line) ? correction(searched, own, finding, line) : null;
  if (slip !== null) return { remedy: slip, unavoidable: false };
  const other = finding.at === null ? searched.solution : searched.excepting(finding.at, strictRules(finding, line));
  const remedy = fingeringRemedy(other, finding, line);
  const barred = unweigh(other.weight).blocked > blocksWithout(finding, line.verdicts);
  return { remedy, unavoidable: finding.at !== null && barred };
}

/** Whether what is given for the note of a finding cannot sound it. */
function isSlip({ at, place }: Finding, { played }: Remediable): boolean {
  if (at === null) return false;
  const { placed, missing } = played.lefts[at] as Left;
  const concerns = ({ note }: Placed | Missing): boolean => played.moments[at]?.notes[note]?.source.id === place;
  return (
    missing.some((one) => one.cause === "given" && concerns(one)) || placed.some((one) => one.mismatch && concerns(one))
  );
}

/** A slip put right with every other note played as it was; null where that does not do. */
function correction(free: Searched, own: readonly number[], finding: Finding, line: Remediable): Remedy | null {
  const { solution } = free.retolled(
    line.played.moments.map((_, at) =>
      own.includes(at) ? FREE_OF_TOLL : tollAt(line.played, at, Number.POSITIVE_INFINITY),
    ),
  );
  return fingeringRemedy(solution, finding, line);
}

const FREE_OF_TOLL: Toll = { left: () => 0, right: () => 0 };

/** The searched line with some moments set free from what is given for them. */
export function freedAt(free: readonly number[], line: Remediable): Searched {
  if (!free.some((at) => isGivenAt(at, line.played))) return line.searched;
  const moments = line.played.moments.map((moment) => (free.includes(moment.index) ? setMomentFree(moment) : moment));
  const { setting, rules, weighting } = line;
  return search(choicesOf(moments, setting, rules), setting, rules, { weighting });
}

/**
 * A searched line as a remedy; null where the finding is still there or more cannot be played.
 *
 * @param told what is done, before the changes are named
 */
export function fingeringRemedy(
  other: Solution,
  finding: Finding,
  line: Remediable,
  told: Phrase = phrase("Another way", "另一种弹法"),
): Remedy | null {
  if (!Number.isFinite(other.weight)) return null;
  const after = unweigh(other.weight);
  const then = playedBy(line.played.moments, other);
  if (after.blocked > blocksWithout(finding, line.verdicts) || remainsIn(then, finding, line)) return null;
  const what = soundedAgain(then, line.played) ?? joined([told, changed(then, finding, line)], phrase(": ", "："));
  return { text: joined([what, phrase(".", "。"), worse(then, line)]), after, played: then, music: null };
}

/** What sounds a note that nothing sounded, where nothing else is changed; null otherwise. */
function soundedAgain(then: Played, before: Played): Phrase | null {
  const [change, ...others] = changesBetween(before, then);
  if (change === undefined || change.old !== "" || others.length > 0) return null;
  const [placed, ...more] = (then.lefts[change.at] as Left).placed;
  if (placed === undefined || more.length > 0) return null;
  return phraseOf({
    en: (say) => `String ${placed.string} can sound it: ${say(change.now)}`,
    zh: (say) => `${stringInCharacters(placed.string)}弹得出这个音：${say(change.now)}`,
  });
}

function changed(then: Played, finding: Finding, line: Remediable): Phrase {
  const changes = changesBetween(line.played, then);
  const near = finding.at ?? momentsOfFinding(finding, line.played.moments)[0] ?? 0;
  if (changes.length > 0) return changeWords(changes, near, line);
  // Nothing that sounds is changed: only where the hand lies under open strings.
  const { bar, beat } = placeAt(finding.from ?? near, line);
  const place = barAndBeat(bar, beat);
  return phraseOf({
    en: (say) => `the same sounds, with the hand at its next place already under the open string of ${say(place)}`,
    zh: (say) => `出声不变，只是弹${say(place)}的散音时，左手已先移到下一个位置`,
  });
}

/** What is worse where the hands do something else. */
function worse(then: Played, line: Remediable): Said {
  const moved = then.moments.flatMap((_, at) =>
    then.lefts[at] === line.played.lefts[at] && then.rights[at] === line.played.rights[at] ? [] : [at],
  );
  const from = Math.max(0, (moved[0] ?? 0) - 1);
  const to = Math.min(then.moments.length - 1, (moved.at(-1) ?? 0) + 1);
  return worseWords(fresh(signsBetween(then, from, to, line), line.verdicts), line);
}
