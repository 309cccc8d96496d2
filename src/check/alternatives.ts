// SPDX-License-Identifier: AGPL-3.0-or-later
// Other ways to play each note, with what the whole line would cost then: exact, from the search.

import { follows } from "../candidates/lefts.js";
import type { Opened } from "../candidates/opened.js";
import { givesNothing, type SpokenNote, spokenForm } from "../model/fingering.js";
import type { Moment } from "../model/moments.js";
import type { Left, Placed, Right } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import { type Cost, unweigh } from "../rule/cost.js";
import type { Played } from "../search/charges.js";
import type { Toll } from "../search/moves.js";
import type { Searched } from "../search/solve.js";
import { strokeOn } from "./check.js";
import { type LineTerms, type OpenLine, openLine } from "./open-line.js";
import { placeName } from "./place-name.js";

/** Another way to play a moment. */
export interface Alternative {
  /** both strings of a pinch */
  readonly left: Left;
  readonly right: Right;
  /** one a placed note, in the order of `left.placed` */
  readonly readings: readonly string[];
  /** of the cheapest whole line through it */
  readonly total: Cost;
}

/** A line whose every note may be asked for other ways, while the others keep what is given for them. */
export interface Openable extends LineTerms {
  readonly played: Played;
  readonly searched: Searched;
}

/**
 * The other ways to play each moment, cheapest first: each place once, with its best finger and stroke; at the place
 * that is played each other finger and each other stroke. The notes around keep what the score gives for them.
 */
export function alternativesOf(line: Openable, open = () => openLine(line)): readonly (readonly Alternative[])[] {
  const { moments } = line.played;
  const given = moments.map(isGiven);
  const { searched, choices } = given.some(Boolean) ? closedLine(open(), given) : line;
  return moments.map((_, at) => {
    const prices = given[at] ? searched.released(at) : null;
    const price = (state: number): number => prices?.[state] ?? searched.price(at, state);
    return cheapestWays(at, line, { searched, price, before: choices[at - 1]?.lefts ?? [] });
  });
}

/** Something is given that may be set free. */
function isGiven(moment: Moment): boolean {
  return moment.notes.some((note) => !givesNothing(note.given));
}

/** The line with everything allowed, but closed to all that the given fingering does not permit. */
function closedLine({ opened, searched }: OpenLine, given: readonly boolean[]): Pick<Openable, "searched" | "choices"> {
  const tolls = given.map((one, at) => (one ? closedTo(opened, at) : null));
  return { searched: searched.retolled(tolls), choices: opened.choices };
}

/** Lets through what the given fingering permits, and nothing else. */
function closedTo(opened: Opened, at: number): Toll {
  return {
    left: (left) => (opened.permitsLeft(at, left) ? 0 : Number.POSITIVE_INFINITY),
    right: (right) => (opened.permitsRight(at, right) ? 0 : Number.POSITIVE_INFINITY),
  };
}

interface Asked {
  readonly searched: Searched;
  readonly price: (state: number) => number;
  /** hands of the moment before */
  readonly before: readonly Left[];
}

interface Way {
  readonly left: Left;
  readonly right: Right;
  readonly price: number;
}

function cheapestWays(at: number, line: Openable, { searched, price, before }: Asked): readonly Alternative[] {
  const own = namesOf(line.played.lefts[at] as Left);
  const ownStroke = strokeName(line.played.lefts[at] as Left, line.played.rights[at] as Right);
  const best = new Map<string, Way>();
  let left: Left | null = null;
  let names = own;
  for (let state = 0; state < searched.states(at); state++) {
    const way = { ...searched.hands(at, state), price: price(state) };
    if (way.left.first === null || !Number.isFinite(way.price)) continue;
    if (way.left !== left) names = namesOf(way.left);
    left = way.left;
    const stroke = names.hold === own.hold ? strokeName(way.left, way.right) : "";
    if (names.hold === own.hold && stroke === ownStroke) continue;
    const key = names.place !== own.place ? names.place : `${names.hold} ${stroke}`;
    const known = best.get(key);
    if (known === undefined || way.price < known.price) best.set(key, way);
  }
  const { setting } = line;
  const thumbStroke = line.played.moments[at]?.thumbStroke ?? "bo";
  return [...best.values()]
    .sort((a, b) => a.price - b.price)
    .map(({ left: hand, right, price: cost }) => ({
      left: hand,
      right,
      readings: hand.placed.map((placed) =>
        spokenForm({ ...spoken(placed, hand, right), previous: previousTo(hand, before, setting), thumbStroke }),
      ),
      total: unweigh(cost),
    }));
}

/** Names of a left hand's strings and places, and of the same with its fingers. */
function namesOf(left: Left): { readonly place: string; readonly hold: string } {
  const place = placeName(left);
  return { place, hold: `${place} ${left.placed.map((one) => `${one.finger} ${one.contact}`).join("+")}` };
}

/** The stroke; where the middle finger waits and where an idle hand lies is nothing that one reads. */
function strokeName(left: Left, { stroke, innerStroke, figure }: Right): string {
  return left.chain > 0 ? "" : `${stroke} ${innerStroke} ${figure?.name}`;
}

/** A placed note as it is spoken, but for what comes before it. */
function spoken(placed: Placed, left: Left, right: Right): Omit<SpokenNote, "previous"> {
  return {
    ...placed,
    arrival: left.arrival,
    stroke: left.chain > 0 ? null : strokeOn(right, placed),
    figure: right.figure?.name ?? null,
    across: right.figure?.across ?? null,
    entry: null,
    ornament: null,
  };
}

/** The note that a note without a pluck hangs on, whichever hand comes before: one that it follows. */
function previousTo(left: Left, before: readonly Left[], setting: Setting): Placed | null {
  const from = left.chain > 0 ? before.filter((one) => follows(one, left, setting)) : [];
  return (from.find((one) => one.first?.finger === "ring") ?? from[0])?.first ?? null;
}
