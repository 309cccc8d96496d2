// SPDX-License-Identifier: AGPL-3.0-or-later
// Which line of a score looks like the melody. What speaks for a line and how much is our judgement; an arranger who
// takes another line says so with --part and --voice.
import type { MelodyTrait } from "../model/line-choice.js";
import { type NamedFor, namedFor } from "./part-names.js";
import type { Line } from "./survey.js";

/** What speaks for a line, in points; where a trait comes in degrees this is the most. */
const POINTS: Readonly<Record<MelodyTrait, number>> = {
  // A line that already has a fingering is the guqin's, whatever else sounds, and so is one named for it.
  fingering: 400,
  guqin: 200,
  // Then what is no melody at all.
  pitched: 150,
  printed: 60,
  proper: 50,
  notation: 40,
  words: 24,
  named: 14,
  presence: 14,
  single: 12,
  height: 12,
  steps: 8,
  treble: 8,
  singable: 6,
  leading: 5,
  melodic: 5,
  stems: 2,
};

/** The traits in the order in which reasons are named where they weigh the same. */
const TRAITS = Object.keys(POINTS) as readonly MelodyTrait[];

/** A line with words at this share of its notes or more is sung throughout: melismas have few. */
const SUNG = 0.4;
/** A line this far or farther below the highest gets nothing for its height, in semitones. */
const LOW = 19;
/** Two octaves: a wider range is hard to sing; nothing is given from twice that on. */
const SINGABLE = 24;
/** A line that sounds in fewer of the bars than this is an episode: what speaks for it counts less. */
const EPISODE = 0.25;
/** A line within so many points of the best stands no worse: the first of them is taken. */
const TIE = 1;
/** Traits that matter less than this between two lines are no reason. */
const REASON = 1.5;
/** At most so many reasons are named. */
const MOST_REASONS = 3;

/** The line that was chosen, and what it has over the next best; nothing where the first was taken for want of reasons. */
export interface Preferred {
  readonly line: Line;
  readonly because: readonly MelodyTrait[];
}

/** What all lines of a score are measured against. */
interface Field {
  /** bars in which anything sounds */
  readonly bars: number;
  readonly highest: number;
}

/**
 * Finds the line that looks most like the melody.
 *
 * @param lines   at least one, in the order of the file
 * @param all     all lines of the score, which they are measured against
 */
export function preferred(lines: readonly Line[], all: readonly Line[]): Preferred {
  const field = fieldOf(all);
  const judged = lines.map((line) => ({ line, points: pointsOf(line, field) }));
  const sums = judged.map(({ points }) => TRAITS.reduce((sum, trait) => sum + points[trait], 0));
  const best = mostOf(sums);
  const chosen = sums.findIndex((sum) => sum >= best - TIE);
  const others = judged.filter((_, index) => index !== chosen);
  const next = others[indexOfMost(sums.filter((_, index) => index !== chosen))];
  const { line, points } = judged[chosen] as (typeof judged)[number];
  if (next === undefined) return { line, because: [] };
  const ahead = TRAITS.map((trait) => ({ trait, by: points[trait] - next.points[trait] }));
  const reasons = ahead.filter(({ by }) => by >= REASON).sort((a, b) => b.by - a.by);
  // What decides by itself needs no more reasons.
  const deciding = reasons.filter(({ trait }) => trait === "fingering" || trait === "guqin");
  const told = deciding.length > 0 ? deciding.slice(0, 1) : reasons.slice(0, MOST_REASONS);
  return { line, because: told.map(({ trait }) => trait) };
}

function indexOfMost(values: readonly number[]): number {
  return values.indexOf(mostOf(values));
}

/** The largest; values may be too many to be arguments of a call. */
function mostOf(values: readonly number[]): number {
  return values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
}

function fieldOf(lines: readonly Line[]): Field {
  const candidates = lines.filter((line) => line.percussionClef < 0.5 && !line.part.drums);
  const heights = (candidates.length > 0 ? candidates : lines).map((line) => line.height);
  return {
    bars: new Set(lines.flatMap((line) => [...line.sounds.keys()])).size,
    highest: mostOf(heights),
  };
}

const names = new WeakMap<Line["part"], NamedFor>();

/** What the part of a line is named for. */
function nameOf({ part }: Line): NamedFor {
  const known =
    names.get(part) ?? namedFor([part.name, part.abbreviation, ...part.instruments].flatMap((n) => n ?? []));
  names.set(part, known);
  return known;
}

/** From 0 to 1. */
const share = (value: number): number => Math.min(1, Math.max(0, value));

function pointsOf(line: Line, field: Field): Readonly<Record<MelodyTrait, number>> {
  const named = nameOf(line);
  const presence = line.sounds.size / Math.max(1, field.bars);
  const lasting = share(presence / EPISODE);
  const degrees: Record<MelodyTrait, number> = {
    fingering: Number(line.fingered),
    guqin: Number(named.guqin),
    pitched: line.part.drums ? 0 : 1 - line.percussionClef,
    printed: 1 - line.hidden,
    proper: 1 - line.aside,
    notation: 1 - line.tabClef,
    words: lasting * share(line.worded / SUNG),
    named: lasting * Number(named.melody),
    presence,
    single: lasting * share(1 - line.chords / Math.max(1, line.onsets)),
    height: lasting * share(1 - (field.highest - line.height) / LOW),
    steps: lasting * line.smallSteps,
    treble: 1 - line.bassClef,
    singable: share(2 - (line.highest - line.lowest) / SINGABLE),
    leading: lasting * Number(named.melodyInstrument && !named.accompaniment),
    melodic: named.accompaniment ? 0 : named.chordInstrument ? 0.5 : 1,
    stems: line.stemsUp,
  };
  // A pitch that is none has no height; it is refused when the line is read.
  for (const trait of TRAITS) degrees[trait] = (Number.isNaN(degrees[trait]) ? 0 : degrees[trait]) * POINTS[trait];
  return degrees;
}
