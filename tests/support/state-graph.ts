// SPDX-License-Identifier: AGPL-3.0-or-later
// The search as a plain graph: every pair of hands at every moment is a state, every way on is an edge. It shares with
// the search only what the rules charge; which states there are and what joins them is worked out here once more.
import type { Choice } from "../../src/candidates/candidates.js";
import { follows } from "../../src/candidates/lefts.js";
import type { Moment } from "../../src/model/moments.js";
import { type Left, type Right, rightAt } from "../../src/model/playing.js";
import type { Setting } from "../../src/model/setting.js";
import type { Rule } from "../../src/rule/types.js";
import { PLAIN_WEIGHTING, type Weighting } from "../../src/rule/weighting.js";
import {
  chargingRules,
  handGapAt,
  handWeight,
  placeWeight,
  START,
  strikeWeight,
  strokeGapAt,
  strokeWeight,
} from "../../src/search/pricing.js";

/** Both hands at one moment. */
export interface State {
  readonly left: Left;
  /** of a note without a pluck the stroke that still stands */
  readonly right: Right;
}

/** States moment by moment, and what they and the ways between them cost. */
export interface Layered {
  /** how many states each moment has */
  readonly sizes: readonly number[];
  /** what a state costs by itself; at the first moment also what it costs to begin there */
  own(at: number, state: number): number;
  /** what it costs to get from a state to one of the next moment, `at`; Infinity where no hands can */
  move(at: number, from: number, to: number): number;
}

/** The states of a line, the cost of a way told apart by hands. */
export interface StateGraph extends Layered {
  readonly states: readonly (readonly State[])[];
  /** the left hand's part of a move */
  hand(at: number, from: number, to: number): number;
  /** the right hand's part of a move that plucks */
  stroke(at: number, from: number, right: Right): number;
}

/** What a line is made of. */
export interface Material {
  readonly choices: readonly Choice[];
  readonly setting: Setting;
  readonly rules: readonly Rule[];
  readonly weighting?: Weighting;
}

/** The graph of a line: what a hand without a pluck may follow, it follows under the stroke that stands. */
export function stateGraph(material: Material): StateGraph {
  const prices = new Prices(material);
  const states = statesOf(material);
  const stateAt = (at: number, index: number): State => states[at]?.[index] as State;
  const hand = (at: number, from: number, to: number): number => {
    const [before, after] = [stateAt(at - 1, from), stateAt(at, to)];
    if (!leads(before, after, material.setting)) return Number.POSITIVE_INFINITY;
    return prices.hand(at, before.left, after.left);
  };
  const stroke = (at: number, from: number, right: Right): number => prices.stroke(at, stateAt(at - 1, from), right);
  return {
    states,
    sizes: states.map(({ length }) => length),
    own: (at, index) => prices.own(at, stateAt(at, index)),
    hand,
    stroke,
    move: (at, from, to) => {
      const after = stateAt(at, to);
      return hand(at, from, to) + (isPlucked(after) ? stroke(at, from, after.right) : 0);
    },
  };
}

const isPlucked = ({ left }: State): boolean => left.arrival === "plucked";

/** After a pluck anything goes; a note without one hangs on the hand before it and on its stroke. */
function leads(before: State, after: State, setting: Setting): boolean {
  return isPlucked(after) || (after.right === before.right && follows(before.left, after.left, setting));
}

/** Every plucked hand with every stroke on its strings, every other with each stroke that may stand when it comes. */
function statesOf({ choices, setting }: Material): readonly (readonly State[])[] {
  const states: State[][] = [];
  for (const { lefts, rights } of choices) {
    const offered = [...rights.keys()].filter((id) => rights[id] === 1).map(rightAt);
    const before = states.at(-1) ?? [];
    states.push(
      lefts.flatMap((left) => {
        const plucked = left.arrival === "plucked";
        const standing = before.filter((one) => !plucked && follows(one.left, left, setting)).map(({ right }) => right);
        const struck = offered.filter((right) => plucked && right.strings === left.strings);
        return [...new Set([...standing, ...struck])].map((right) => ({ left, right }));
      }),
    );
  }
  return states;
}

/** What the rules charge, asked through the search's pricing; each question is asked once and remembered. */
class Prices {
  private readonly charging;
  private readonly weighting;
  private readonly moments;
  private readonly owns = new Map<State, number>();
  /** by moment: equal hands may meet again over another length of time */
  private readonly hands: readonly Map<Left, Map<Left, number>>[];
  private readonly strokes: readonly Map<string, number>[];

  constructor({ choices, rules, weighting = PLAIN_WEIGHTING }: Material) {
    this.charging = chargingRules(rules);
    this.weighting = weighting;
    this.moments = choices.map(({ moment }) => moment);
    this.hands = choices.map(() => new Map());
    this.strokes = choices.map(() => new Map());
  }

  own(at: number, state: State): number {
    return remembered(this.owns, state, () => {
      const { left, right } = state;
      const factors = this.weighting.between(at, at);
      const place = placeWeight(this.charging, this.moments[at] as Moment, left, factors);
      const strike = isPlucked(state) && right.stroke !== null ? strikeWeight(this.charging, right, factors) : 0;
      const start = at > 0 ? 0 : handWeight(this.charging, START, left, handGapAt(this.moments, 0, 0), factors);
      return place + strike + start;
    });
  }

  hand(at: number, from: Left, to: Left): number {
    const known = remembered(this.hands[at] as Map<Left, Map<Left, number>>, from, () => new Map<Left, number>());
    return remembered(known, to, () => {
      const factors = this.weighting.between(at - 1, at);
      return handWeight(this.charging, from, to, handGapAt(this.moments, at, to.chain), factors);
    });
  }

  stroke(at: number, before: State, to: Right): number {
    const { chain } = before.left;
    return remembered(this.strokes[at] as Map<string, number>, `${chain} ${before.right.id} ${to.id}`, () => {
      const factors = this.weighting.between(Math.max(0, at - 1 - chain), at);
      return strokeWeight(this.charging, before.right, to, strokeGapAt(this.moments, at, chain), factors);
    });
  }
}

function remembered<K, V>(known: Map<K, V>, key: K, make: () => V): V {
  const found = known.get(key);
  if (found !== undefined) return found;
  const made = make();
  known.set(key, made);
  return made;
}

/** The same graph from its last moment to its first. */
export function reversed(graph: Layered): Layered {
  const last = graph.sizes.length - 1;
  return {
    sizes: [...graph.sizes].reverse(),
    own: (at, state) => graph.own(last - at, state),
    move: (at, from, to) => graph.move(last - at + 1, to, from),
  };
}

/** The ways to a state: what the cheapest costs, how many cost as much, and how many there are. */
export interface Ways {
  readonly least: number;
  readonly ties: number;
  readonly all: number;
}

/** No way at all. */
const NO_WAY: Ways = { least: Number.POSITIVE_INFINITY, ties: 0, all: 0 };

/** Two sets of ways together. */
function either(a: Ways, b: Ways): Ways {
  const least = Math.min(a.least, b.least);
  const ties = (a.least === least ? a.ties : 0) + (b.least === least ? b.ties : 0);
  return { least, ties, all: a.all + b.all };
}

/** The same ways, each longer by so much. */
const then = (ways: Ways, cost: number): Ways =>
  cost < Number.POSITIVE_INFINITY ? { ...ways, least: ways.least + cost } : NO_WAY;

/** The ways to every state of every moment, one moment after the other, over every edge. */
export function waysTo(graph: Layered): readonly (readonly Ways[])[] {
  const ways: Ways[][] = [];
  for (const [at, size] of graph.sizes.entries()) {
    const before = ways.at(-1);
    ways.push(
      Array.from({ length: size }, (_, to) => {
        const begun = before === undefined ? { least: 0, ties: 1, all: 1 } : NO_WAY;
        const arrived = (before ?? []).reduce(
          (sum, one, from) => either(sum, then(one, graph.move(at, from, to))),
          begun,
        );
        return then(arrived, graph.own(at, to));
      }),
    );
  }
  return ways;
}

/** The ways from one end to the other. */
export function waysThrough(graph: Layered): Ways {
  return (waysTo(graph).at(-1) ?? []).reduce(either, NO_WAY);
}

/** A way between two named nodes. */
export interface Edge {
  readonly from: string;
  readonly to: string;
  readonly weight: number;
}

/** Where all lines of {@link denseEdges} and {@link splitEdges} begin. */
export const SOURCE = "source";
/** Where they end. */
export const SINK = "sink";

/** The name of a state's node. */
export const nodeOf = (at: number, state: number): string => `${at}:${state}`;

function* ends(graph: Layered): Generator<Edge> {
  const last = graph.sizes.length - 1;
  for (let k = 0; k < (graph.sizes[0] ?? 0); k++) yield { from: SOURCE, to: nodeOf(0, k), weight: graph.own(0, k) };
  for (let k = 0; k < (graph.sizes[last] ?? 0); k++) yield { from: nodeOf(last, k), to: SINK, weight: 0 };
}

/** Every way from every state to every state of the next moment, one edge each. */
export function* denseEdges(graph: Layered): Generator<Edge> {
  yield* ends(graph);
  for (let at = 1; at < graph.sizes.length; at++)
    for (let from = 0; from < (graph.sizes[at - 1] as number); from++)
      for (let to = 0; to < (graph.sizes[at] as number); to++) {
        const weight = graph.move(at, from, to) + graph.own(at, to);
        if (weight < Number.POSITIVE_INFINITY) yield { from: nodeOf(at - 1, from), to: nodeOf(at, to), weight };
      }
}

/**
 * The same ways with fewer edges: a pluck goes by a stopover at which the stroke is chosen and the hand has not moved
 * yet. The two parts add up to the same, since no rule sees more than one hand's move.
 */
export function* splitEdges(graph: StateGraph): Generator<Edge> {
  yield* ends(graph);
  for (let at = 1; at < graph.sizes.length; at++) {
    const before = graph.states[at - 1] as readonly State[];
    const after = graph.states[at] as readonly State[];
    const strokes = [...new Set(after.filter(isPlucked).map(({ right }) => right))];
    /** one state for each left hand: the way into the next moment is the same from all */
    const hands = before.flatMap(({ left }, k) => (before[k - 1]?.left === left ? [] : [k]));
    const stopover = (from: number, right: Right): string => `${at}:${hands.findLast((k) => k <= from)}>${right.id}`;
    for (const from of before.keys())
      for (const right of strokes)
        yield { from: nodeOf(at - 1, from), to: stopover(from, right), weight: graph.stroke(at, from, right) };
    for (const [to, state] of after.entries()) {
      const plucked = isPlucked(state);
      for (const from of plucked ? hands : before.keys()) {
        const weight = graph.hand(at, from, to) + graph.own(at, to);
        if (weight === Number.POSITIVE_INFINITY) continue;
        yield { from: plucked ? stopover(from, state.right) : nodeOf(at - 1, from), to: nodeOf(at, to), weight };
      }
    }
  }
}
