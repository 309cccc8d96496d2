// SPDX-License-Identifier: AGPL-3.0-or-later
// What was wanted beside the line of least effort, and what it costs, in sentences for page and terminal.
import type { Report } from "../src/report.js";
import { count, number } from "./words.js";

/** To the thousandth, since what is compared may differ by little. */
const spareMoves = (effort: number): string => `${number(effort)} spare ${effort === 1 ? "move" : "moves"}`;

/** One sentence for each wish; none where nothing more was wanted. */
export function wishSentences(report: Report): readonly string[] {
  return [...objectiveSentence(report), ...figuresSentence(report), ...fewWaysSentence(report)];
}

function objectiveSentence({ json, rules }: Report): readonly string[] {
  const { objective, total } = json.fingering;
  const { worst, instead } = objective;
  if (instead === null) return [];
  if (worst === null) return ["No single moment of this line costs anything."];
  const title = rules.find((rule) => rule.id === worst.rule)?.title ?? worst.rule;
  const note = json.fingering.notes.find(({ id }) => id === worst.notes.at(-1));
  const where = note === undefined ? "" : `, bar ${note.bar}, beat ${note.beat}`;
  const here = `The easiest worst moment: nothing in this line costs more than ${spareMoves(worst.effort)} at once (${title}${where}).`;
  if (instead.total.effort === total.effort && instead.worst === worst.effort)
    return [`${here} The line of least total is no harder at its worst.`];
  return [
    `${here} The line of least total costs ${number(instead.total.effort)} instead of ${number(total.effort)}, but ${number(instead.worst)} at its worst moment.`,
  ];
}

function figuresSentence({ json }: Report): readonly string[] {
  const same = json.fingering.sameFigures;
  if (same === null) return [];
  const still =
    same.left === 0
      ? ""
      : ` ${count(same.left, "other figure")} still ${same.left === 1 ? "wanders" : "wander"}: ${same.left === 1 ? "it" : "each"} would cost more than ${number(same.price)}.`;
  if (same.made === 0) return [`No figure was brought back to its places for ${spareMoves(same.price)}.${still}`];
  return [
    `${count(same.made, "figure")} ${same.made === 1 ? "returns" : "return"} as the first time, for ${spareMoves(same.more)} in all.${still}`,
  ];
}

function fewWaysSentence({ json }: Report): readonly string[] {
  return json.fingering.ways?.length === 1
    ? ["No other fingering of this line lies elsewhere in a quarter of its notes."]
    : [];
}
