// SPDX-License-Identifier: AGPL-3.0-or-later
// What a contrast says, in plain sentences with bars and beats.
import { quotedReading, stringInCharacters } from "../model/characters.js";
import type { Moment, MomentNote } from "../model/moments.js";
import { barAndBeat, barsFromTo } from "../model/place-words.js";
import type { Score } from "../model/score.js";
import type { Played } from "../search/charges.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../words.js";
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

/** A run in words: where it lies, what comes of it, and both in one sentence. */
export interface RunWords {
  /** where the notes lie that are played another way; of a run without any, where its charges lie */
  readonly place: Phrase;
  /** what is played instead, and what that saves and costs; it follows the place and a colon, and ends the sentence */
  readonly rest: Phrase;
  readonly sentence: Phrase;
}

/**
 * A run in words. Amounts are spare moves.
 *
 * @example runWords(run, compared).sentence
 * // "Bar 2, beat 3: da 9 tiao 6 instead of ming 9 tiao 6 saves 0.4 in the stretch of the hand (bar 2, beat 3),
 * // and costs 2.1 in shifts of the hand (bar 2, beat 4): 1.7 more in all."
 */
export function runWords(run: Run, compared: Compared): RunWords {
  const at = run.changed.length > 0 ? run.changed : [run.from, run.until];
  const place = spanWords(at[0] as number, at.at(-1) as number, compared);
  const [what, gains] = [whatChanges(run, compared), gainsAndLosses(run, compared)];
  const rest = phraseOf({ en: (say) => `${say(what)} ${say(gains)}.`, zh: (say) => `${say(what)}，${say(gains)}。` });
  return { place, rest, sentence: joined([place, rest], phrase(": ", "：")) };
}

/** "Bar 2, beats 1 to 3", "Bar 2, beat 4 to bar 3, beat 1". */
function spanWords(from: number, to: number, { a, score }: Compared): Phrase {
  const [first, last] = [placeAt(a, from, score), placeAt(a, to, score)];
  const began = `第${first.label}小节第${first.beat}`;
  if (first.bar !== last.bar)
    return phrase(
      `Bar ${first.label}, beat ${first.beat} to bar ${last.label}, beat ${last.beat}`,
      `${began}拍至第${last.label}小节第${last.beat}拍`,
    );
  return first.beat === last.beat
    ? phrase(`Bar ${first.label}, beat ${first.beat}`, `${began}拍`)
    : phrase(`Bar ${first.label}, beats ${first.beat} to ${last.beat}`, `${began}至${last.beat}拍`);
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

function whatChanges({ changed, from, until }: Run, { a, b }: Compared): Phrase {
  if (changed.length > SAID)
    return phrase(`${changed.length} notes played another way`, `${changed.length}个音换了弹法`);
  if (changed.length > 0) {
    const said = (played: Played): Phrase =>
      joined(
        changed.map((at) => quotedReading(readingAt(played, at)) || phrase("nothing", "不出声")),
        phrase(", ", "、"),
      );
    const [before, after] = [said(a), said(b)];
    return phraseOf({
      en: (say) => `${say(after)} instead of ${say(before)}`,
      zh: (say) => `${say(before)}改为${say(after)}`,
    });
  }
  const waits = range(from, until).find((at) => a.rights[at]?.planted !== b.rights[at]?.planted);
  if (waits === undefined) return phrase(from === until ? "the same fingering" : "the same fingering here", "指法不变");
  const string = b.rights[waits]?.planted ?? 0;
  return string === 0
    ? phrase("the middle finger free meanwhile", "其间中指不停在弦上")
    : phrase(`the middle finger waiting on string ${string}`, `中指停在${stringInCharacters(string)}等候`);
}

const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** "saves 0.4 in ... and costs 2.1 in ..., 1.7 more in all". */
function gainsAndLosses(run: Run, compared: Compared): Phrase {
  const net = netShares(run);
  const less = net.filter(({ difference }) => weightOf(difference) < 0).map(turned);
  const more = net.filter(({ difference }) => weightOf(difference) > 0);
  const many = run.changed.length > SAID;
  const [save, cost] = many ? ["save", "cost"] : ["saves", "costs"];
  if (less.length === 0 && more.length === 0) return phrase(`${cost} as much`, "代价相同");
  const saves = joined([phrase(`${save} `, ""), shareList(less, "saved", run, compared)]);
  const costs = joined([phrase(`${cost} `, ""), shareList(more, "paid", run, compared)]);
  if (less.length === 0) return costs;
  if (more.length === 0) return saves;
  const all = inAll(run.difference);
  return phraseOf({
    en: (say) => `${say(saves)}, and ${say(costs)}: ${say(all)}`,
    zh: (say) => `${say(saves)}，${say(costs)}：${say(all)}`,
  });
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

/** Whether a share is saved or paid. */
type Side = "saved" | "paid";

/** Words for effort and for places that cannot be played. */
const LESS_OR_MORE: Readonly<Record<Side, { readonly effort: string; readonly blocked: string }>> = {
  saved: { effort: "省", blocked: "少" },
  paid: { effort: "费", blocked: "多" },
};

/** Shares as words, largest first: "0.4 in the stretch of the hand (beat 2), 0.2 elsewhere". */
function shareList(shares: readonly Share[], side: Side, run: Run, compared: Compared): Phrase {
  const named = shares.length > NAMED + 1 ? shares.slice(0, NAMED) : shares;
  const rest = shares.slice(named.length).reduce((sum, { difference }) => sum + difference.effort, 0);
  const words = named.map((share) => {
    const [amount, places] = [amountWords(share.difference, side), sharePlaces(share, run, compared)];
    return phraseOf({
      en: (say) => `${say(amount)} in ${say(share.topic)}${say(places)}`,
      zh: (say) => `${say(share.topic)}${say(amount)}${say(places)}`,
    });
  });
  const { effort } = LESS_OR_MORE[side];
  const other = phraseOf({
    en: (say) => `${say(moves(rest))} in other ways`,
    zh: (say) => `其他方面${effort}${say(moves(rest))}`,
  });
  return listWords(rest === 0 ? words : [...words, other], "，");
}

/** Where a share lies, in brackets; empty where that is the one note that the sentence begins with. */
function sharePlaces({ notes }: Share, run: Run, { a, score }: Compared): Said {
  const moments = [...new Set(notes.map(({ at }: NotePlace) => at))].sort((x, y) => x - y);
  const said = run.changed.length === 0 ? run.from : run.changed[0];
  if (moments.length === 1 && moments[0] === said && run.changed.length < 2) return "";
  const where = momentsWords(moments.map((at) => placeAt(a, at, score)));
  return phraseOf({ en: (say) => ` (${say(where)})`, zh: (say) => `（${say(where)}）` });
}

/** "bar 2, beats 1 and 3", "5 places, bars 2 to 4". */
function momentsWords(places: readonly BarAndBeat[]): Phrase {
  const [first, last] = [places[0] as BarAndBeat, places.at(-1) as BarAndBeat];
  if (first.bar === last.bar && places.length <= NAMED) {
    const beats = listWords(
      places.map(({ beat }) => beat),
      "、",
    );
    return phraseOf({
      en: (say) => `bar ${first.label}, ${places.length === 1 ? "beat" : "beats"} ${say(beats)}`,
      zh: (say) => `第${first.label}小节第${say(beats)}拍`,
    });
  }
  if (places.length === 2)
    return listWords(
      places.map(({ label, beat }) => barAndBeat(label, beat)),
      "、",
    );
  const bars = barsFromTo(first.label, last.label);
  return phraseOf({
    en: (say) => `${places.length} places, ${say(bars)}`,
    zh: (say) => `${say(bars)}共${places.length}处`,
  });
}

/** "a", "a and b", "a, b and c". @param between what stands between two in Chinese */
function listWords(words: readonly Said[], between: string): Phrase {
  const last = words.at(-1) ?? "";
  if (words.length < 2) return joined([last]);
  return joined([joined(words.slice(0, -1), phrase(", ", between)), last], phrase(" and ", between));
}

/** A cost in words: "0.4", "2 places that cannot be played and 0.4". */
function amountWords({ blocked, effort }: Difference, side: Side): Phrase {
  const { effort: verb, blocked: many } = LESS_OR_MORE[side];
  const spent = phraseOf({ en: (say) => say(moves(effort)), zh: (say) => `${verb}${say(moves(effort))}` });
  if (blocked === 0) return spent;
  const barred = phrase(impasses(blocked), `${many}${blocked}处无法演奏`);
  return effort === 0 ? barred : joined([barred, spent], phrase(" and ", "，又"));
}

const impasses = (count: number): string => `${count} ${count === 1 ? "place" : "places"} that cannot be played`;

function inAll({ blocked, effort }: Difference): Phrase {
  const [fewer, more] = [Math.max(0, -blocked), Math.max(0, blocked)];
  if (fewer > 0) return phrase(`in all ${impasses(fewer)} fewer`, `合计少${fewer}处无法演奏`);
  if (more > 0) return phrase(`in all ${impasses(more)} more`, `合计多${more}处无法演奏`);
  if (effort === 0) return phrase("as much in all", "合计不变");
  const amount = moves(Math.abs(effort));
  return phraseOf({
    en: (say) => `${say(amount)} ${effort < 0 ? "less" : "more"} in all`,
    zh: (say) => `合计${effort < 0 ? "省" : "多费"}${say(amount)}`,
  });
}

/** Thousandths of a spare move to hundredths. */
function moves(thousandths: number): Said {
  return thousandths < 5 ? phrase("under 0.01", "不到0.01") : String(Math.round(thousandths / 10) / 100);
}
