// SPDX-License-Identifier: AGPL-3.0-or-later
// Where one note lies on one string, and how the left hand can hold it there.
import { centsAt, cmFromBridge, harmonicCents, NUT_POSITION } from "../model/board.js";
import { CONTACTS, FINGERS, type GivenFingering } from "../model/fingering.js";
import type { MomentNote } from "../model/moments.js";
import { centsAboveOpen, namesPlace, type Place, placesOn, WRITTEN_TOLERANCE_CENTS } from "../model/places.js";
import type { Placed } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import { centsOf } from "../model/temperament.js";
import { Shelf } from "./shelf.js";

/** Every way to hold this note on all strings, in fixed order; `withheld` ones only where the score gives them. */
export function placementsOf(
  note: MomentNote,
  index: number,
  setting: Setting,
  withheld: (placed: Placed) => boolean,
  shelf = new Shelf(),
): readonly Placed[] {
  const given = note.given;
  const strings = [1, 2, 3, 4, 5, 6, 7];
  const all = strings.flatMap((string) => placementsOn(note, index, string, setting, shelf));
  const fitting = all.filter((placed) => fits(placed, given));
  // Without a pluck the string is that of the note before, whichever it is: wrong places are offered on every string.
  if (given.position !== null && given.arrival !== null && given.arrival !== "plucked")
    return [...fitting, ...mismatches(note, index, setting)];
  const own = fitting.filter((placed) => givesHold(given) || !withheld(placed));
  if (own.length > 0) return own;
  if (fitting.length > 0 && (given.position !== null || given.sound !== null)) return fitting;
  return mismatches(note, index, setting);
}

/** The score says which finger or contact holds it: unusual ones are then legal. */
const givesHold = (given: GivenFingering): boolean => given.finger !== null || given.contact !== null;

function placementsOn(
  { semitone, cents }: MomentNote,
  index: number,
  string: number,
  setting: Setting,
  shelf: Shelf,
): readonly Placed[] {
  const open = setting.tuning.semitones[string - 1] as number;
  const above = centsAboveOpen(string, cents, setting);
  return shelf.placed(`${index} ${string} ${semitone - open} ${above}`, () =>
    placesOn(string, semitone, cents, setting).flatMap((place) =>
      placed({ ...place, note: index, mismatch: false }, setting),
    ),
  );
}

/** A place of a note, before a finger is chosen. */
type Spot = Place & Pick<Placed, "note" | "mismatch">;

/** A place as the left hand takes it: nothing for an open string, a touch for a harmonic, every hold for a stop. */
function placed(spot: Spot, setting: Setting): readonly Placed[] {
  const { note, mismatch, string, sound, position, exact, semitones, offCents } = spot;
  const cm = cmFromBridge(exact, setting.scaleLengthCm);
  const base = { note, mismatch, string, sound, position, exact, cm, semitones, offCents };
  return sound === "stopped" ? HOLDS.map((hold) => ({ ...base, ...hold })) : [{ ...base, finger: null, contact: null }];
}

/** Every finger and contact there is: the thumb does not kneel, index and middle use the tip. */
const HOLDS = FINGERS.flatMap((finger) =>
  CONTACTS.filter(
    (contact) => contact === "tip" || finger === "ring" || (finger === "thumb" && contact === "joint"),
  ).map((contact) => ({ finger, contact })),
);

/** Whether a placement is what the score gives, as far as it says. */
export function fits(placed: Placed, given: GivenFingering): boolean {
  if (given.string !== null && given.string !== placed.string) return false;
  if (given.across !== null && !given.across.includes(placed.string)) return false;
  if (given.sound !== null && given.sound !== placed.sound) return false;
  if (placed.sound === "stopped") {
    if (given.finger !== null && given.finger !== placed.finger) return false;
    if (given.contact !== null && given.contact !== placed.contact) return false;
  }
  return given.position === null || (placed.sound !== "open" && namesPlace(given.position, placed));
}

/** A written place that sounds another note: the string it is on, or the strings where it is least wrong. */
function mismatches(note: MomentNote, index: number, setting: Setting): readonly Placed[] {
  const given = note.given;
  if (given.string === null && given.across === null && given.position === null) return [];
  const strings = given.string === null ? (given.across ?? [1, 2, 3, 4, 5, 6, 7]) : [given.string];
  const wrong = strings.flatMap((string) => wrongPlaces(note, index, string, setting));
  const fitting = wrong.filter((placed) => {
    if (given.position !== null && Math.abs(placed.offCents) <= WRITTEN_TOLERANCE_CENTS) return false;
    const finger = placed.sound !== "stopped" || given.finger === null || placed.finger === given.finger;
    const contact = placed.sound !== "stopped" || placed.contact === (given.contact ?? "tip");
    return finger && contact;
  });
  if (given.string !== null || (given.arrival !== null && given.arrival !== "plucked")) return fitting;
  const least = Math.min(...fitting.map((placed) => Math.abs(placed.offCents)));
  return fitting.filter((placed) => Math.abs(placed.offCents) === least);
}

function wrongPlaces(note: MomentNote, index: number, string: number, setting: Setting): readonly Placed[] {
  const { sound, position } = note.given;
  const open = setting.tuning.semitones[string - 1] as number;
  const above = note.cents - centsOf(open, setting.gong, setting.temperament);
  const at = (exact: number, cents: number, kind: Place["sound"]): readonly Placed[] =>
    placed(
      {
        note: index,
        mismatch: true,
        string,
        sound: kind,
        position,
        exact,
        cents,
        semitones: note.semitone - open,
        offCents: cents - above,
      },
      setting,
    );
  if (sound === "open") return at(NUT_POSITION, 0, "open");
  if (position === null) return [];
  if (sound !== "harmonic") return at(position, centsAt(position), "stopped");
  return Number.isInteger(position) && position <= 13 ? at(position, harmonicCents(position), "harmonic") : [];
}
