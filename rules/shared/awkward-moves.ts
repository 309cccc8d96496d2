// SPDX-License-Identifier: AGPL-3.0-or-later
// Where awkward moves crowd together: shared by the two rules about knots.
import type { Line, Parameter } from "../../src/rule/types.js";
import { holds, isGiven } from "../../src/rule/weighting.js";
import { phrase } from "../../src/words.js";
import { barAt, type Run } from "./runs.js";

/** The numbers that both rules about knots use. */
export const KNOT_PARAMETERS = {
  plucks: {
    default: 4,
    unit: "plucks",
    doc: phrase("awkward moves are summed over so many plucks in a row", "每连续这么多次弹弦，合计其中别扭的动作"),
    evidence: "our judgement",
  },
  effort: {
    default: 2,
    unit: "spare moves",
    doc: phrase("a knot where the sum passes this", "合计超过此数，就算挤成一团"),
    evidence: "our judgement",
  },
  inBar: {
    default: 3,
    unit: "findings",
    doc: phrase("or where one bar holds so many findings of movement", "或一小节里有这么多处动作上的发现"),
    evidence: "our judgement",
  },
  least: {
    default: 0.3,
    unit: "spare moves",
    doc: phrase(
      "a knot begins and ends with a move that weighs so much: easy notes beside it are no part of it",
      "挤成一团的一段，首尾都须是重到此数的动作：旁边轻松的音不算在内",
    ),
    evidence: "our judgement",
  },
} as const satisfies Readonly<Record<string, Parameter>>;

/** Charges that say what a note is, not how the hands move. */
const NO_MOVES = new Set([
  "stroke-and-string",
  "finger-and-place",
  "hard-to-find-position",
  "thin-register",
  "fading-note",
  "passed-over-open-string",
  "unasked-harmonic",
  "written-place-mismatch",
]);

/** Findings that count as movement in a bar. */
const MOVES = new Set(["alternate-strokes", "travel-under-sound", "hand-shift"]);

/** A run of moments whose moves are awkward. */
export interface Knot extends Run {
  /** the largest sum over the window, in spare moves */
  readonly effort: number;
}

/** What the moves into each moment weigh, in spare moves. */
export function movesAt(line: Line): readonly number[] {
  const sums = line.moments.map(() => 0);
  for (const { rule, at, effort } of line.charges) if (!NO_MOVES.has(rule)) sums[at] = (sums[at] as number) + effort;
  return sums;
}

/** The line with nothing but the moves of the writer's that a passage means to struggle, as they weigh without the brief. */
export function meantAlone(line: Line): Line {
  const isMeant = line.moments.map(
    (moment) =>
      isGiven(moment) && line.brief.passages.some((one) => one.character === "struggling" && holds(one, moment)),
  );
  const charges = line.charges.flatMap((charge) => (isMeant[charge.at] ? [{ ...charge, effort: charge.own }] : []));
  return { ...line, charges, found: [] };
}

/** The numbers of {@link KNOT_PARAMETERS}. */
type KnotValues = { readonly [name in keyof typeof KNOT_PARAMETERS]: number };

/** All knots of a line, overlapping windows joined, in order. */
export function knotsOf(line: Line, values: KnotValues): readonly Knot[] {
  const sums = movesAt(line);
  const knots: Knot[] = [];
  const add = (knot: Knot): void => {
    const last = knots.at(-1);
    if (last !== undefined && knot.from <= last.to)
      knots[knots.length - 1] = {
        from: last.from,
        to: Math.max(last.to, knot.to),
        effort: Math.max(last.effort, knot.effort),
      };
    else knots.push(knot);
  };
  const crowded = crowdedBars(line, values.inBar);
  for (let from = 0; from < sums.length; from++) {
    const to = windowEnd(line, from, values.plucks);
    const effort = sums.slice(from, to + 1).reduce((a, b) => a + b, 0);
    if (effort > values.effort || (crowded.has(barAt(line, from)) && (sums[from] as number) > 0))
      add({ from, to, effort });
  }
  return knots.map((knot) => tightened(knot, sums, values.least));
}

/**
 * A knot without the easy notes at its ends, so that a brief which names the awkward bars covers it. A move belongs to the
 * note that it leads to.
 */
function tightened(knot: Knot, sums: readonly number[], least: number): Knot {
  const awkward = (sum: number, at: number): boolean => at >= knot.from && at <= knot.to && sum >= least;
  const first = sums.findIndex(awkward);
  const last = sums.findLastIndex(awkward);
  return first < 0 ? knot : { ...knot, from: first, to: last };
}

/** The last moment of a window that begins at `from` and holds so many plucks, within one breath (no rest). */
function windowEnd(line: Line, from: number, plucks: number): number {
  let left = plucks - 1;
  let to = from;
  while (to + 1 < line.moments.length && left > 0 && !line.moments[to + 1]?.rested) {
    to += 1;
    if (line.lefts[to]?.chain === 0) left -= 1;
  }
  return to;
}

/** Bars that hold many findings of movement. */
function crowdedBars(line: Line, many: number): ReadonlySet<number> {
  const barOf = new Map(line.score.notes.map((note) => [note.id, note.bar]));
  const counts = new Map<number, number>();
  for (const { rule, notes } of line.found) {
    const bar = barOf.get(notes.at(-1) ?? "");
    if (bar !== undefined && MOVES.has(rule)) counts.set(bar, (counts.get(bar) ?? 0) + 1);
  }
  return new Set([...counts].filter(([, count]) => count >= many).map(([bar]) => bar));
}

/** The character that the brief states for the whole of a run, null where it states none. */
export function characterOf(line: Line, knot: Knot): "flowing" | "struggling" | null {
  const bars = [barAt(line, knot.from), barAt(line, knot.to)];
  const stated = line.brief.passages.find(
    (passage) => passage.character !== null && bars.every((bar) => bar >= passage.fromBar && bar <= passage.toBar),
  );
  return stated?.character ?? null;
}
