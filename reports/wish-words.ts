// SPDX-License-Identifier: AGPL-3.0-or-later
// What was wanted beside the line of least effort, and what it costs, in sentences for page and terminal.

import type { Report } from "../src/report.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../src/words.js";
import { shellWord } from "./shell-word.js";
import { count, number, spareMoves } from "./words.js";

/** To the thousandth, since what is compared may differ by little. */
const exactly = (effort: number): Phrase => spareMoves(number(effort), effort);

/** One sentence for each wish; none where nothing more was wanted. */
export function wishSentences(report: Report): readonly Said[] {
  return [
    ...elsewhereSentence(report),
    ...objectiveSentence(report),
    ...figuresSentence(report),
    ...fewWaysSentence(report),
  ];
}

/** From so many spare moves a note on a line is laboured, as the verdict says. */
const LABOURED = 0.4;

/** Where a melody that nobody has fingered lies badly, how a better key or tuning is found. */
function elsewhereSentence({ json }: Report): readonly Said[] {
  const { source, total } = json.fingering;
  const bad = total.blocked > 0 || total.effort / Math.max(1, json.score.notes) >= LABOURED;
  if (source !== "searched" || json.setting.chosenFrom !== null || !bad) return [];
  const file = shellWord(json.score.file);
  return [
    phrase(
      `It may lie better in another key or tuning: huipath fit ${file} ranks them, and huipath check ${file} --transpose best takes the best one.`,
      `换个调或定弦也许更合适：用huipath fit ${file}可排出各种设置，用huipath check ${file} --transpose best则直接取最佳。`,
    ),
  ];
}

function objectiveSentence({ json, rules }: Report): readonly Said[] {
  const { objective, total } = json.fingering;
  const { worst, instead } = objective;
  if (instead === null) return [];
  if (worst === null) return [phrase("No single moment of this line costs anything.", "全曲没有一处费力。")];
  const title = rules.find((rule) => rule.id === worst.rule)?.title ?? worst.rule;
  const note = json.fingering.notes.find(({ id }) => id === worst.notes.at(-1));
  const most = exactly(worst.effort);
  const here = phraseOf({
    en: (say) =>
      `The easiest worst moment: nothing in this line costs more than ${most.en} at once (${say(title)}${note === undefined ? "" : `, bar ${note.bar}, beat ${note.beat}`}).`,
    zh: (say) =>
      `最难处最轻的指法：没有一处一次超过${most.zh}（${say(title)}${note === undefined ? "" : `，第${note.bar}小节第${note.beat}拍`}）。`,
  });
  if (instead.total.effort === total.effort && instead.worst === worst.effort)
    return [
      joined([
        here,
        phrase(" The line of least total is no harder at its worst.", "总和最小的指法，其最难处也不更难。"),
      ]),
    ];
  const [least, own, hardest] = [instead.total.effort, total.effort, instead.worst].map(number);
  return [
    joined([
      here,
      phrase(
        ` The line of least total costs ${least} instead of ${own}, but ${hardest} at its worst moment.`,
        `总和最小的指法费${least}而非${own}，但最难处一次费${hardest}。`,
      ),
    ]),
  ];
}

function figuresSentence({ json }: Report): readonly Said[] {
  const same = json.fingering.sameFigures;
  if (same === null) return [];
  const one = same.left === 1;
  const still =
    same.left === 0
      ? ""
      : phrase(
          ` ${count(same.left, "other figure")} still ${one ? "wanders" : "wander"}: ${one ? "it" : "each"} would cost more than ${number(same.price)}.`,
          `另有${same.left}个音型仍换了位置：${one ? "它" : "每个"}要费${number(same.price)}以上。`,
        );
  const [price, more] = [exactly(same.price), exactly(same.more)];
  if (same.made === 0)
    return [
      joined([
        phrase(
          `No figure was brought back to its places for ${price.en}.`,
          `${price.zh}以内，没有音型能回到原来的位置。`,
        ),
        still,
      ]),
    ];
  return [
    joined([
      phrase(
        `${count(same.made, "figure")} ${same.made === 1 ? "returns" : "return"} as the first time, for ${more.en} in all.`,
        `${same.made}个音型照首次的弹法重现，共多费${more.zh}。`,
      ),
      still,
    ]),
  ];
}

function fewWaysSentence({ json }: Report): readonly Said[] {
  return json.fingering.ways?.length === 1
    ? [
        phrase(
          "No other fingering of this line lies elsewhere in a quarter of its notes.",
          "没有另一种指法能让四分之一的音换音位。",
        ),
      ]
    : [];
}
