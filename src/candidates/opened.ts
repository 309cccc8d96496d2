// SPDX-License-Identifier: AGPL-3.0-or-later
// A line in which everything is free, and what somebody gave for it is one way among the others.
import { setFree } from "../model/fingering.js";
import type { Moment } from "../model/moments.js";
import type { Left, Right } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import type { Rule } from "../rule/types.js";
import { type Choice, choicesOf } from "./candidates.js";

/** Choices with the given ones among them. */
export interface Opened {
  readonly choices: readonly Choice[];
  /** whether the given fingering permits this hand at a moment */
  permitsLeft(index: number, left: Left): boolean;
  /** whether it permits this stroke */
  permitsRight(index: number, right: Right): boolean;
}

/**
 * Opens a line up.
 *
 * @param given the choices that the given fingering leaves
 */
export function openedUp(given: readonly Choice[], setting: Setting, rules: readonly Rule[]): Opened {
  const free = choicesOf(
    given.map(({ moment }) => setMomentFree(moment)),
    setting,
    rules,
  );
  const permitted = given.map(({ lefts }) => new Set(lefts.map(handName)));
  return {
    choices: given.map((choice, at) => joined(choice, free[at] as Choice, at)),
    permitsLeft: (index, left) => permitted[index]?.has(handName(left)) ?? false,
    permitsRight: (index, right) => given[index]?.rights[right.id] === 1,
  };
}

/** The moment as if nothing were given but what is part of the music. */
export function setMomentFree(moment: Moment): Moment {
  return { ...moment, notes: moment.notes.map((note) => ({ ...note, given: setFree(note.given) })) };
}

/** What a left hand does, and where it is: equal names are equal hands. */
export function handName(left: Left): string {
  const placed = left.placed.map((one) => [
    one.note,
    one.string,
    one.sound,
    one.position,
    one.exact,
    one.finger,
    one.contact,
    one.mismatch,
  ]);
  const missing = left.missing.map((one) => `${one.note}${one.cause}`);
  return `${left.arrival} ${left.chain} ${placed.join("+")} ${missing.join()} @${left.handFromCm}-${left.handToCm}`;
}

/** The free choices of a moment, and the given ones that are not among them. The moment keeps what was given. */
function joined({ moment, lefts, plucked, rights }: Choice, free: Choice, at: number): Choice {
  const known = new Set(free.lefts.map(handName));
  const own = lefts.map((left, l) => ({ left, struck: l < plucked })).filter(({ left }) => !known.has(handName(left)));
  const struck = own.filter((one) => one.struck).map((one) => one.left);
  const carried = own.filter((one) => !one.struck).map((one) => one.left);
  const count = Math.max(free.rights.length, rights.length);
  return {
    moment,
    lefts: [...free.lefts.slice(0, free.plucked), ...struck, ...free.lefts.slice(free.plucked), ...carried],
    plucked: free.plucked + struck.length,
    pluckedList: struck.length === 0 ? free.pluckedList : -1 - at,
    rights: Uint8Array.from({ length: count }, (_, id) => Math.max(free.rights[id] ?? 0, rights[id] ?? 0)),
  };
}
