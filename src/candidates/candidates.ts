// SPDX-License-Identifier: AGPL-3.0-or-later
// Everything the two hands may do, moment by moment: what the search chooses from.
import { isFigure } from "../model/compounds.js";
import { type GivenFingering, NOTHING_GIVEN } from "../model/fingering.js";
import { handZonesCm } from "../model/frame.js";
import type { Moment, MomentNote } from "../model/moments.js";
import {
  countOfRights,
  figureRights,
  type Left,
  type Placed,
  RIGHTS,
  type Right,
  rightAt,
  type Strings,
} from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import type { Rule } from "../rule/types.js";
import { type Hands, pluckedLefts, silentLefts, unpluckedLefts } from "./lefts.js";
import { placementsOf } from "./placements.js";
import { type NumberedLefts, Shelf } from "./shelf.js";

/** What may be done at one moment. */
export interface Choice {
  readonly moment: Moment;
  /** plucked (or silent) hands first, then those without a pluck; fixed order */
  readonly lefts: readonly Left[];
  /** how many of `lefts` are plucked or silent */
  readonly plucked: number;
  /** number of the list of plucked hands on the shelf: equal numbers mean the same list; negative for one of its own */
  readonly pluckedList: number;
  /** for each id of a right hand, 1 if this stroke may be used here */
  readonly rights: Uint8Array;
}

/** The middle finger waits only where one of this many next notes could take it. */
const PLANT_AHEAD = 4;

/**
 * The choices of a line.
 *
 * @param moments the melody in the setting
 * @param rules   the rule book made for the setting: what rules withhold is not proposed
 * @param shelf   ways to hold notes from lines with the same hand and strings of the same length
 */
export function choicesOf(
  moments: readonly Moment[],
  setting: Setting,
  rules: readonly Rule[],
  shelf = new Shelf(),
): readonly Choice[] {
  const hands = handsFor(setting, rules, shelf);
  const proposed = proposedStrokes(rules);
  const lists = new Map<string, PluckedList>();
  const listOf = (moment: Moment) => {
    const key = signature(moment);
    const known = lists.get(key);
    if (known !== undefined) return known;
    const list = new PluckedList(shelf.list(pluckedLefts(moment, hands)));
    lists.set(key, list);
    return list;
  };
  const plucked = moments.map(listOf);
  const free = moments.map((moment, i) =>
    saysNothing(moment) ? (plucked[i] as PluckedList) : listOf(withoutGiven(moment)),
  );
  const figures = moments.map(figuresAt);
  const strokes = new Offered(proposed);
  const choices: Choice[] = [];
  let before: readonly Left[] = [];
  for (const [i, moment] of moments.entries()) {
    const list = plucked[i] as PluckedList;
    const rights = strokes.at(moment, plantableStrings(i, moments, free), figures[i] ?? null);
    const struck = list.struckBy(rights);
    const unplucked = unpluckedLefts(moment, before, hands);
    const silent = struck.length + unplucked.length === 0;
    before = silent ? silentLefts(moment, hands) : unplucked.length === 0 ? struck : [...struck, ...unplucked];
    choices.push({
      moment,
      lefts: before,
      plucked: silent ? before.length : struck.length,
      pluckedList: silent || struck.length < list.lefts.length ? -1 - i : list.id,
      rights,
    });
  }
  return choices;
}

/** Whether nothing was written or pinned: the reader then gives every note the same empty fingering. */
const saysNothing = ({ notes }: Moment): boolean => notes.every((note) => note.given === NOTHING_GIVEN);

/** The moment as if the score said nothing of its fingering. */
function withoutGiven(moment: Moment): Moment {
  return { ...moment, notes: moment.notes.map((note) => ({ ...note, given: NOTHING_GIVEN })) };
}

/** Moments with equal signatures have the same plucked hands. */
function signature(moment: Moment): string {
  return moment.notes.map(noteSignature).join("+");
}

/** Notes with equal signatures have the same placements. */
function noteSignature(one: MomentNote): string {
  if (one.given === NOTHING_GIVEN) return `${one.cents}/${one.semitone}`;
  const { text: _, written: __, held: ___, entry: ____, ornament: _____, ...given } = one.given;
  return `${one.cents}/${one.semitone}/${Object.values(given).join()}`;
}

/** What hands are made with; each note's placements are found once. */
function handsFor(setting: Setting, rules: readonly Rule[], shelf: Shelf): Hands {
  const withheld = withheldPlaces(rules);
  const known = new Map<string, readonly Placed[]>();
  const placements = (note: MomentNote, index: number): readonly Placed[] => {
    const key = `${index} ${noteSignature(note)}`;
    const found = known.get(key) ?? placementsOf(note, index, setting, withheld, shelf);
    known.set(key, found);
    return found;
  };
  return { setting, zonesCm: handZonesCm(setting), placements, shelf };
}

/** The plucked hands of moments with one signature. */
class PluckedList {
  /** the strings that a stroke on one of these hands begins with */
  readonly outer: ReadonlySet<number>;
  private readonly struck = new Map<Uint8Array, readonly Left[]>();

  readonly id: number;
  readonly lefts: readonly Left[];

  constructor({ id, lefts }: NumberedLefts) {
    this.id = id;
    this.lefts = lefts;
    this.outer = new Set(lefts.map((left) => left.strings.outer).filter((string) => string > 0));
  }

  /** Those on strings that these strokes sound; equal strokes give the same array. */
  struckBy(rights: Uint8Array): readonly Left[] {
    let known = this.struck.get(rights);
    if (known === undefined) {
      const strings = struckStrings(rights);
      known = this.lefts.filter((left) => strings.has(left.strings));
      this.struck.set(rights, known);
    }
    return known;
  }
}

/** The strings that some stroke of these sounds. */
function struckStrings(rights: Uint8Array): ReadonlySet<Strings> {
  const struck = new Set<Strings>();
  for (const [id, offered] of rights.entries()) if (offered === 1) struck.add(rightAt(id).strings);
  return struck;
}

function withheldPlaces(rules: readonly Rule[]): (placed: Placed) => boolean {
  const tests = rules.flatMap((rule) =>
    rule.reach === "place" && rule.withholds !== undefined ? [rule.withholds] : [],
  );
  return (placed) => tests.some((test) => test(placed));
}

/** The strokes that no rule withholds. */
function proposedStrokes(rules: readonly Rule[]): ReadonlySet<Right> {
  const tests = rules.flatMap((rule) =>
    rule.reach === "strike" && rule.withholds !== undefined ? [rule.withholds] : [],
  );
  return new Set(RIGHTS.filter((right) => !tests.some((test) => test(right))));
}

/** The right hands of the compound stroke that a score gives for a note; null where it gives none. */
function figuresAt(moment: Moment): ReadonlySet<Right> | null {
  const [note, ...others] = moment.notes;
  const { compound = null, across = null } = note?.given ?? {};
  if (others.length > 0 || !isFigure(compound)) return null;
  // A note that cannot be placed is struck by nothing.
  return new Set([...figureRights(compound, across), RIGHTS[RIGHTS.length - 1] as Right]);
}

type Lists = readonly PluckedList[];

/** The strokes of moments: most offer the same ones, which are one array, so that what follows from them is found once. */
class Offered {
  private readonly free = new Map<string, Uint8Array>();

  constructor(private readonly proposed: ReadonlySet<Right>) {}

  /** Marks the strokes that may be used at a moment: what the score gives, else those proposed. */
  at(moment: Moment, plantable: ReadonlySet<number>, figures: ReadonlySet<Right> | null): Uint8Array {
    const given = moment.notes.map((note) => note.given).filter((one) => one.stroke !== null || one.compound !== null);
    if (given.length > 0 || figures !== null) return offer(plantable, given, figures ?? this.proposed);
    const key = `${countOfRights()}:${[...plantable].sort().join()}`;
    const known = this.free.get(key) ?? offer(plantable, given, this.proposed);
    this.free.set(key, known);
    return known;
  }
}

function offer(
  plantable: ReadonlySet<number>,
  given: readonly GivenFingering[],
  proposed: ReadonlySet<Right>,
): Uint8Array {
  const offered = new Uint8Array(countOfRights());
  for (let id = 0; id < offered.length; id++) {
    const right = rightAt(id);
    const planting = right.planted === 0 || plantable.has(right.planted);
    if (planting && fitsGiven(right, given, proposed)) offered[id] = 1;
  }
  return offered;
}

function fitsGiven(right: Right, given: readonly GivenFingering[], proposed: ReadonlySet<Right>): boolean {
  const figured = given.some((one) => isFigure(one.compound));
  if (figured || right.figure !== null || given.length === 0) return proposed.has(right);
  return (
    pinchFits(right, given) &&
    strokesFit(
      right,
      given.filter((one) => one.stroke !== null),
    )
  );
}

/** A given cuo is that pinch; yuan lou only where it or its mo is given; where only one note of the chord is left, one of its strokes. */
function pinchFits({ pinch }: Right, given: readonly GivenFingering[]): boolean {
  if (pinch === "yuan-lou" && given.every(({ compound, stroke }) => compound !== pinch && stroke !== "mo"))
    return false;
  return given.every(({ compound }) => {
    if (compound === null || pinch === null) return true;
    return compound === "cuo" ? pinch.endsWith("cuo") && pinch !== "reverse-cuo" : compound === pinch;
  });
}

/** A pinch must hold every given stroke; a single stroke is a given one (of a chord only one note may be left). */
function strokesFit(right: Right, given: readonly GivenFingering[]): boolean {
  if (right.stroke === null) return true;
  if (right.innerStroke === null) return given.length === 0 || given.some((one) => one.stroke === right.stroke);
  return given.every((one) => {
    if (one.string === right.strings.outer) return one.stroke === right.stroke;
    if (one.string === right.strings.inner) return one.stroke === right.innerStroke;
    return one.stroke === right.stroke || one.stroke === right.innerStroke;
  });
}

/**
 * Strings that one of the next notes could take with gou, up to the next rest, whatever is given for it: a fingering
 * that is read back must offer the same waiting fingers as the search that found it.
 */
function plantableStrings(index: number, moments: readonly Moment[], free: Lists): ReadonlySet<number> {
  const strings = new Set<number>();
  for (let i = index + 1; i <= index + PLANT_AHEAD && i < moments.length; i++) {
    if (moments[i]?.rested) break;
    for (const string of free[i]?.outer ?? []) strings.add(string);
  }
  return strings;
}
