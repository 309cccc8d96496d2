// SPDX-License-Identifier: AGPL-3.0-or-later
// What a contrast says, in plain sentences with bars and beats.
import type { Moment, MomentNote } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Played } from "../search/charges.js";
import { readingAt } from "./check.js";
import { type Difference, type NotePlace, type Run, type Share, weightOf } from "./contrast.js";

/** Both lines of a contrast, and the score for the labels of its bars. */
export interface Compared {
  readonly a: Played;
  readonly b: Played;
  readonly score: Score;
}

/** So many readings are said, and so many rules named on each side; the rest is summed up. */
const SAID = 2;
const NAMED = 3;

/**
 * A run in one sentence. Amounts are spare moves.
 *
 * @example runSentence(run, compared)
 * // "Bar 2, beat 3: da 9 tiao 6 instead of ming 9 tiao 6 saves 0.4 in the stretch of the hand (bar 2, beat 3),
 * // and costs 2.1 in shifts of the hand (bar 2, beat 4): 1.7 more in all."
 */
export function runSentence(run: Run, compared: Compared): string {
  return `${runPlace(run, compared)}: ${whatChanges(run, compared)} ${gainsAndLosses(run, compared)}.`;
}

/** Where the notes of a run lie that are played another way; of a run without any, where its charges lie. */
export function runPlace(run: Run, compared: Compared): string {
  const at = run.changed.length > 0 ? run.changed : [run.from, run.until];
  return spanWords(at[0] as number, at.at(-1) as number, compared);
}

/** "Bar 2, beats 1 to 3", "Bar 2, beat 4 to bar 3, beat 1". */
function spanWords(from: number, to: number, { a, score }: Compared): string {
  const [first, last] = [placeAt(a, from, score), placeAt(a, to, score)];
  if (first.bar !== last.bar) return `Bar ${first.label}, beat ${first.beat} to bar ${last.label}, beat ${last.beat}`;
  return first.beat === last.beat
    ? `Bar ${first.label}, beat ${first.beat}`
    : `Bar ${first.label}, beats ${first.beat} to ${last.beat}`;
}

interface BarAndBeat {
  readonly bar: number;
  readonly label: string;
  readonly beat: string;
}

function placeAt(played: Played, at: number, score: Score): BarAndBeat {
  const { bar, beat } = ((played.moments[at] as Moment).notes[0] as MomentNote).source;
  return { bar, label: barWords(score, bar), beat };
}

/** The printed label of a bar; its number in order where none is known. */
function barWords(score: Score, index: number): string {
  return score.bars.find((bar) => bar.index === index)?.label ?? String(index + 1);
}

function whatChanges({ changed, from, until }: Run, { a, b }: Compared): string {
  if (changed.length > SAID) return `${changed.length} notes played another way`;
  if (changed.length > 0) {
    const said = (played: Played): string => changed.map((at) => readingAt(played, at) || "nothing").join(", ");
    return `${said(b)} instead of ${said(a)}`;
  }
  const waits = range(from, until).find((at) => a.rights[at]?.planted !== b.rights[at]?.planted);
  if (waits === undefined) return from === until ? "the same fingering" : "the same fingering here";
  const string = b.rights[waits]?.planted ?? 0;
  return string === 0 ? "the middle finger free meanwhile" : `the middle finger waiting on string ${string}`;
}

const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** "saves 0.4 in ... and costs 2.1 in ..., 1.7 more in all". */
function gainsAndLosses(run: Run, compared: Compared): string {
  const net = netShares(run);
  const saves = shareList(net.filter(({ difference }) => weightOf(difference) < 0).map(turned), run, compared);
  const costs = shareList(
    net.filter(({ difference }) => weightOf(difference) > 0),
    run,
    compared,
  );
  const many = run.changed.length > SAID;
  const [save, cost] = many ? ["save", "cost"] : ["saves", "costs"];
  if (saves === "" && costs === "") return `${cost} as much`;
  if (saves === "") return `${cost} ${costs}`;
  if (costs === "") return `${save} ${saves}`;
  return `${save} ${saves}, and ${cost} ${costs}: ${inAll(run.difference)}`;
}

const turned = (share: Share): Share => ({ ...share, difference: negative(share.difference) });
const negative = ({ blocked, effort }: Difference): Difference => ({ blocked: -blocked, effort: -effort });

/** A rule that saves at one note what it costs at another is named once, with what is left. */
function netShares({ saves, costs }: Run): readonly Share[] {
  const rules = [...new Set([...saves, ...costs].map(({ rule }) => rule))];
  return rules
    .map((rule) => {
      const shares = [...saves, ...costs].filter((share) => share.rule === rule);
      const difference = shares.reduce(
        (sum, share) => ({
          blocked: sum.blocked + share.difference.blocked,
          effort: sum.effort + share.difference.effort,
        }),
        { blocked: 0, effort: 0 },
      );
      const mine = shares.filter((share) => weightOf(share.difference) * weightOf(difference) > 0);
      return { ...(shares[0] as Share), difference, notes: mine.flatMap(({ notes }) => notes) };
    })
    .filter(({ difference }) => weightOf(difference) !== 0)
    .sort((x, y) => Math.abs(weightOf(y.difference)) - Math.abs(weightOf(x.difference)));
}

/** Shares as words, largest first: "0.4 in the stretch of the hand (beat 2), 0.2 elsewhere". */
function shareList(shares: readonly Share[], run: Run, compared: Compared): string {
  const named = shares.length > NAMED + 1 ? shares.slice(0, NAMED) : shares;
  const rest = shares.slice(named.length).reduce((sum, { difference }) => sum + difference.effort, 0);
  const words = named.map(
    (share) => `${amountWords(share.difference)} in ${share.topic}${sharePlaces(share, run, compared)}`,
  );
  return listWords(rest === 0 ? words : [...words, `${moves(rest)} in other ways`]);
}

/** Where a share lies, in brackets; empty where that is the one note that the sentence begins with. */
function sharePlaces({ notes }: Share, run: Run, { a, score }: Compared): string {
  const moments = [...new Set(notes.map(({ at }: NotePlace) => at))].sort((x, y) => x - y);
  const said = run.changed.length === 0 ? run.from : run.changed[0];
  if (moments.length === 1 && moments[0] === said && run.changed.length < 2) return "";
  const places = moments.map((at) => placeAt(a, at, score));
  const [first, last] = [places[0] as BarAndBeat, places.at(-1) as BarAndBeat];
  if (first.bar === last.bar && places.length <= NAMED)
    return ` (bar ${first.label}, ${places.length === 1 ? "beat" : "beats"} ${listWords(places.map(({ beat }) => beat))})`;
  if (places.length === 2) return ` (${listWords(places.map(({ label, beat }) => `bar ${label}, beat ${beat}`))})`;
  return ` (${places.length} places, ${first.bar === last.bar ? `bar ${first.label}` : `bars ${first.label} to ${last.label}`})`;
}

/** "a", "a and b", "a, b and c". */
function listWords(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** A cost in words: "0.4", "2 places that cannot be played and 0.4". */
function amountWords({ blocked, effort }: Difference): string {
  if (blocked === 0) return moves(effort);
  return effort === 0 ? impasses(blocked) : `${impasses(blocked)} and ${moves(effort)}`;
}

const impasses = (count: number): string => `${count} ${count === 1 ? "place" : "places"} that cannot be played`;

function inAll({ blocked, effort }: Difference): string {
  if (blocked === 0) {
    if (effort === 0) return "as much in all";
    return effort < 0 ? `${moves(-effort)} less in all` : `${moves(effort)} more in all`;
  }
  return blocked < 0 ? `in all ${impasses(-blocked)} fewer` : `in all ${impasses(blocked)} more`;
}

/** Thousandths of a spare move to hundredths. */
function moves(thousandths: number): string {
  return thousandths < 5 ? "under 0.01" : String(Math.round(thousandths / 10) / 100);
}
