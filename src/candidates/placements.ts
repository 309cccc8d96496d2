// SPDX-License-Identifier: AGPL-3.0-or-later
// Where one note lies on one string, and how the left hand can hold it there.
import {
  centsAt,
  cmFromBridge,
  fractionAt,
  HUI_PARTIAL,
  harmonicCents,
  NUT_POSITION,
  stopPosition,
  writtenPlace,
} from "../model/board.js";
import { CONTACTS, FINGERS, type GivenFingering } from "../model/fingering.js";
import type { MomentNote } from "../model/moments.js";
import type { Placed } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import { centsOf } from "../model/temperament.js";

/** A harmonic or an open string may differ this much from a microtonal pitch, in cents. */
const MICROTONE_TOLERANCE_CENTS = 35;
/** A written place is the note's own when it lies this near, in cents, or within half a tenth (a default of this project). */
const WRITTEN_TOLERANCE_CENTS = 25;

/** Every way to hold this note on all strings, in fixed order; `withheld` ones only where the score gives them. */
export function placementsOf(
  note: MomentNote,
  index: number,
  setting: Setting,
  withheld: (placed: Placed) => boolean,
): readonly Placed[] {
  const given = note.source.given;
  const all = [1, 2, 3, 4, 5, 6, 7].flatMap((string) => placementsOn(note, index, string, setting));
  const fitting = all.filter((placed) => fits(placed, given));
  const own = fitting.filter((placed) => givesHold(given) || !withheld(placed));
  if (own.length > 0) return own;
  if (fitting.length > 0 && (given.position !== null || given.sound !== null)) return fitting;
  return given.arrival === null || given.arrival === "plucked" ? mismatches(note, index, setting) : [];
}

/** The score says which finger or contact holds it: unusual ones are then legal. */
const givesHold = (given: GivenFingering): boolean => given.finger !== null || given.contact !== null;

function placementsOn(note: MomentNote, index: number, string: number, setting: Setting): readonly Placed[] {
  const open = setting.tuning.semitones[string - 1] as number;
  const semitones = note.semitone - open;
  const above = note.cents - centsOf(open, setting.tuning.gong, setting.temperament);
  const base = { note: index, string, semitones, mismatch: false };
  const placed: Placed[] = [];
  if (semitones === 0 && Math.abs(above) <= MICROTONE_TOLERANCE_CENTS)
    placed.push({ ...base, ...OPEN, cm: setting.scaleLengthCm, offCents: -above });
  const exact = semitones >= 1 && semitones <= 36 ? stopPosition(above) : null;
  if (exact !== null)
    placed.push(...holds({ ...base, exact, position: writtenPlace(exact, semitones), offCents: 0 }, setting));
  for (let hui = 1; hui <= 13; hui++) {
    const offCents = harmonicCents(hui) - above;
    if (Math.abs(offCents) < 50) placed.push(harmonic({ ...base, position: hui, offCents }, setting));
  }
  return placed;
}

const OPEN = { sound: "open", position: null, exact: NUT_POSITION, finger: null, contact: null } as const;

type Stop = Pick<Placed, "note" | "string" | "semitones" | "mismatch" | "exact" | "position" | "offCents">;

/** One stop under every finger and contact there is: the thumb does not kneel, index and middle use the tip. */
function holds(stop: Stop, setting: Setting): readonly Placed[] {
  const cm = cmFromBridge(stop.exact, setting.scaleLengthCm);
  return FINGERS.flatMap((finger) =>
    CONTACTS.filter(
      (contact) => contact === "tip" || finger === "ring" || (finger === "thumb" && contact === "joint"),
    ).map((contact): Placed => ({ ...stop, sound: "stopped", cm, finger, contact })),
  );
}

function harmonic(
  at: Pick<Placed, "note" | "string" | "semitones" | "mismatch" | "offCents"> & { position: number },
  setting: Setting,
): Placed {
  const cm = cmFromBridge(at.position, setting.scaleLengthCm);
  return { ...at, sound: "harmonic", exact: at.position, cm, finger: null, contact: null };
}

/** Whether a placement is what the score gives, as far as it says. */
function fits(placed: Placed, given: GivenFingering): boolean {
  if (given.string !== null && given.string !== placed.string) return false;
  if (given.sound !== null && given.sound !== placed.sound) return false;
  if (placed.sound === "stopped") {
    if (given.finger !== null && given.finger !== placed.finger) return false;
    if (given.contact !== null && given.contact !== placed.contact) return false;
  }
  return given.position === null || (placed.sound !== "open" && isNear(given.position, placed));
}

/** A written place names this one when it lies within half a tenth or 25 cents, whichever is larger. */
function isNear(position: number, placed: Placed): boolean {
  if (placed.sound === "harmonic") return Math.abs(position - (placed.position as number)) < 0.051;
  if (placed.position === position) return true;
  const off = centsAt(position) - centsAt(placed.exact);
  const tenth = Math.min(position + 0.05, NUT_POSITION);
  return Math.abs(off) <= Math.max(WRITTEN_TOLERANCE_CENTS, Math.abs(centsAt(tenth) - centsAt(tenth - 0.05)));
}

/** A written place that sounds another note: the string it is on, or the strings where it is least wrong. */
function mismatches(note: MomentNote, index: number, setting: Setting): readonly Placed[] {
  const given = note.source.given;
  if (given.string === null && given.position === null) return [];
  const strings = given.string === null ? [1, 2, 3, 4, 5, 6, 7] : [given.string];
  const wrong = strings.flatMap((string) => wrongPlaces(note, index, string, setting));
  const fitting = wrong.filter((placed) => {
    const finger = placed.sound !== "stopped" || given.finger === null || placed.finger === given.finger;
    const contact = placed.sound !== "stopped" || placed.contact === (given.contact ?? "tip");
    return finger && contact;
  });
  const least = Math.min(...fitting.map((placed) => Math.abs(placed.offCents)));
  return fitting.filter((placed) => Math.abs(placed.offCents) === least || given.string !== null);
}

function wrongPlaces(note: MomentNote, index: number, string: number, setting: Setting): readonly Placed[] {
  const given = note.source.given;
  const open = setting.tuning.semitones[string - 1] as number;
  const above = note.cents - centsOf(open, setting.tuning.gong, setting.temperament);
  const base = { note: index, string, semitones: note.semitone - open, mismatch: true };
  if (given.sound === "open") return [{ ...base, ...OPEN, cm: setting.scaleLengthCm, offCents: -above }];
  if (given.position === null) return [];
  if (given.sound === "harmonic") {
    if (!Number.isInteger(given.position) || HUI_PARTIAL[given.position] === undefined) return [];
    return [harmonic({ ...base, position: given.position, offCents: harmonicCents(given.position) - above }, setting)];
  }
  const exact = given.position;
  const offCents = -1200 * Math.log2(fractionAt(exact)) - above;
  return holds({ ...base, exact, position: exact, offCents }, setting);
}
