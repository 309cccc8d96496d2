// SPDX-License-Identifier: AGPL-3.0-or-later
// What a rule is: its words, its numbers, how far it sees, and the one body that search and check both call.

import type { Brief, Parameters } from "../model/brief.js";
import type { Moment, MomentNote } from "../model/moments.js";
import type { HandGap, Left, Missing, Placed, Right, StrokeGap } from "../model/playing.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import type { Said } from "../words.js";

/** How much a finding weighs: note (worth knowing), caution (noticeable), problem (a player would ask), blocker (cannot be played). */
export const SEVERITIES = ["note", "caution", "problem", "blocker"] as const;
/** One of {@link SEVERITIES}. */
export type Severity = (typeof SEVERITIES)[number];

/**
 * A way to take a finding away that is computed: another fingering; a figure as it was played the first time; another kind
 * of sound than the open string or harmonic; slurs by twos; another tempo; the note in another octave; another tuning or
 * transposition.
 */
export type Cure = "fingering" | "first-way" | "other-sound" | "slur" | "tempo" | "octave" | "setting";

/** The groups of rules, and the folders under rules/. */
export const RULE_KINDS = ["range", "intonation", "idiom", "efficiency", "character", "notation"] as const;
/** One of {@link RULE_KINDS}. */
export type RuleKind = (typeof RULE_KINDS)[number];

/** Where a number comes from. */
export type Evidence = "published" | "common practice" | "our judgement";

/** A number that a rule uses. */
export interface Parameter {
  readonly default: number | readonly number[];
  /** such as "cm", "spare moves", "plucks/s" */
  readonly unit: string;
  readonly doc: Said;
  readonly evidence: Evidence;
}

/** A tiny melody with its fingering, run as a test and shown in the guide. */
export interface Example {
  /** what it shows, in a few words */
  readonly shows: Said;
  readonly kind: "passes" | "breaks" | "exception";
  /** notes, such as "G2 C2:2 (D3 F3)" */
  readonly melody: string;
  /** quarter notes a minute; 60 where left out, null for a score that gives no tempo */
  readonly tempo?: number | null;
  /** a tuning's name; the standard one where left out */
  readonly tuning?: string;
  /** hand name; medium where left out */
  readonly hand?: string;
  /** temperament; pythagorean where left out */
  readonly temperament?: "pythagorean" | "just" | "equal";
  /** the brief marks the whole melody as flowing */
  readonly flowing?: boolean;
  /** the brief accepts these rules over the whole melody */
  readonly accepts?: readonly string[];
  /** spoken forms, one a note (chord notes lowest first); "-" gives nothing for that note */
  readonly fingering: readonly string[];
  /** the findings of this rule, exactly: number of the note they end on (from 1, 0 for the whole line), severity and message */
  readonly finds: readonly (readonly [at: number, severity: Severity, message: Said])[];
}

/** The words of a rule. */
export interface RuleProse {
  /** the failing state, or the principle where players think of it by name; equals the file's name */
  readonly id: string;
  readonly kind: RuleKind;
  readonly title: Said;
  /** what a charge is about, in a few words that follow "saves 0.4 in ..."; every rule that may charge or block has them */
  readonly topic?: Said;
  /** one or two sentences */
  readonly principle: Said;
  readonly why: Said;
  /** when breaking it is right */
  readonly whenRight: Said;
  /** what to do about a finding, one sentence */
  readonly remedy: Said;
  /**
   * what is computed about a finding; another fingering where left out, or nothing for a rule that sees the whole line.
   * Ways that leave the music as it is are tried first, the cheapest is named
   */
  readonly cures?: readonly Cure[];
  /** published sources by name, or "common practice, no source" */
  readonly sources: readonly Said[];
  readonly parameters: Readonly<Record<string, Parameter>>;
  /** at least three: one that passes, one that breaks, one exception */
  readonly examples: readonly Example[];
  /** a rule of movement weighs more in flowing passages */
  readonly movement?: boolean;
  /** unit of the measured number, null where the number is only yes or no */
  readonly unit: string | null;
}

/** A number that a rule measured at one place, with what the message may speak of. */
export interface Sight {
  readonly measured: number;
  /** the limit that was passed; null for a rule without one */
  readonly limit: number | null;
  /** spare moves charged */
  readonly charge: number;
  /** pitch names of the last note and the one before, such as "D3"; empty where there is none */
  readonly note: string;
  readonly noteBefore: string;
  /** spoken readings of both; empty where there is none */
  readonly spoken: string;
  readonly spokenBefore: string;
  /** seconds since the onset before */
  readonly seconds: number;
  /** what the writer wrote for the last note, word for word; empty for nothing */
  readonly written: string;
  /** the last note as it is to sound; null where there is none */
  readonly wanted: MomentNote | null;
  /** where it is placed; null where it is not */
  readonly placed: Placed | null;
}

/** What every local rule says about its number. */
interface LocalBody {
  /** beyond this the number is a finding; null where every charge is judged by its size alone */
  readonly limit: number | null;
  /** whether numbers above or below the limit break the rule */
  readonly breaks: "above" | "below";
  /** severities by number: the last threshold passed counts. Without it the charge decides: 0.3 note, 0.6 caution, 1 problem */
  readonly severities?: readonly (readonly [threshold: number, severity: Severity])[];
  /** what the report says, one or two sentences with value, limit and unit */
  readonly message: (sight: Sight) => Said;
}

/** A left hand but for where it waits while nothing is stopped: that is a matter of moves. */
export type Holding = Omit<Left, "handFromCm" | "handToCm">;

/** Sees one placed note, or one note that could not be placed. */
export interface PlaceRule extends LocalBody {
  readonly reach: "place";
  /** numbers that cannot be played */
  readonly blocks?: (measured: number) => boolean;
  /** the number, NaN where the rule does not apply; `placed` is null exactly where `missing` is not */
  readonly measure: (
    placed: Placed | null,
    missing: Missing | null,
    note: MomentNote,
    moment: Moment,
    left: Holding,
  ) => number;
  readonly charge: (measured: number, placed: Placed | null, note: MomentNote, moment: Moment, left: Holding) => number;
  /** limit of this very note where it is not the same for all */
  readonly limitAt?: (placed: Placed, note: MomentNote, moment: Moment, left: Holding) => number;
  /** places that the search never proposes by itself; they stay legal where a score gives them */
  readonly withholds?: (placed: Placed) => boolean;
}

/** Sees one stroke (or pinch) on its strings. */
export interface StrikeRule extends LocalBody {
  readonly reach: "strike";
  /** numbers that cannot be played */
  readonly blocks?: (measured: number) => boolean;
  readonly measure: (right: Right) => number;
  readonly charge: (measured: number, right: Right) => number;
  /** strokes that the search never proposes by itself */
  readonly withholds?: (right: Right) => boolean;
}

/** Sees two left hands in a row and the time between. */
export interface HandMoveRule extends LocalBody {
  readonly reach: "hand-move";
  /** moves that cannot be played */
  readonly blocks?: (measured: number, from: Left, to: Left, gap: HandGap) => boolean;
  readonly measure: (from: Left, to: Left, gap: HandGap) => number;
  readonly charge: (measured: number, from: Left, to: Left, gap: HandGap) => number;
}

/** Sees two strokes in a row with their strings and the waiting finger, and the time since the pluck before. */
export interface StrokeMoveRule extends LocalBody {
  readonly reach: "stroke-move";
  /** numbers that cannot be played */
  readonly blocks?: (measured: number) => boolean;
  /** `from` is where the string that sounds last before this stroke lies */
  readonly measure: (before: Right, right: Right, gap: StrokeGap) => number;
  readonly charge: (measured: number, before: Right, right: Right, gap: StrokeGap) => number;
  /** limit of these very strokes where it is not the same for all */
  readonly limitAt?: (before: Right, right: Right) => number;
}

/** A finding of a passage rule. */
export interface PassageFinding {
  /** ids of the notes concerned; empty for the whole line */
  readonly notes: readonly string[];
  readonly severity: Severity;
  readonly measured: number | null;
  readonly limit: number | null;
  readonly message: Said;
  /** the other findings that only follow from this one; left out where it explains none */
  readonly explains?: Explained;
}

/** What follows from one finding about the whole line. */
export interface Explained {
  /** findings of these kinds, whose notes all are among the given ones */
  readonly kinds: readonly RuleKind[];
  readonly notes: readonly string[];
  /** the cause in a few words that follow "The fingering", such as "is written for another tuning" */
  readonly cause: Said;
}

/** What a passage rule sees: everything. */
export interface Line {
  readonly score: Score;
  readonly setting: Setting;
  readonly moments: readonly Moment[];
  /** one a moment */
  readonly lefts: readonly Left[];
  /** one a moment; of a note without a pluck the one that still stands */
  readonly rights: readonly Right[];
  readonly brief: Brief;
  /** what the rules charged, in order of time */
  readonly charges: readonly LineCharge[];
  /** what the rules before this one in the book found */
  readonly found: readonly LineFinding[];
}

/** A charge as passage rules see it. */
export interface LineCharge {
  readonly rule: string;
  /** the moment that it belongs to */
  readonly at: number;
  /** spare moves, as charged */
  readonly effort: number;
  /** spare moves before the brief sets anything aside */
  readonly own: number;
}

/** A finding as later passage rules see it. */
export interface LineFinding {
  readonly rule: string;
  /** ids, the owner last; empty for the whole line */
  readonly notes: readonly string[];
}

/** Sees the whole line with its fingering. It informs and cannot cost: the search cannot see so far. */
export interface PassageRule {
  readonly reach: "passage";
  readonly look: (line: Line) => { readonly looked: number; readonly findings: readonly PassageFinding[] };
}

/** The bodies that may charge. */
export type LocalRuleBody = PlaceRule | StrikeRule | HandMoveRule | StrokeMoveRule;

/** One principle of the trade, complete: a rule made for one setting. */
export type Rule = RuleProse & (LocalRuleBody | PassageRule);

/** A rule of the book: its words, and its body for a setting (hand and lengths differ). */
export interface RuleEntry {
  readonly prose: RuleProse;
  /** `own` values stand in place of the parameters' defaults */
  readonly make: (setting: Setting, own?: Parameters[string]) => Rule;
}

/** The rule book: entries in the order of the book. */
export type RuleBook = readonly RuleEntry[];
