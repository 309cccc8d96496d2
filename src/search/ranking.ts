// SPDX-License-Identifier: AGPL-3.0-or-later
// Tunings and transpositions of one melody in order of their cheapest fingerings, exactly, without searching them all.
import { choicesOf } from "../candidates/candidates.js";
import { guardPins } from "../candidates/pins.js";
import { Shelf } from "../candidates/shelf.js";
import type { Brief } from "../model/brief.js";
import { inScale, momentsOf } from "../model/moments.js";
import type { Transposition } from "../model/pitch.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { countRetuned, STANDARD, type Tuning } from "../model/tuning.js";
import { InputProblem } from "../problem.js";
import { BLOCK, type Cost, unweigh } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import { weightingOf } from "../rule/weighting.js";
import { type Bounded, searchWithin } from "./bounded.js";
import { type Played, playedBy } from "./charges.js";
import { movedByOctaves, type OctaveMove } from "./octaves.js";
import { outlookOf } from "./outlook.js";
import { chargingRules } from "./pricing.js";
import { HandMemory, type Memory, StrokeMemory } from "./tables.js";

/** What is to be ranked. */
export interface Contest {
  readonly score: Score;
  readonly brief: Brief;
  /** the setting of the call: hand, temperament and strings hold for all; it is searched in any case */
  readonly own: Setting;
  readonly tunings: readonly Tuning[];
  readonly transpositions: readonly Transposition[];
  /** whole phrases may move by an octave */
  readonly octaves: boolean;
  /** so many settings are shown */
  readonly top: number;
  /** the rule book made for a setting */
  readonly bookFor: (setting: Setting) => readonly Rule[];
  /** told after each setting */
  readonly progress?: (done: number, all: number) => void;
}

/** A setting with its cheapest fingering. */
export interface Standing {
  /** from 1; null where settings that were not searched may cost less */
  readonly rank: number | null;
  readonly setting: Setting;
  /** the melody as it is played there, phrases moved */
  readonly score: Score;
  readonly moves: readonly OctaveMove[];
  readonly played: Played;
  readonly total: Cost;
}

/** The order of settings. */
export interface Ranking {
  /** the best first */
  readonly best: readonly Standing[];
  /** the setting of the call, phrases where they are; the reason where a pin cannot sound its note there */
  readonly own: Standing | InputProblem;
  readonly searched: {
    /** different settings, the call's own among them */
    readonly settings: number;
    /** searched to the end */
    readonly exact: number;
    /** given up as soon as they could not be among the best, or never begun */
    readonly skipped: number;
  };
}

/** One setting with the melody in one form. */
interface Contender {
  readonly setting: Setting;
  readonly score: Score;
  readonly moves: readonly OctaveMove[];
  /** place in the order of equals */
  readonly place: number;
  /** notes that cannot be placed whatever the fingering */
  readonly barred: number;
  /** how much promises to lie well; only the order of trying depends on it */
  readonly promise: number;
}

/** A contender whose weight is known, or a floor under it. */
interface Tried extends Contender, Bounded {
  readonly played: Played | null;
  /** why it cannot be compared; null where it can */
  readonly problem: InputProblem | null;
}

/**
 * Ranks settings, leaving out those in which a pin cannot sound its note: by blocked moves, then effort; of equals first those with the fewest strings tuned otherwise than the
 * standard tuning, then the smallest transposition, then the order of the tunings.
 */
export function rankSettings(contest: Contest): Ranking {
  const contenders = contendersOf(contest);
  const workshop = workshopOf(contest);
  const own = attempt(workshop, ownContender(contest), Number.POSITIVE_INFINITY);
  const board = new Board(contest.top);
  const tried: Tried[] = [];
  for (const [done, contender] of inOrderOfPromise(contenders).entries()) {
    contest.progress?.(done, contenders.length);
    const one = attempt(workshop, contender, board.limit);
    tried.push(one);
    board.enter(one);
  }
  const best = board.best().map((one, i) => ({ ...standing(one), rank: i + 1 }));
  const settings = new Set([...contenders, own].map(nameOf));
  const exact = new Set([...tried, own].filter((one) => one.played !== null).map(nameOf)).size;
  return {
    best,
    own: own.problem ?? { ...standing(own), rank: rankOf(own, tried) },
    searched: { settings: settings.size, exact, skipped: settings.size - exact },
  };
}

/** A setting as nothing else is called. */
function nameOf({ setting }: Pick<Contender, "setting">): string {
  return `${setting.tuning.strings.join(" ")} ${setting.transpose.semitones}`;
}

function ownContender({ own, score }: Contest): Contender {
  return { setting: own, score, moves: [], place: 0, barred: 0, promise: 0 };
}

/** Every setting, in the order of equals; with octave moves also the form in which phrases are moved. */
function contendersOf({ score, own, tunings, transpositions, octaves }: Contest): readonly Contender[] {
  const all = tunings.flatMap((tuning, order) => transpositions.map((transpose) => ({ tuning, order, transpose })));
  const size = ({ semitones }: Transposition): number => Math.abs(semitones);
  return all
    .sort(
      (a, b) =>
        countRetuned(a.tuning, STANDARD) - countRetuned(b.tuning, STANDARD) ||
        size(a.transpose) - size(b.transpose) ||
        a.order - b.order ||
        a.transpose.semitones - b.transpose.semitones,
    )
    .flatMap(({ tuning, transpose }, at) => {
      const setting = { ...own, tuning, transpose };
      const moved = octaves ? movedByOctaves(score, setting) : null;
      return [{ score, moves: [] }, ...(moved === null ? [] : [moved])].map((form, k) => ({
        ...{ ...form, place: 2 * at + k },
        setting: inScale(setting, form.score),
        ...outlookOf(form.score, setting),
      }));
    });
}

/** The most promising first, since a good setting found early spares the search of many others. */
function inOrderOfPromise(contenders: readonly Contender[]): readonly Contender[] {
  return [...contenders].sort((a, b) => a.barred - b.barred || b.promise - a.promise || a.place - b.place);
}

/** What the searches share. */
interface Workshop {
  readonly brief: Brief;
  /** for a setting: its rules, and what they charged in settings like it */
  readonly toolsFor: (setting: Setting) => { readonly rules: readonly Rule[]; readonly memory: Memory };
  readonly shelf: Shelf;
}

/**
 * The rules of the right hand see strokes and strings, never a pitch: they are made once. Those of the left hand's moves
 * see places and what the strings are tuned to, never the melody: they are made once for a tuning.
 */
function workshopOf({ brief, own, bookFor }: Contest): Workshop {
  const strokeRules = bookFor(own).filter(({ reach }) => reach === "strike" || reach === "stroke-move");
  const strokes = new StrokeMemory(chargingRules(strokeRules));
  const byTuning = new Map<Tuning, { readonly shared: ReadonlyMap<string, Rule>; readonly memory: Memory }>();
  const sharedFor = (setting: Setting) => {
    const known = byTuning.get(setting.tuning);
    if (known !== undefined) return known;
    const moveRules = bookFor(setting).filter(({ reach }) => reach === "hand-move");
    const shared = new Map([...strokeRules, ...moveRules].map((rule) => [rule.id, rule]));
    const made = { shared, memory: { strokes, hands: new HandMemory() } };
    byTuning.set(setting.tuning, made);
    return made;
  };
  const toolsFor = (setting: Setting) => {
    const { shared, memory } = sharedFor(setting);
    return { rules: bookFor(setting).map((rule) => shared.get(rule.id) ?? rule), memory };
  };
  return { brief, toolsFor, shelf: new Shelf() };
}

/** A setting in which a pin cannot sound its note is none. */
function attempt(workshop: Workshop, contender: Contender, limit: number): Tried {
  try {
    return searchOne(workshop, contender, limit);
  } catch (problem) {
    if (!(problem instanceof InputProblem)) throw problem;
    return { ...contender, floor: Number.POSITIVE_INFINITY, solution: null, played: null, problem };
  }
}

function searchOne({ brief, toolsFor, shelf }: Workshop, contender: Contender, limit: number): Tried {
  const { setting, score, barred } = contender;
  const none = { solution: null, played: null, problem: null };
  if (barred * BLOCK > limit) return { ...contender, ...none, floor: barred * BLOCK };
  const { rules, memory } = toolsFor(setting);
  const moments = momentsOf(score, setting, brief);
  const choices = choicesOf(moments, setting, rules, shelf);
  guardPins(choices, brief, setting);
  const weighting = weightingOf(brief, moments, rules);
  const bounded = searchWithin(choices, setting, rules, { weighting, memory }, limit);
  const { solution } = bounded;
  const played = solution === null ? null : playedBy(moments, solution);
  return { ...contender, ...bounded, played, problem: null };
}

function standing({ setting, score, moves, played, floor }: Tried): Standing {
  return { rank: null, setting, score, moves, played: played as Played, total: unweigh(floor) };
}

const inOrder = (a: Tried, b: Tried): number => a.floor - b.floor || a.place - b.place;

/** The best so far, each setting in its better form. */
class Board {
  private entries: readonly Tried[] = [];

  constructor(private readonly top: number) {}

  /** What weighs more cannot come in. */
  get limit(): number {
    return this.entries[this.top - 1]?.floor ?? Number.POSITIVE_INFINITY;
  }

  enter(one: Tried): void {
    if (one.played === null) return;
    const same = this.entries.find((entry) => nameOf(entry) === nameOf(one));
    if (same !== undefined && inOrder(same, one) <= 0) return;
    this.entries = [...this.entries.filter((entry) => entry !== same), one].sort(inOrder).slice(0, this.top);
  }

  best(): readonly Tried[] {
    return this.entries;
  }
}

/** The rank of the call's own setting; null where it is not among those compared, or others may come before it. */
function rankOf(own: Tried, tried: readonly Tried[]): number | null {
  const mine = tried.find((one) => nameOf(one) === nameOf(own) && one.moves.length === 0);
  if (mine === undefined) return null;
  const others = tried.filter((one) => nameOf(one) !== nameOf(own) && inOrder(one, { ...own, place: mine.place }) < 0);
  if (others.some((one) => one.played === null)) return null;
  return 1 + new Set(others.map(nameOf)).size;
}
