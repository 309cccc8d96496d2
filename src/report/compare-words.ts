// SPDX-License-Identifier: AGPL-3.0-or-later
// The two sentences that answer a comparison.

import { type Contrast, type Deciding, type Difference, differenceOf, weightOf } from "../check/contrast.js";
import type { Compared } from "../check/contrast-words.js";
import type { Moment, MomentNote } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Cost } from "../rule/cost.js";
import { type Phrase, phrase, phraseOf } from "../words.js";
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
export function answerSentence({ a, b, difference, notes }: Contrast, { best, given }: Sides): Phrase {
  const costA = costWords(a);
  if (best && !given)
    return phrase(
      `A gives no fingering, so the best one stands on both sides: ${costA.en}.`,
      `A没有给出指法，所以两边都是最佳指法：${costA.zh}。`,
    );
  const subject = best ? phrase("The best fingering that was found", "找到的最佳指法") : phrase("B", "B");
  if (weightOf(difference) === 0) {
    if (best)
      return phrase(
        `No fingering of these notes costs less than A: ${costA.en}.`,
        `没有比A更省力的指法：${costA.zh}。`,
      );
    const rest = apartWords(notes.filter((note) => note.a.spoken !== note.b.spoken).length);
    return phrase(`A and B cost the same, ${costA.en}, ${rest.en}.`, `A与B同样费力，都是${costA.zh}；${rest.zh}。`);
  }
  const [efforts, blocks] = [
    [plain(b.effort), plain(a.effort)] as const,
    [blockedWords(b.blocked), blockedWords(a.blocked)] as const,
  ];
  if (difference.blocked !== 0)
    return phrase(
      `${subject.en} leaves ${blocks[0].en} that cannot be played, A ${blocks[1].en}; the effort is ${efforts[0]} against ${efforts[1]} spare moves.`,
      `${subject.zh}${blocks[0].zh}不能弹，A${blocks[1].zh}；费力为${efforts[0]}空动对${efforts[1]}空动。`,
    );
  const more = difference.effort > 0;
  const size = amount(difference);
  const open =
    a.blocked > 0
      ? phrase(` Both leave ${blocks[1].en} that cannot be played.`, `两者都${blocks[1].zh}不能弹。`)
      : phrase("", "");
  return phrase(
    `${subject.en} costs ${size.en} ${more ? "more" : "less"} than A: ${efforts[0]} against ${efforts[1]}.${open.en}`,
    `${subject.zh}比A${more ? "多费" : "少费"}${size.zh}：${efforts[0]}对${efforts[1]}。${open.zh}`,
  );
}

function apartWords(apart: number): Phrase {
  return apart === 0
    ? phrase("and every note is played the same way", "每个音的弹法都一样")
    : phrase(
        `though ${count(apart, "note is", "notes are")} played another way: a matter of taste`,
        `只是有${apart}个音弹法不同：取舍而已`,
      );
}

const blockedWords = (blocked: number): Phrase =>
  blocked === 0 ? phrase("no place", "没有一处") : phrase(count(blocked, "place"), `有${blocked}处`);

/** More than this many bars are no passage any more, where they are also more than half of all. */
const FEW_BARS = 4;

/**
 * What the deciding passage holds, by which rule above all, and how the rest stands.
 *
 * @example "Bars 3 to 4 decide: there B costs 2.4 spare moves less, above all in shifts of the hand (1.9). In the other bars together B costs 0.3 more."
 */
export function decidingSentence(passage: Deciding, found: Contrast, { a, score }: Compared): Phrase {
  const { fromBar, toBar, difference } = passage;
  const bars = barsWords(passage, score);
  const length = toBar - fromBar + 1;
  const spread = isSpread(passage, score);
  const heaviest = spread ? barLabel(score, heaviestBar(passage, found, a)) : "";
  const opening = spread
    ? phrase(
        `No single place decides, the difference is spread over ${bars.en}`,
        `没有哪一处起决定作用，差别散在${bars.zh}`,
      )
    : phrase(`${bars.en.replace(/^b/, "B")} ${length === 1 ? "decides" : "decide"}`, `关键在${bars.zh}`);
  const [there, most, rest] = [costs(difference), aboveAll(passage), elsewhere(passage, found)];
  return phrase(
    `${opening.en}: there B ${there.en}${most.en}${spread ? `; the most in bar ${heaviest}` : ""}.${rest.en}`,
    `${opening.zh}：那里B${there.zh}${most.zh}${spread ? `；最多的是第${heaviest}小节` : ""}。${rest.zh}`,
  );
}

/** Whether a passage is too long to be called one. */
export function isSpread({ fromBar, toBar }: Deciding, score: Score): boolean {
  const length = toBar - fromBar + 1;
  return length > FEW_BARS && 2 * length > score.bars.length;
}

function barsWords({ fromBar, toBar }: Deciding, score: Score): Phrase {
  const [from, to] = [barLabel(score, fromBar), barLabel(score, toBar)];
  if (fromBar === toBar) return phrase(`bar ${from}`, `第${from}小节`);
  return phrase(`bars ${from} to ${to}`, `第${from}至${to}小节`);
}

function costs(difference: Difference): Phrase {
  const less = weightOf(difference) < 0;
  const size = amount(difference);
  return phrase(`costs ${size.en} ${less ? "less" : "more"}`, `${less ? "少费" : "多费"}${size.zh}`);
}

/** The size of a difference: "0.4 spare moves", "2 places that cannot be played". */
function amount({ blocked, effort }: Difference): Phrase {
  if (blocked !== 0) {
    const n = Math.abs(blocked);
    return phrase(`${count(n, "place")} that cannot be played`, `${n}处不能弹的地方`);
  }
  const moves = plain(Math.abs(effort));
  return phrase(`${moves} spare ${effort === 1000 ? "move" : "moves"}`, `${moves}空动`);
}

/** The rule that does most of it, where there are several. */
function aboveAll({ shares }: Deciding): Phrase {
  const [most, ...others] = shares;
  if (most === undefined) return phrase("", "");
  const { topic, difference } = most;
  if (others.length === 0)
    return phraseOf({ en: (say) => `, all of it in ${say(topic)}`, zh: (say) => `，全在${say(topic)}` });
  const { blocked, effort } = difference;
  const own = plain(Math.abs(effort));
  const size = blocked === 0 ? phrase(own, `${own}空动`) : amount(difference);
  return phraseOf({
    en: (say) => `, above all in ${say(topic)} (${say(size)})`,
    zh: (say) => `，主要在${say(topic)}（${say(size)}）`,
  });
}

function elsewhere({ difference }: Deciding, found: Contrast): Phrase {
  const rest = differenceOf(difference, found.difference);
  if (weightOf(rest) === 0) return phrase("", "");
  const words = costs(rest);
  return phrase(` In the other bars together B ${words.en}.`, `其余小节合计，B${words.zh}。`);
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

function costWords({ blocked, effort }: Cost): Phrase {
  const moves = amount({ blocked: 0, effort });
  return blocked === 0
    ? moves
    : phrase(`${moves.en} and ${count(blocked, "place")} that cannot be played`, `${moves.zh}，另有${blocked}处不能弹`);
}
