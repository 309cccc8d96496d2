// SPDX-License-Identifier: AGPL-3.0-or-later
// The left hands that can sound a moment: plucked ones for themselves, slid and left-hand sounds from the hand before.
import { HIGHEST_STOP_SEMITONES, NUT_POSITION } from "../model/board.js";
import type { Arrival } from "../model/fingering.js";
import { frameNearCm, relaxedThumbCm } from "../model/frame.js";
import { type Moment, type MomentNote, WIDEST_SLIDE_SEMITONES } from "../model/moments.js";
import { type Left, type Missing, NO_STRINGS, type Placed, stringsOf } from "../model/playing.js";
import type { Hand, Setting } from "../model/setting.js";
import { centsOf } from "../model/temperament.js";
import type { Shelf } from "./shelf.js";

/** At most this many notes in a row without a pluck, unless the score gives more (common practice, no source). */
const LONGEST_CHAIN = 3;
/** A slide needs this long, in seconds, unless it is an ornament. */
const SHORTEST_SLIDE_SECONDS = 0.12;

/** What candidates are made with. */
export interface Hands {
  readonly setting: Setting;
  /** thumb places in cm of the hand under open strings */
  readonly zonesCm: readonly number[];
  /** every way to hold a note, given the note's index within its moment */
  readonly placements: (note: MomentNote, index: number) => readonly Placed[];
  readonly shelf: Shelf;
}

const single = (placed: Placed, arrival: Arrival, chain: number, from: number, to: number): Left => ({
  placed: [placed],
  first: placed,
  second: null,
  missing: [],
  strings: stringsOf(placed.string),
  arrival,
  chain,
  handFromCm: from,
  handToCm: to,
});

/** A placement as left hands: one where the hand must be there, one for each zone of the board under an open string. */
function asLefts(placed: Placed, arrival: Arrival, chain: number, hands: Hands): readonly Left[] {
  if (placed.sound === "open") return hands.zonesCm.map((cm) => single(placed, arrival, chain, cm, cm));
  const [from, to] = relaxedThumbCm(placed.finger, placed.cm, hands.setting.hand);
  return [single(placed, arrival, chain, from, to)];
}

/** The plucked left hands of a moment, in fixed order. They depend on nothing before it. Empty where nothing fits. */
export function pluckedLefts(moment: Moment, hands: Hands): readonly Left[] {
  const only = moment.notes[0] as MomentNote;
  if (moment.notes.length > 1) return chordLefts(moment, hands);
  const arrival = only.given.arrival;
  if (arrival !== null && arrival !== "plucked") return [];
  return hands
    .placements(only, 0)
    .flatMap((placed) => hands.shelf.lefts(placed, () => asLefts(placed, "plucked", 0, hands)));
}

/** A hand that plays nothing: where it is meanwhile stays open. */
export function silentLefts(moment: Moment, hands: Hands): readonly Left[] {
  const missing = moment.notes.map((note, index) => missingNote(note, index, moment, hands));
  return hands.zonesCm.map((cm) => ({
    placed: [],
    first: null,
    second: null,
    missing,
    strings: NO_STRINGS,
    arrival: "plucked",
    chain: 0,
    handFromCm: cm,
    handToCm: cm,
  }));
}

/** Why a note has no place. */
function missingNote(note: MomentNote, index: number, moment: Moment, hands: Hands): Missing {
  const { tuning, temperament, gong } = hands.setting;
  const outside = (edge: number): number => (note.cents - centsOf(edge, gong, temperament)) / 100;
  const below = -outside(Math.min(...tuning.semitones));
  const above = outside(Math.max(...tuning.semitones) + HIGHEST_STOP_SEMITONES);
  if (below > 0.01) return { note: index, cause: "below", amount: whole(below) };
  if (above > 0.01) return { note: index, cause: "above", amount: whole(above) };
  if (moment.notes.length > 1) return { note: index, cause: "voices", amount: moment.notes.length };
  return { note: index, cause: "given", amount: 1 };
}

/** Semitones outside the range: whole ones, but for a microtone. */
const whole = (semitones: number): number =>
  semitones < 1 ? Math.round(semitones * 100) / 100 : Math.round(semitones);

/**
 * Two strings struck by one pinch: the outermost two notes of the chord that fit together. The others are left out;
 * where no two fit, the highest alone is kept, since it carries the tune.
 */
function chordLefts(moment: Moment, hands: Hands): readonly Left[] {
  const notes = moment.notes;
  const options = notes.map((note, index) => hands.placements(note, index));
  const top = notes.length - 1;
  const missing = (index: number): Missing => missingNote(notes[index] as MomentNote, index, moment, hands);
  for (const [low, high] of pairsOutermostFirst(notes.length)) {
    const others = notes.flatMap((_, i) => (i === low || i === high ? [] : [missing(i)]));
    const pairs = (options[low] as readonly Placed[]).flatMap((a) =>
      (options[high] as readonly Placed[]).flatMap((b) => pairLefts(a, b, others, hands)),
    );
    if (pairs.length > 0) return pairs;
  }
  for (let index = top; index >= 0; index--) {
    const alone = options[index] as readonly Placed[];
    const others = notes.flatMap((_, i) => (i === index ? [] : [missing(i)]));
    if (alone.length > 0)
      return alone
        .flatMap((placed) => asLefts(placed, "plucked", 0, hands))
        .map((left) => ({ ...left, missing: others }));
  }
  return [];
}

function pairsOutermostFirst(count: number): readonly (readonly [low: number, high: number])[] {
  const pairs: (readonly [number, number])[] = [];
  for (let apart = count - 1; apart >= 1; apart--)
    for (let high = count - 1; high - apart >= 0; high--) pairs.push([high - apart, high]);
  return pairs;
}

/** Two placed notes as one left hand, if one hand can hold and one pinch can strike them. */
function pairLefts(low: Placed, high: Placed, missing: readonly Missing[], hands: Hands): readonly Left[] {
  if (low.string === high.string || Math.abs(low.string - high.string) > 6) return [];
  const [outer, inner] = low.string < high.string ? [low, high] : [high, low];
  if (!holdsTogether(outer, inner, hands.setting)) return [];
  const pair = { placed: [outer, inner], first: outer, second: inner, missing, chain: 0, arrival: "plucked" } as const;
  const strings = stringsOf(outer.string, inner.string);
  const windows = [outer, inner]
    .filter((placed) => placed.sound !== "open")
    .map((placed) => relaxedThumbCm(placed.finger, placed.cm, hands.setting.hand));
  if (windows.length === 0) return hands.zonesCm.map((cm) => ({ ...pair, strings, handFromCm: cm, handToCm: cm }));
  const from = Math.max(...windows.map((window) => window[0]));
  const to = Math.min(...windows.map((window) => window[1]));
  return [{ ...pair, strings, handFromCm: Math.min(from, to), handToCm: Math.max(from, to) }];
}

/** One hold of tip and joint reaches this far along the string, in cm. */
const SAME_PLACE_CM = 0.7;

/** Whether one left hand can hold both: an open string with anything; two fingers of the frame; or one finger's tip and joint. */
function holdsTogether(outer: Placed, inner: Placed, setting: Setting): boolean {
  if (outer.sound === "open" || inner.sound === "open") return true;
  if (outer.sound !== inner.sound) return false;
  const apartCm = inner.cm - outer.cm;
  if (outer.sound === "harmonic") return Math.abs(apartCm) <= setting.hand.spanLimitCm;
  if (outer.finger === inner.finger) {
    const reach = outer.finger === "ring" ? 2 : 1;
    const crossing = outer.contact === "tip" && inner.contact === "joint" && inner.string - outer.string <= reach;
    return crossing && Math.abs(apartCm) <= SAME_PLACE_CM;
  }
  return framed(outer, inner, setting) && framed(inner, outer, setting);
}

const ORDER = { thumb: 0, index: 1, middle: 2, ring: 3 } as const;

/** The finger nearer the bridge comes first in the hand, and the two stand as far apart as fingers can. */
function framed(a: Placed, b: Placed, setting: Setting): boolean {
  if (a.finger === null || b.finger === null || ORDER[a.finger] > ORDER[b.finger]) return true;
  const apartCm = b.cm - a.cm;
  const steps = (ORDER[b.finger] - ORDER[a.finger]) / 3;
  return apartCm >= frameNearCm(a.cm, setting) * steps && apartCm <= setting.hand.spanLimitCm * steps;
}

/**
 * What a score gives counts wherever it leads; else the limits of slides hold.
 *
 * @param chain notes without a pluck before this one
 */
function allowed(moment: Moment, chain: number, arrival: Arrival, hand: Hand): boolean {
  const given = (moment.notes[0] as MomentNote).given;
  if (given.arrival !== null) return given.arrival === arrival;
  if (given.stroke !== null) return false;
  if (chain >= LONGEST_CHAIN || moment.rested) return false;
  if (moment.gapSeconds < SHORTEST_SLIDE_SECONDS && !moment.afterGrace) return false;
  // What nothing asks for is proposed only where plucks would come faster than one finger can.
  return moment.asks !== null || moment.gapSeconds <= 1 / hand.plucksPerSecondOneFinger;
}

const UNPLUCKED: readonly Arrival[] = ["slid", "pulled-off", "hammered"];

/**
 * The left hands that sound this moment without a pluck, from the hands before it: slid, pulled off, hammered.
 * Each is made once for the same string, finger, contact and length of chain; {@link follows} says from which it comes.
 */
export function unpluckedLefts(moment: Moment, before: readonly Left[], hands: Hands): readonly Left[] {
  const note = moment.notes[0] as MomentNote;
  if (moment.notes.length > 1) return [];
  if (!UNPLUCKED.some((arrival) => allowed(moment, 0, arrival, hands.setting.hand))) return [];
  const made = new Map<string, Left>();
  const places = hands.placements(note, 0);
  for (const from of before) {
    if (from.first === null || from.second !== null) continue;
    for (const placed of places) {
      if (placed.string !== from.first.string) continue;
      const arrival = arrivalFrom(from.first, placed, hands.setting);
      if (arrival === null || !allowed(moment, from.chain, arrival, hands.setting.hand)) continue;
      if (arrival === "slid" && !slides(from.first, placed, note)) continue;
      const key = [arrival, from.chain + 1, placed.string, placed.position, placed.finger, placed.contact].join();
      if (made.has(key)) continue;
      for (const [i, left] of asLefts(placed, arrival, from.chain + 1, hands).entries())
        made.set(i === 0 ? key : `${key}/${i}`, left);
    }
  }
  return [...made.values()];
}

/** How a placement can sound from the one before on the same string without a pluck; null if it cannot. */
function arrivalFrom(from: Placed, to: Placed, setting: Setting): Arrival | null {
  if (from.sound !== "stopped" || from.string !== to.string) return null;
  if (to.sound === "open") return "pulled-off";
  if (to.sound !== "stopped" || from.exact === to.exact) return null;
  if (from.finger === to.finger) return from.contact === to.contact ? "slid" : null;
  const thumb = from.finger === "thumb" ? from : to;
  const ring = from.finger === "thumb" ? to : from;
  if (thumb.finger !== "thumb" || ring.finger !== "ring" || thumb.contact !== "tip" || ring.contact !== "tip")
    return null;
  const apartCm = ring.cm - thumb.cm;
  if (apartCm < frameNearCm(thumb.cm, setting) || apartCm > setting.hand.spanLimitCm) return null;
  return to === thumb ? "hammered" : "pulled-off";
}

/** A slide uses the fingertip, the kneeling ring finger above it, and stays within a fifth unless the score gives it. */
function slides(from: Placed, to: Placed, note: MomentNote): boolean {
  if (note.given.arrival === "slid") return true;
  if (to.contact === "joint" || to.finger === "index") return false;
  const wide = Math.abs(from.semitones - to.semitones) > WIDEST_SLIDE_SEMITONES;
  return !wide && to.exact < NUT_POSITION;
}

/** Whether a left hand without a pluck comes from this one before it. */
export function follows(from: Left, to: Left, setting: Setting): boolean {
  if (from.first === null || from.second !== null || to.first === null || from.chain + 1 !== to.chain) return false;
  return arrivalFrom(from.first, to.first, setting) === to.arrival;
}
