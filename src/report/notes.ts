// SPDX-License-Identifier: AGPL-3.0-or-later
// One entry a note: what the score gives, what the hands do, what it costs.

import type { Alternative } from "../check/alternatives.js";
import { readingOf, strokeOn, type Verdicts } from "../check/check.js";
import type { GivenFingering } from "../model/fingering.js";
import type { MomentNote } from "../model/moments.js";
import { pitchName } from "../model/pitch.js";
import type { Left, Right } from "../model/playing.js";
import type { Score } from "../model/score.js";
import { writtenPosition } from "../model/written-place.js";
import type { NoteJson, PlacedNote } from "../report.js";
import type { Cost } from "../rule/cost.js";
import type { Played } from "../search/charges.js";
import { pinHead, pinWishes } from "./pin.js";

/** Thousandths of a spare move as JSON prints them. */
export function spareMoves(thousandths: number): number {
  return thousandths / 1000;
}

/** What a score may give for a note, in the order in which `given` lists it. */
const GIVEN_KEYS = [
  "sound",
  "string",
  "position",
  "finger",
  "contact",
  "stroke",
  "arrival",
  "compound",
  "entry",
  "ornament",
] as const;

/** Names of what the score gives for a note. */
function givenKeys(given: GivenFingering): readonly string[] {
  return GIVEN_KEYS.filter((key) => given[key] !== null);
}

/**
 * The notes of a judged line in score order.
 *
 * @param alternatives one list a note of each moment
 */
export function noteEntries(
  score: Score,
  played: Played,
  { bill, total }: Verdicts,
  alternatives: readonly (readonly (readonly Alternative[])[])[],
): readonly NoteJson[] {
  const costs = new Map<string, { blocked: number; effort: number }>();
  for (const charge of bill) {
    const owner = charge.notes.at(-1) as string;
    const sum = costs.get(owner) ?? { blocked: 0, effort: 0 };
    costs.set(owner, { blocked: sum.blocked + charge.cost.blocked, effort: sum.effort + charge.cost.effort });
  }
  return played.moments.flatMap((moment, at) =>
    moment.notes.map((note, index) => {
      const cost = costs.get(note.source.id) ?? { blocked: 0, effort: 0 };
      return {
        ...printed(note, score),
        ...placedEntry(played, at, index),
        given: givenKeys(note.given),
        blocked: cost.blocked,
        effort: spareMoves(cost.effort),
        alternatives: alternativeEntries(alternatives[at]?.[index] ?? [], pinHead(note.source, score), total),
      };
    }),
  );
}

function alternativeEntries(ways: readonly Alternative[], head: string, total: Cost): NoteJson["alternatives"] {
  return ways.map(({ placed, left, right, reading, total: cost }) => {
    const wishes = pinWishes(placed, left, right);
    return {
      spoken: reading,
      sound: placed.sound,
      string: placed.string,
      position: placed.position,
      blockedMore: cost.blocked - total.blocked,
      effortMore: spareMoves(cost.effort - total.effort),
      pin: wishes === null ? null : `- { ${head}, ${wishes} }`,
    };
  });
}

type Printed = Pick<NoteJson, "id" | "bar" | "beat" | "written" | "sounding" | "grace" | "chord">;

function printed(note: MomentNote, score: Score): Printed {
  const { source } = note;
  return {
    id: source.id,
    bar: barLabel(score, source.bar),
    beat: source.beat,
    written: pitchName(source.written),
    sounding: pitchName(note.sounding),
    grace: source.grace,
    chord: source.chord,
  };
}

/** The printed label of a bar by its index. */
export function barLabel(score: Score, index: number): string {
  return score.bars.find((bar) => bar.index === index)?.label ?? String(index + 1);
}

type PlacedEntry = Omit<PlacedNote, "id" | "chord">;

const NOT_PLACED: PlacedEntry = {
  sound: null,
  string: null,
  position: null,
  writtenPosition: null,
  finger: null,
  contact: null,
  arrival: null,
  stroke: null,
  compound: null,
  planted: null,
  spoken: null,
};

function placedEntry(played: Played, at: number, index: number): PlacedEntry {
  const left = played.lefts[at] as Left;
  const right = played.rights[at] as Right;
  const placed = left.placed.find((one) => one.note === index);
  if (placed === undefined) return NOT_PLACED;
  const plucked = left.chain === 0;
  return {
    sound: placed.sound,
    string: placed.string,
    position: placed.position,
    writtenPosition: writtenPosition(placed, played.moments[at]?.notes[index]?.given.position ?? null),
    finger: placed.finger,
    contact: placed.contact,
    arrival: left.arrival,
    stroke: plucked ? strokeOn(right, placed) : null,
    compound: plucked ? (right.pinch ?? right.figure?.name ?? null) : null,
    planted: right.planted === 0 ? null : right.planted,
    spoken: readingOf(played, at, placed),
  };
}

/** The notes of some moments with their places and strokes. @param first ids of the moments' first notes */
export function placedNotes(played: Played, first: ReadonlySet<string>): readonly PlacedNote[] {
  return played.moments.flatMap(({ notes }, at) =>
    first.has(notes[0]?.source.id ?? "")
      ? notes.map(({ source }, i) => ({ id: source.id, chord: source.chord, ...placedEntry(played, at, i) }))
      : [],
  );
}

/** Where the fingering comes from: wholly from the score, partly, or not at all. */
export function sourceOf(played: Played): "submitted" | "completed" | "searched" {
  const notes = played.moments.flatMap((moment) => moment.notes.map((note) => note.source.given));
  const fingered = (given: GivenFingering): boolean => givenKeys(given).some((key) => key !== "ornament");
  if (!notes.some(fingered)) return "searched";
  return notes.every(isWhole) ? "submitted" : "completed";
}

/** Everything that a writer writes: a sound without a pluck keeps string and finger of the one before. */
function isWhole(given: GivenFingering): boolean {
  const { sound, string, across, position, finger, stroke, compound, arrival } = given;
  if (arrival !== null && arrival !== "plucked")
    return sound !== null && (sound === "open" || position !== null || arrival === "pulled-off");
  const placed =
    sound === "open" || (position !== null && (sound === "harmonic" || (sound === "stopped" && finger !== null)));
  return placed && (string !== null || across !== null) && (stroke !== null || compound !== null);
}
