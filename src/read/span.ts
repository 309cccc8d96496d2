// SPDX-License-Identifier: AGPL-3.0-or-later
// The bars that a person asks for: `9-16` by printed labels, `#9-#16` by order.
import type { Bar } from "../model/score.js";
import { InputProblem } from "../problem.js";
import { MAX_SPAN_CHARACTERS } from "./limits.js";

/** First and last bar, as indices. */
export interface BarSpan {
  readonly from: number;
  readonly to: number;
}

/**
 * Finds a span of bars: `FROM-TO` or one bar, each a printed label or `#N` for the Nth bar in order. Labels may hold
 * hyphens themselves.
 *
 * @throws InputProblem when a bar does not exist, two bars carry the label, or the span runs backward
 */
export function findBars(text: string, bars: readonly Bar[], file: string): BarSpan {
  if (text.length > MAX_SPAN_CHARACTERS)
    throw new InputProblem(
      "no-bar",
      file,
      `the bars asked for are longer than the limit of ${MAX_SPAN_CHARACTERS} characters`,
      "say FROM-TO, or by order such as #1-#8",
    );
  const wish = text.trim();
  const cuts = [...wish.matchAll(/\s*-\s*/g)].map((cut) => [
    wish.slice(0, cut.index),
    wish.slice(cut.index + cut[0].length),
  ]);
  const known = (label: string): boolean => matching(label, bars).length > 0;
  const whole = known(wish) || cuts.length === 0;
  const [first = wish, last = wish] = whole
    ? [wish, wish]
    : (cuts.find(([a = "", b = ""]) => known(a) && known(b)) ?? cuts[0] ?? []);
  const span = { from: oneBar(first, bars, file), to: oneBar(last, bars, file) };
  if (span.from > span.to)
    throw new InputProblem("no-bar", file, `bar ${first} comes after bar ${last}`, `say ${last}-${first}`);
  return span;
}

function matching(label: string, bars: readonly Bar[]): readonly Bar[] {
  const order = /^#(\d{1,6})$/.exec(label);
  const numbered = order === null ? undefined : bars[Number(order[1]) - 1];
  return numbered === undefined ? bars.filter((bar) => bar.label === label) : [numbered];
}

function oneBar(label: string, bars: readonly Bar[], file: string): number {
  const [found, second] = matching(label, bars);
  if (found === undefined)
    throw new InputProblem(
      "no-bar",
      file,
      `there is no bar "${label}"`,
      `say FROM-TO within ${bars[0]?.label} to ${bars.at(-1)?.label}, or by order #1 to #${bars.length}`,
    );
  if (second !== undefined)
    throw new InputProblem(
      "two-bars",
      file,
      `two bars carry the label "${label}"`,
      `say #${found.index + 1} or #${second.index + 1}, by their order`,
    );
  return found.index;
}
