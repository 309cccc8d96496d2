// SPDX-License-Identifier: AGPL-3.0-or-later
// The states of a line, laid out in flat arrays: every left hand of a moment with every stroke it may have.
import type { Choice } from "../candidates/candidates.js";
import { type Left, RIGHTS, RIGHTS_FROM, type Right, rightAt, type Strings } from "../model/playing.js";

/** The states of one moment. State `from[l] + j` is the left hand `lefts[l]` with the stroke `ids[l][j]`. */
export interface Step {
  readonly lefts: readonly Left[];
  /** how many of `lefts` are plucked (or silent); the others follow */
  readonly plucked: number;
  /** for each left, where its strokes begin; at the end the number of states */
  readonly from: Int32Array;
  /** for each left, the ids of the strokes that it may have, ascending; equal lists are one array */
  readonly ids: readonly Int32Array[];
  /** for each left the row of the hand table that it reads as a predecessor */
  readonly group: Int32Array;
  /** one left of each group */
  readonly groups: readonly Left[];
  /** names the groups for the table's memory; null where they are not shared */
  readonly groupsKey: string | null;
}

/** The states of a line, one step a moment. */
export function layOut(choices: readonly Choice[]): readonly Step[] {
  const offers = new Offers();
  const steps: Step[] = [];
  /** steps that hang on none before: equal choices are one step */
  const known = new Map<readonly Left[], { readonly rights: Uint8Array; readonly step: Step }>();
  for (const choice of choices) {
    const same = known.get(choice.lefts);
    const step = same?.rights === choice.rights ? same.step : layOne(choice, offers, steps.at(-1));
    if (choice.plucked === choice.lefts.length) known.set(choice.lefts, { rights: choice.rights, step });
    steps.push(step);
  }
  return steps;
}

function layOne(choice: Choice, offers: Offers, before: Step | undefined): Step {
  const offered = offers.at(choice);
  const ids = choice.lefts.map((left, l) =>
    l < choice.plucked ? (offered.get(left.strings) as Int32Array) : idsAtPluck(left, before as Step),
  );
  const from = new Int32Array(ids.length + 1);
  for (const [l, list] of ids.entries()) from[l + 1] = (from[l] as number) + list.length;
  return { lefts: choice.lefts, plucked: choice.plucked, from, ids, ...groupByPlace(choice) };
}

/** How many states a moment has. */
export function countStates(step: Step): number {
  return step.from[step.lefts.length] as number;
}

/** Which left a state belongs to. */
export function ownerOf(step: Step, state: number): number {
  let l = 0;
  while ((step.from[l + 1] as number) <= state) l++;
  return l;
}

/** The hands of a state. */
export function handsAt(step: Step, state: number): { readonly left: Left; readonly right: Right } {
  const l = ownerOf(step, state);
  const id = (step.ids[l] as Int32Array)[state - (step.from[l] as number)] as number;
  return { left: step.lefts[l] as Left, right: rightAt(id) };
}

/** The hands along a path of states. */
export function handsAlong(
  steps: readonly Step[],
  path: readonly number[],
): { readonly lefts: readonly Left[]; readonly rights: readonly Right[] } {
  const hands = path.map((state, i) => handsAt(steps[i] as Step, state));
  return { lefts: hands.map(({ left }) => left), rights: hands.map(({ right }) => right) };
}

/** Lists of strokes by content: equal lists are one array, so that tables can be remembered by it. */
class Offers {
  private readonly known = new Map<string, Int32Array>();

  /** The ids of the strokes that may be used at a moment, for all strings that a plucked hand of it has. */
  at({ lefts, plucked, rights }: Choice): ReadonlyMap<Strings, Int32Array> {
    const offered = new Map<Strings, Int32Array>();
    for (let l = 0; l < plucked; l++) {
      const { strings } = lefts[l] as Left;
      if (!offered.has(strings)) offered.set(strings, this.one(strings, rights));
    }
    return offered;
  }

  private one(strings: Strings, rights: Uint8Array): Int32Array {
    const ids: number[] = [];
    for (let id = RIGHTS_FROM[strings.id] as number; id < (RIGHTS_FROM[strings.id + 1] as number); id++)
      if (rights[id] === 1) ids.push(id);
    for (let id = RIGHTS.length; id < rights.length; id++)
      if (rights[id] === 1 && rightAt(id).strings === strings) ids.push(id);
    const key = ids.join();
    const list = this.known.get(key) ?? Int32Array.from(ids);
    this.known.set(key, list);
    return list;
  }
}

/** A note without a pluck keeps the strokes of the pluck it hangs on. */
function idsAtPluck(left: Left, before: Step): Int32Array {
  const from = before.lefts.findIndex(
    (one) => one.strings === left.strings && one.chain + 1 === left.chain && one.first?.sound === "stopped",
  );
  return before.ids[from] as Int32Array;
}

/** Hands at one place are one group, however they got there: what follows costs them the same. */
function groupByPlace(choice: Choice): Pick<Step, "group" | "groups" | "groupsKey"> {
  const { lefts, plucked } = choice;
  const group = Int32Array.from(lefts, (_, l) => l);
  if (plucked === lefts.length)
    return { group, groups: lefts, groupsKey: choice.pluckedList >= 0 ? `${choice.pluckedList}` : null };
  const known = new Map<string, number>();
  const groups: Left[] = [];
  for (const [l, left] of lefts.entries()) {
    const key = `${left.placed.map((p) => [p.string, p.exact, p.finger, p.contact, p.sound].join()).join("+")}@${left.handFromCm}`;
    let at = known.get(key);
    if (at === undefined) {
      at = groups.push(left) - 1;
      known.set(key, at);
    }
    group[l] = at;
  }
  const shared = choice.pluckedList >= 0 && groups.length === plucked;
  return { group, groups, groupsKey: shared ? `${choice.pluckedList}` : null };
}
