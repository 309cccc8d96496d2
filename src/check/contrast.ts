// SPDX-License-Identifier: AGPL-3.0-or-later
// Two ways to play the same notes, taken apart: what the second saves and what it costs, by rule, by note and by passage.

import type { Moment, MomentNote } from "../model/moments.js";
import type { Left, Right } from "../model/playing.js";
import { BLOCK, type Cost, FREE } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import type { Weighting } from "../rule/weighting.js";
import { type Charge, chargesOf, type Played } from "../search/charges.js";
import type { Said } from "../words.js";
import { readingAt, readingOf } from "./check.js";

/** One cost minus another: both parts are whole, and may be negative. Effort in thousandths of a spare move. */
export interface Difference {
  readonly blocked: number;
  readonly effort: number;
}

/** A line with all that was charged along it, from `chargesOf`. */
export interface Billed {
  readonly played: Played;
  readonly charges: readonly Charge[];
}

/** A note of a moment, both as indices. */
export interface NotePlace {
  readonly at: number;
  readonly note: number;
}

/** What one rule charges along both lines. */
export interface RuleContrast {
  readonly rule: string;
  readonly a: Cost;
  readonly b: Cost;
  readonly difference: Difference;
}

/** One note in both lines; `spoken` is empty where it is left out. */
export interface NoteContrast extends NotePlace {
  readonly a: { readonly spoken: string; readonly cost: Cost };
  readonly b: { readonly spoken: string; readonly cost: Cost };
  readonly difference: Difference;
}

/** What one rule charges more, or less, within a run. */
export interface Share {
  readonly rule: string;
  /** a few words for what the rule is about, see `RuleProse.topic` */
  readonly topic: Said;
  readonly difference: Difference;
  /** notes that it charges otherwise, in order of time */
  readonly notes: readonly NotePlace[];
}

/** Moments in a row that are played another way, with what follows from them. */
export interface Run {
  /** the first moment concerned, and the last one whose charges differ or that is played another way */
  readonly from: number;
  readonly until: number;
  /** moments whose readings differ; none where only a waiting finger or the setting differs */
  readonly changed: readonly number[];
  readonly difference: Difference;
  /** charges that fall away or shrink, largest first; their differences are negative */
  readonly saves: readonly Share[];
  /** charges that come in addition or grow, largest first */
  readonly costs: readonly Share[];
}

/** Bars in a row, by index, both ends included. */
export interface Passage {
  readonly fromBar: number;
  readonly toBar: number;
  readonly difference: Difference;
}

/** The passage that decides, with what its rules charge more or less, net, largest in its direction first. */
export interface Deciding extends Passage {
  readonly shares: readonly Share[];
}

/** Two lines over the same notes, b minus a. The notes, the rules and the runs each add up to the whole difference. */
export interface Contrast {
  readonly a: Cost;
  readonly b: Cost;
  readonly difference: Difference;
  /** rules that charge something in either line, those that differ most first */
  readonly rules: readonly RuleContrast[];
  /** notes that differ in reading or cost, in score order */
  readonly notes: readonly NoteContrast[];
  readonly runs: readonly Run[];
  /** see {@link decidingPassage} */
  readonly deciding: Deciding | null;
}

const NONE: Difference = { blocked: 0, effort: 0 };

/** Sums of differences. */
function plus(a: Difference, b: Difference): Difference {
  return { blocked: a.blocked + b.blocked, effort: a.effort + b.effort };
}

/** b minus a. */
export function differenceOf(a: Cost, b: Cost): Difference {
  return { blocked: b.blocked - a.blocked, effort: b.effort - a.effort };
}

/** One exact number: a block outweighs all effort, as in the search. Negative where the second line is the cheaper one. */
export function weightOf({ blocked, effort }: Difference): number {
  return blocked * BLOCK + effort;
}

/** Two fingerings under the same rules, see {@link contrast}. */
export function contrastOf(a: Played, b: Played, rules: readonly Rule[], weighting: Weighting): Contrast {
  const billed = (played: Played): Billed => ({ played, charges: chargesOf(played, rules, weighting) });
  return contrast(billed(a), billed(b));
}

/**
 * Takes two lines apart.
 *
 * @param a the line that is compared with
 * @param b another over the same notes, moment by moment; fingering, setting and weights may differ
 */
export function contrast(a: Billed, b: Billed): Contrast {
  const entries = [...entriesOf(a, "a"), ...entriesOf(b, "b")];
  const cells = cellsOf(entries);
  const notes = notesOf(a, b, cells);
  const runs = runsOf(a.played, b.played, cells);
  const rules = rulesOf(entries);
  const barAt = (at: number): number => barOf(a.played.moments[at] as Moment);
  const deciding = decidingPassage(notes, barAt);
  const sums = { a: sumOf(rules.map((rule) => rule.a)), b: sumOf(rules.map((rule) => rule.b)) };
  return {
    ...sums,
    difference: differenceOf(sums.a, sums.b),
    rules,
    notes,
    runs,
    deciding: deciding === null ? null : { ...deciding, shares: sharesWithin(deciding, cells, barAt) },
  };
}

/** One charge of one line at the note that it belongs to. */
interface Entry extends NotePlace {
  readonly side: "a" | "b";
  readonly rule: string;
  readonly topic: Said;
  readonly cost: Cost;
}

function entriesOf({ played, charges }: Billed, side: "a" | "b"): readonly Entry[] {
  return charges
    .filter(({ cost }) => cost.blocked > 0 || cost.effort > 0)
    .map(({ rule, at, notes, cost }) => {
      const owner = notes.at(-1);
      const note = (played.moments[at] as Moment).notes.findIndex(({ source }) => source.id === owner);
      return { side, at, note, rule: rule.id, topic: rule.topic ?? rule.title, cost };
    });
}

const sumOf = (costs: readonly Cost[]): Cost => costs.reduce(plus, FREE);

/** The sums of both sides. */
function sides(entries: readonly Entry[]): { readonly a: Cost; readonly b: Cost } {
  const of = (side: "a" | "b"): Cost => sumOf(entries.filter((one) => one.side === side).map(({ cost }) => cost));
  return { a: of("a"), b: of("b") };
}

function grouped<T>(list: readonly T[], key: (one: T) => string): readonly (readonly [T, ...T[]])[] {
  const groups = new Map<string, [T, ...T[]]>();
  for (const one of list) {
    const group = groups.get(key(one));
    if (group === undefined) groups.set(key(one), [one]);
    else group.push(one);
  }
  return [...groups.values()];
}

function rulesOf(entries: readonly Entry[]): readonly RuleContrast[] {
  return grouped(entries, ({ rule }) => rule)
    .map((group) => {
      const { a, b } = sides(group);
      return { rule: group[0].rule, a, b, difference: differenceOf(a, b) };
    })
    .sort((x, y) => size(y.difference) - size(x.difference) || weightOf(y.a) - weightOf(x.a));
}

const size = (difference: Difference): number => Math.abs(weightOf(difference));

/** What one rule charges at one note, on both sides. */
interface Cell extends NotePlace {
  readonly rule: string;
  readonly topic: Said;
  readonly a: Cost;
  readonly b: Cost;
}

/** Cells by moment. */
type Cells = ReadonlyMap<number, readonly Cell[]>;

function cellsOf(entries: readonly Entry[]): Cells {
  const cells = grouped(entries, ({ at, note, rule }) => `${at} ${note} ${rule}`).map((group): Cell => {
    const { at, note, rule, topic } = group[0];
    return { at, note, rule, topic, ...sides(group) };
  });
  return new Map(grouped(cells, ({ at }) => String(at)).map((group) => [group[0].at, group]));
}

/** Notes that differ in reading or cost. */
function notesOf(a: Billed, b: Billed, cells: Cells): readonly NoteContrast[] {
  return a.played.moments.flatMap(({ notes }, at) =>
    notes.flatMap((_: MomentNote, note): readonly NoteContrast[] => {
      const own = (cells.get(at) ?? []).filter((cell) => cell.note === note);
      const before = { spoken: spokenAt(a.played, at, note), cost: sumOf(own.map((cell) => cell.a)) };
      const then = { spoken: spokenAt(b.played, at, note), cost: sumOf(own.map((cell) => cell.b)) };
      const difference = differenceOf(before.cost, then.cost);
      return before.spoken === then.spoken && isNone(difference) ? [] : [{ at, note, a: before, b: then, difference }];
    }),
  );
}

const isNone = ({ blocked, effort }: Difference): boolean => blocked === 0 && effort === 0;

function spokenAt(played: Played, at: number, note: number): string {
  const placed = (played.lefts[at] as Left).placed.find((one) => one.note === note);
  return placed === undefined ? "" : readingOf(played, at, placed);
}

/** How a moment differs: it is played another way, it only costs another sum, or neither. */
type Kind = "played" | "charged" | "same";

function kindOf(a: Played, b: Played, cells: Cells, at: number): Kind {
  const stroke = (a.rights[at] as Right).id !== (b.rights[at] as Right).id;
  if (stroke || readingAt(a, at) !== readingAt(b, at)) return "played";
  const charged = (cells.get(at) ?? []).some((cell) => !isNone(differenceOf(cell.a, cell.b)));
  return charged ? "charged" : "same";
}

/** A run that is being put together. */
interface Span {
  readonly from: number;
  until: number;
  /** what the kind of all its moments is; a run that begins with "played" may end with "charged" */
  readonly kind: Kind;
  /** what comes next may still follow from it */
  open: boolean;
}

/**
 * A moment that is played the same way but charged otherwise pays for what came before: it belongs to the run that ends
 * right before it, or that only open strings and harmonics part it from, over which the hand comes from elsewhere. Where
 * the settings differ it may stand by itself. A rest, which frees both hands, ends a run.
 */
function runsOf(a: Played, b: Played, cells: Cells): readonly Run[] {
  const spans: Span[] = [];
  for (const at of a.moments.keys()) {
    const kind = kindOf(a, b, cells, at);
    const last = spans.at(-1);
    if (last !== undefined && a.moments[at]?.rested) last.open = false;
    if (kind !== "same" && last !== undefined && joins(last, kind, at)) last.until = at;
    else if (kind !== "same") spans.push({ from: at, until: at, kind, open: true });
    const current = spans.at(-1);
    if (current?.kind === "played" && kind !== "played")
      current.open = current.open && isOpenAt(a, at) && isOpenAt(b, at);
  }
  return spans.map((span) => runOf(span.from, span.until, a, b, cells));
}

function joins({ kind: began, until, open }: Span, kind: Kind, at: number): boolean {
  const next = until === at - 1;
  if (!open) return false;
  return began === "played" ? kind === "charged" || next : kind === "charged" && next;
}

/** Nothing is pressed down: where the hand waits shows only in what comes next. */
const isOpenAt = ({ lefts }: Played, at: number): boolean =>
  (lefts[at] as Left).placed.every(({ sound }) => sound !== "stopped");

function runOf(from: number, until: number, a: Played, b: Played, cells: Cells): Run {
  const moments = Array.from({ length: until - from + 1 }, (_, i) => from + i);
  const parts = partsAt(moments, cells);
  return {
    from,
    until,
    changed: moments.filter((at) => readingAt(a, at) !== readingAt(b, at)),
    difference: parts.reduce((sum, part) => plus(sum, part.difference), NONE),
    saves: sharesOf(parts.filter(({ difference }) => weightOf(difference) < 0)),
    costs: sharesOf(parts.filter(({ difference }) => weightOf(difference) > 0)),
  };
}

type Part = Cell & { readonly difference: Difference };

function partsAt(moments: readonly number[], cells: Cells): readonly Part[] {
  return moments
    .flatMap((at) => cells.get(at) ?? [])
    .map((cell) => ({ ...cell, difference: differenceOf(cell.a, cell.b) }));
}

function sharesWithin({ fromBar, toBar, difference }: Passage, cells: Cells, barAt: (at: number) => number) {
  const within = [...cells.keys()].filter((at) => barAt(at) >= fromBar && barAt(at) <= toBar);
  const towards = Math.sign(weightOf(difference));
  return sharesOf(partsAt(within, cells)).toSorted(
    (x, y) => towards * (weightOf(y.difference) - weightOf(x.difference)),
  );
}

function sharesOf(parts: readonly Part[]): readonly Share[] {
  return grouped(parts, ({ rule }) => rule)
    .map((group) => ({
      rule: group[0].rule,
      topic: group[0].topic,
      difference: group.reduce((sum, part) => plus(sum, part.difference), NONE),
      notes: group.map(({ at, note }) => ({ at, note })),
    }))
    .sort((x, y) => size(y.difference) - size(x.difference));
}

const barOf = (moment: Moment): number => (moment.notes[0] as MomentNote).source.bar;

/** A passage decides that holds this much of the whole difference, as a fraction (our judgement). */
const DECIDING = { share: 3, of: 4 } as const;

/**
 * The passage that decides: the fewest bars in a row whose differences add up to three quarters of the whole difference
 * or more, in its direction. Of several as short the one with the largest sum, then the first. Null where the lines cost
 * the same.
 */
export function decidingPassage(
  notes: readonly Pick<NoteContrast, "at" | "difference">[],
  barAt: (at: number) => number,
): Passage | null {
  const whole = weightOf(notes.reduce((sum, one) => plus(sum, one.difference), NONE));
  if (whole === 0) return null;
  const bars = grouped(notes, ({ at }) => String(barAt(at))).map((group) => ({
    bar: barAt(group[0].at),
    difference: group.reduce((sum, one) => plus(sum, one.difference), NONE),
  }));
  const towards = (difference: Difference): number => Math.sign(whole) * weightOf(difference);
  const decides = (difference: Difference): boolean =>
    DECIDING.of * towards(difference) >= DECIDING.share * Math.abs(whole);
  let best: Passage | null = null;
  for (const [start, { bar: fromBar }] of bars.entries()) {
    let difference = NONE;
    for (const { bar: toBar, difference: more } of bars.slice(start)) {
      difference = plus(difference, more);
      const longer = best === null ? -1 : toBar - fromBar - (best.toBar - best.fromBar);
      if (longer > 0) break;
      if (!decides(difference)) continue;
      if (best === null || longer < 0 || towards(difference) > towards(best.difference))
        best = { fromBar, toBar, difference };
      break;
    }
  }
  return best;
}
