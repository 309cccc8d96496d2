// SPDX-License-Identifier: AGPL-3.0-or-later
// Other ways to play each note, with what the whole line would cost then: exact, from the search.

import { follows } from "../candidates/lefts.js";
import type { Opened } from "../candidates/opened.js";
import { fits } from "../candidates/placements.js";
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

/** Another way to play a note. */
export interface Alternative {
  readonly placed: Placed;
  readonly left: Left;
  readonly right: Right;
  readonly reading: string;
  /** of the cheapest whole line through it */
  readonly total: Cost;
}

/** A line whose every note may be asked for other ways, while the others keep what is given for them. */
export interface Openable extends LineTerms {
  readonly played: Played;
  readonly searched: Searched;
}

/**
 * The other ways to play each note of each moment, cheapest first: each place once, with its best finger and stroke; at
 * the place that is played each other finger and each other stroke. The notes around keep what the score gives for them,
 * those of the same chord too.
 */
export function alternativesOf(
  line: Openable,
  open = () => openLine(line),
): readonly (readonly (readonly Alternative[])[])[] {
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
  readonly placed: Placed;
  readonly left: Left;
  readonly right: Right;
  readonly price: number;
}

/** What a way is told apart by: arrival, string and place; the same with the finger. */
interface HoldName {
  readonly place: string;
  readonly hold: string;
}

/** For each note of the moment. */
function cheapestWays(
  at: number,
  { played, setting }: Openable,
  { searched, price, before }: Asked,
): readonly (readonly Alternative[])[] {
  const moment = played.moments[at] as Moment;
  const keyOf = keysBeside(played.lefts[at] as Left, played.rights[at] as Right);
  const best = moment.notes.map(() => new Map<string, Way>());
  for (let state = 0; state < searched.states(at); state++) {
    const cost = price(state);
    if (!Number.isFinite(cost)) continue;
    const { left, right } = searched.hands(at, state);
    for (const placed of left.placed) {
      const key = othersAsGiven(moment, placed, left, right) ? keyOf(placed, left, right) : null;
      const ways = best[placed.note];
      if (key !== null && cost < (ways?.get(key)?.price ?? Number.POSITIVE_INFINITY))
        ways?.set(key, { placed, left, right, price: cost });
    }
  }
  return best.map((ways) =>
    [...ways.values()].sort((a, b) => a.price - b.price).map((way) => alternative(way, moment, before, setting)),
  );
}

/** Of ways with the same key only the cheapest is kept; null is the key of the way that is played. */
function keysBeside(ownLeft: Left, ownRight: Right): (placed: Placed, left: Left, right: Right) => string | null {
  const names = new WeakMap<Left, Map<Placed, HoldName>>();
  const owns = new Map(
    ownLeft.placed.map((placed) => [
      placed.note,
      { ...holdName(placed, ownLeft), stroke: strokeName(placed, ownLeft, ownRight) },
    ]),
  );
  const nameOf = (placed: Placed, left: Left): HoldName => {
    const known = names.get(left) ?? new Map<Placed, HoldName>();
    names.set(left, known);
    const name = known.get(placed) ?? holdName(placed, left);
    known.set(placed, name);
    return name;
  };
  return (placed, left, right) => {
    const own = owns.get(placed.note);
    const { place, hold } = nameOf(placed, left);
    if (place !== own?.place) return place;
    if (hold !== own.hold) return hold;
    const stroke = strokeName(placed, left, right);
    return stroke === own.stroke ? null : `${hold} ${stroke}`;
  };
}

function alternative({ placed, left, right, price }: Way, moment: Moment, before: readonly Left[], setting: Setting) {
  const previous = previousTo(left, before, setting);
  const { thumbStroke } = moment;
  return {
    ...{ placed, left, right },
    reading: spokenForm({ ...spoken(placed, left, right), previous, thumbStroke }),
    total: unweigh(price),
  };
}

function holdName(placed: Placed, left: Left): HoldName {
  const place = `${left.arrival} ${placed.string} ${placed.sound} ${placed.position}`;
  return { place, hold: `${place} ${placed.finger} ${placed.contact}` };
}

/** The stroke; where the middle finger waits and where an idle hand lies is nothing that one reads. */
function strokeName(placed: Placed, left: Left, right: Right): string {
  return left.chain > 0 ? "" : `${strokeOn(right, placed)} ${right.figure?.name}`;
}

/** Whether the other notes of a chord keep what is given for them. */
function othersAsGiven({ notes }: Moment, own: Placed, left: Left, right: Right): boolean {
  return left.placed.every((placed) => {
    const given = notes[placed.note]?.given;
    if (placed === own || given === undefined) return true;
    return fits(placed, given) && (given.stroke === null || given.stroke === strokeOn(right, placed));
  });
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
