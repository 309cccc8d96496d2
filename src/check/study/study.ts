// SPDX-License-Identifier: AGPL-3.0-or-later
// A study of one sign: what a fingering leaves out of it, and short lines to play that bring just that.
import { choicesOf } from "../../candidates/candidates.js";
import { NO_BRIEF } from "../../model/brief.js";
import { momentsOf } from "../../model/moments.js";
import { UNTRANSPOSED } from "../../model/pitch.js";
import type { Score } from "../../model/score.js";
import { shortLine } from "../../model/short-line.js";
import { isStroke, type Sign } from "../../model/sign.js";
import type { Cost } from "../../rule/cost.js";
import type { Rule } from "../../rule/types.js";
import { chargesOf, type Played, playedBy, totalOf } from "../../search/charges.js";
import { search } from "../../search/solve.js";
import { type Ground, groundOf } from "./ground.js";
import { type Plan, plansFor } from "./plans.js";
import { placeOf, soundsAt } from "./practice.js";
import { type Spot, type StudySetting, spotKey } from "./spot.js";

/** What comes beside a sign, or does not. */
export interface Neighbour {
  readonly sign: Sign;
  readonly uses: number;
}

/** A line to play. */
export interface StudyLine {
  readonly score: Score;
  readonly played: Played;
  readonly total: Cost;
  /** what it brings that the piece and the lines before it leave out */
  readonly brings: {
    readonly strings: readonly number[];
    readonly before: readonly Sign[];
    readonly after: readonly Sign[];
    readonly spots: readonly Spot[];
  };
}

/** A study of one sign. */
export interface Study {
  readonly sign: Sign;
  readonly uses: number;
  /** strings on which the sign can be practised, string 1 first */
  readonly strings: readonly { readonly string: number; readonly uses: number }[];
  readonly before: readonly Neighbour[];
  readonly after: readonly Neighbour[];
  /** places in the scale on those strings */
  readonly spots: readonly (Spot & { readonly uses: number })[];
  /** the most needed first */
  readonly lines: readonly StudyLine[];
  /** places that the lines still leave out */
  readonly left: number;
}

/** What a study is made for. */
export interface StudyTerms {
  readonly setting: StudySetting;
  readonly rules: readonly Rule[];
  readonly played: Played;
  /** spell black keys with flats */
  readonly flats: boolean;
}

/** More lines than this are no study of one sitting. */
const MOST_LINES = 10;
/** A calm pace, in quarter notes a minute: a study is begun slowly (our judgement). */
const STUDY_TEMPO = 60;

/** Counts where a sign comes, and writes lines for what is left out. */
export function studyOf(sign: Sign, terms: StudyTerms): Study {
  const ground = groundOf(sign, terms.setting, terms.rules);
  const used = usesIn(terms.played, sign);
  const open = new Missing(ground, used);
  const start = {
    strings: [...open.strings],
    before: [...open.before],
    after: [...open.after],
    spots: [...open.spots],
  };
  const lines: StudyLine[] = [];
  for (const plan of plansFor(ground, start, terms.setting)) {
    if (lines.length === MOST_LINES) break;
    if (!open.wants(plan)) continue;
    const line = playPlan(plan, terms);
    if (line === null) continue;
    const brings = open.take(usesIn(line.played, sign));
    if (brings !== null) lines.push({ ...line, brings });
  }
  const count = <T>(list: readonly T[], key: (one: T) => string, uses: ReadonlyMap<string, number>) =>
    list.map((one) => ({ one, uses: uses.get(key(one)) ?? 0 }));
  return {
    sign,
    uses: used.total,
    strings: count(ground.strings, String, used.strings).map(({ one, uses }) => ({ string: one, uses })),
    before: count(ground.neighbours, String, used.before).map(({ one, uses }) => ({ sign: one, uses })),
    after: count(ground.neighbours, String, used.after).map(({ one, uses }) => ({ sign: one, uses })),
    spots: count(ground.spots, spotKey, used.spots).map(({ one, uses }) => ({ ...one, uses })),
    lines,
    left: open.spots.size,
  };
}

/** Where a sign comes in a line, by the keys of what it is counted by. */
interface Uses {
  readonly total: number;
  readonly strings: ReadonlyMap<string, number>;
  readonly before: ReadonlyMap<string, number>;
  readonly after: ReadonlyMap<string, number>;
  readonly spots: ReadonlyMap<string, number>;
}

function usesIn(played: Played, sign: Sign): Uses {
  const counts = () => new Map<string, number>();
  const [strings, before, after, spots] = [counts(), counts(), counts(), counts()] as const;
  const add = (map: Map<string, number>, key: string): void => void map.set(key, (map.get(key) ?? 0) + 1);
  let total = 0;
  for (const at of played.moments.keys())
    for (const { placed, signs } of soundsAt(played, at)) {
      if (!signs.includes(sign)) continue;
      total++;
      add(strings, String(placed.string));
      add(spots, spotKey({ string: placed.string, position: placeOf(placed) }));
      for (const neighbour of neighboursAt(played, at - 1, sign)) add(before, neighbour);
      for (const neighbour of neighboursAt(played, at + 1, sign)) add(after, neighbour);
    }
  return { total, strings, before, after, spots };
}

/** Signs of the same hand at a moment; none where there is no such moment. */
function neighboursAt(played: Played, at: number, sign: Sign): readonly Sign[] {
  if (played.moments[at] === undefined) return [];
  const signs = soundsAt(played, at).flatMap((note) => note.signs);
  return signs.filter((one) => isStroke(one) === isStroke(sign));
}

/** What is still left out. */
class Missing {
  readonly strings: Set<number>;
  readonly before: Set<Sign>;
  readonly after: Set<Sign>;
  readonly spots: Set<string>;

  constructor({ strings, neighbours, spots }: Ground, used: Uses) {
    this.strings = new Set(strings.filter((string) => !used.strings.has(String(string))));
    this.before = new Set(neighbours.filter((sign) => !used.before.has(sign)));
    this.after = new Set(neighbours.filter((sign) => !used.after.has(sign)));
    this.spots = new Set(spots.map(spotKey).filter((key) => !used.spots.has(key)));
  }

  /** Whether a plan would bring something. */
  wants({ string, positions, between }: Plan): boolean {
    return (
      this.strings.has(string) ||
      positions.some((position) => this.spots.has(spotKey({ string, position }))) ||
      between.some((sign) => this.before.has(sign) || this.after.has(sign))
    );
  }

  /** Takes out what a line brings; null where that is nothing. */
  take(used: Uses): StudyLine["brings"] | null {
    const taken = <T>(set: Set<T>, uses: ReadonlyMap<string, number>): readonly T[] =>
      [...set].filter((one) => uses.has(String(one)) && set.delete(one));
    const strings = taken(this.strings, used.strings);
    const before = taken(this.before, used.before);
    const after = taken(this.after, used.after);
    const spots = taken(this.spots, used.spots).map((key): Spot => {
      const [string, position] = key.split(" ").map(Number) as [number, number];
      return { string, position };
    });
    return strings.length + before.length + after.length + spots.length === 0
      ? null
      : { strings, before, after, spots };
  }
}

/** Searches a plan; first with the strokes or fingers asked for between, then without; null where it cannot be played. */
function playPlan(plan: Plan, { setting, rules, flats }: StudyTerms): Omit<StudyLine, "brings"> | null {
  const own = { ...setting, transpose: UNTRANSPOSED };
  for (const notes of [plan.notes, plan.plainly]) {
    const score = shortLine(notes, flats, STUDY_TEMPO);
    const moments = momentsOf(score, own, NO_BRIEF);
    const { solution } = search(choicesOf(moments, own, rules), own, rules, {});
    const played = playedBy(moments, solution);
    const total = totalOf(chargesOf(played, rules));
    if (total.blocked === 0) return { score, played, total };
  }
  return null;
}
