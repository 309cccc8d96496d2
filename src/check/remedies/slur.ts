// SPDX-License-Identifier: AGPL-3.0-or-later
// Steps joined by twos: the second of each pair is slid to, as a slur over both asks for.
import type { Moment } from "../../model/moments.js";
import { type Pitch, pitchName } from "../../model/pitch.js";
import { barAndBeat } from "../../model/place-words.js";
import type { Slur } from "../../model/score.js";
import { playedBy } from "../../search/charges.js";
import type { Searched } from "../../search/solve.js";
import { joined, phraseOf } from "../../words.js";
import type { Finding } from "../check.js";
import { type JudgedLine, momentsOfFinding, type Remediable, type Remedy } from "./line.js";
import { fresh, remains, signsOf, worseWords } from "./signs.js";
import { judged, type Trials } from "./trials.js";
import { changesBetween, changeWords, placeAt } from "./words.js";

/** Slurs over the notes of the finding by twos, and what the line costs then; null where the finding stays. */
export function slurredByTwos(finding: Finding, trials: Trials): Remedy | null {
  const { line } = trials;
  const run = momentsOfFinding(finding, line.played.moments);
  const slurs = pairsOf(run, line);
  const trial = trials.attempt(`slurs ${run.join()}`, () => ({ score: { ...line.score, slurs } }));
  const slid = trial === null ? null : slidLine(trial, run);
  if (slid === null || remains(finding, slid.verdicts)) return null;
  const { total } = slid.verdicts;
  if (total.blocked > line.verdicts.total.blocked) return null;
  const [from, to] = [run[0] as number, run.at(-1) as number];
  const { bar, beat } = placeAt(from, line);
  const name = (at: number): string => pitchName((line.played.moments[at] as Moment).notes[0]?.sounding as Pitch);
  const how = changeWords(changesBetween(line.played, slid.played), from, line);
  const [first, last, place] = [name(from), name(to), barAndBeat(bar, beat)];
  const told = phraseOf({
    en: (say) => `Slur the notes from ${first} (${say(place)}) to ${last} by twos and slide: ${say(how)}.`,
    zh: (say) => `从${first}（${say(place)}）到${last}，每两个音加一条连线，用走音：${say(how)}。`,
  });
  return {
    text: joined([told, worseWords(fresh(signsOf(slid.verdicts), line.verdicts), line)]),
    after: total,
    played: slid.played,
    music: null,
  };
}

/** The cheapest line in which the second note of every pair comes without a pluck; null where there is none. */
function slidLine(trial: JudgedLine, run: readonly number[]): Pick<JudgedLine, "played" | "verdicts"> | null {
  const seconds = run.filter((_, i) => i % 2 === 1);
  const searched = seconds.reduce<Searched>(
    (one, at) =>
      Number.isFinite(one.solution.weight)
        ? one.tolling(at, { left: ({ chain }) => (chain > 0 ? 0 : Number.POSITIVE_INFINITY), right: () => 0 })
        : one,
    trial.searched,
  );
  if (!Number.isFinite(searched.solution.weight)) return null;
  const played = playedBy(trial.played.moments, searched.solution);
  return { played, verdicts: judged(trial, played) };
}

/** The score's slurs with those over the run replaced by one over each pair of its notes. */
function pairsOf(run: readonly number[], { score, played }: Remediable): readonly Slur[] {
  const idAt = (at: number): string => played.moments[at]?.notes[0]?.source.id ?? "";
  const ids = new Set(run.map(idAt));
  const kept = score.slurs.filter(({ from, to }) => !ids.has(from) && !ids.has(to));
  const pairs = run.flatMap((at, i) =>
    i % 2 === 0 && i + 1 < run.length ? [{ from: idAt(at), to: idAt(at + 1), count: 2 }] : [],
  );
  return [...kept, ...pairs];
}
