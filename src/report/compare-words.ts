// SPDX-License-Identifier: AGPL-3.0-or-later
// The two sentences that answer a comparison.
import { type Contrast, type Deciding, type Difference, differenceOf, weightOf } from "../check/contrast.js";
import type { Compared } from "../check/contrast-words.js";
import type { Moment, MomentNote } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Cost } from "../rule/cost.js";
import { barLabel } from "./notes.js";
import { count } from "./wording.js";

/** What the sides are. */
export interface Sides {
  /** B is the best fingering that was found for A */
  readonly best: boolean;
  /** A gives a fingering, or part of one */
  readonly given: boolean;
}

/** "B costs 3.2 spare moves less than A: 7.1 against 10.3." */
export function answerSentence({ a, b, difference, notes }: Contrast, { best, given }: Sides): string {
  if (best && !given) return `A gives no fingering, so the best one stands on both sides: ${costWords(a)}.`;
  const subject = best ? "The best fingering that was found" : "B";
  if (weightOf(difference) === 0) {
    if (best) return `No fingering of these notes costs less than A: ${costWords(a)}.`;
    const apart = notes.filter((note) => note.a.spoken !== note.b.spoken).length;
    const rest =
      apart === 0
        ? "and every note is played the same way"
        : `though ${count(apart, "note is", "notes are")} played another way: a matter of taste`;
    return `A and B cost the same, ${costWords(a)}, ${rest}.`;
  }
  if (difference.blocked !== 0)
    return `${subject} leaves ${blockedWords(b.blocked)} that cannot be played, A ${blockedWords(a.blocked)}; the effort is ${plain(b.effort)} against ${plain(a.effort)} spare moves.`;
  const more = difference.effort > 0 ? "more" : "less";
  const open = a.blocked > 0 ? ` Both leave ${blockedWords(a.blocked)} that cannot be played.` : "";
  return `${subject} costs ${amount(difference)} ${more} than A: ${plain(b.effort)} against ${plain(a.effort)}.${open}`;
}

const blockedWords = (blocked: number): string => (blocked === 0 ? "no place" : count(blocked, "place"));

/** More than this many bars are no passage any more, where they are also more than half of all. */
const FEW_BARS = 4;

/**
 * What the deciding passage holds, by which rule above all, and how the rest stands.
 *
 * @example "Bars 3 to 4 decide: there B costs 2.4 spare moves less, above all in shifts of the hand (1.9). In the other bars together B costs 0.3 more."
 */
export function decidingSentence(passage: Deciding, found: Contrast, { a, score }: Compared): string {
  const { fromBar, toBar, difference } = passage;
  const bars = barsWords(passage, score);
  const length = toBar - fromBar + 1;
  const spread = isSpread(passage, score);
  const inBar = spread ? `; the most in bar ${barLabel(score, heaviestBar(passage, found, a))}` : "";
  const opening = spread
    ? `No single place decides, the difference is spread over ${bars}`
    : `${bars.replace(/^b/, "B")} ${length === 1 ? "decides" : "decide"}`;
  return `${opening}: there B ${costs(difference)}${aboveAll(passage)}${inBar}.${elsewhere(passage, found)}`;
}

/** Whether a passage is too long to be called one. */
export function isSpread({ fromBar, toBar }: Deciding, score: Score): boolean {
  const length = toBar - fromBar + 1;
  return length > FEW_BARS && 2 * length > score.bars.length;
}

function barsWords({ fromBar, toBar }: Deciding, score: Score): string {
  if (fromBar === toBar) return `bar ${barLabel(score, fromBar)}`;
  return `bars ${barLabel(score, fromBar)} to ${barLabel(score, toBar)}`;
}

function costs(difference: Difference): string {
  return `costs ${amount(difference)} ${weightOf(difference) < 0 ? "less" : "more"}`;
}

/** The size of a difference: "0.4 spare moves", "2 places that cannot be played". */
function amount({ blocked, effort }: Difference): string {
  if (blocked !== 0) return `${count(Math.abs(blocked), "place")} that cannot be played`;
  return `${plain(Math.abs(effort))} spare ${effort === 1000 ? "move" : "moves"}`;
}

/** The rule that does most of it, where there are several. */
function aboveAll({ shares }: Deciding): string {
  const [most, ...others] = shares;
  if (most === undefined) return "";
  const where = `in ${most.topic}`;
  if (others.length === 0) return `, all of it ${where}`;
  const { blocked, effort } = most.difference;
  return `, above all ${where} (${blocked === 0 ? plain(Math.abs(effort)) : amount(most.difference)})`;
}

function elsewhere({ difference }: Deciding, found: Contrast): string {
  const rest = differenceOf(difference, found.difference);
  return weightOf(rest) === 0 ? "" : ` In the other bars together B ${costs(rest)}.`;
}

/** The bar of a passage that holds the most of the whole difference, in its direction. */
function heaviestBar({ fromBar, toBar }: Deciding, found: Contrast, { moments }: Compared["a"]): number {
  const towards = Math.sign(weightOf(found.difference));
  const bars = new Map<number, number>();
  for (const { at, difference } of found.notes) {
    const { bar } = ((moments[at] as Moment).notes[0] as MomentNote).source;
    if (bar < fromBar || bar > toBar) continue;
    bars.set(bar, (bars.get(bar) ?? 0) + towards * weightOf(difference));
  }
  return [...bars].reduce((most, one) => (one[1] > most[1] ? one : most))[0];
}

/** Thousandths of a spare move to hundredths. */
function plain(thousandths: number): string {
  return String(Math.round(thousandths / 10) / 100);
}

function costWords({ blocked, effort }: Cost): string {
  const moves = amount({ blocked: 0, effort });
  return blocked === 0 ? moves : `${moves} and ${count(blocked, "place")} that cannot be played`;
}
