// SPDX-License-Identifier: AGPL-3.0-or-later
// What the notes around a spoken form add to it: slides named in advance, harmonics between two signs, the two notes of a
// pinch, and what is left out because it has not changed.
import { isFigure } from "../model/compounds.js";
import { type GivenFingering, givesNothing, type Held, NOTHING_GIVEN } from "../model/fingering.js";
import type { SpokenForm } from "./fingering.js";
import type { Direction } from "./moves.js";
import { inWords, type Odd, overlay } from "./technical.js";

/** A note of the melody with what is written at it alone. */
export interface WrittenNote {
  /** in cents, as it sounds */
  readonly height: number;
  /** equal for the notes of one chord; null for a single note */
  readonly chord: string | null;
  readonly given: GivenFingering;
  /** the texts that were understood */
  readonly forms: readonly SpokenForm[];
}

/** What the line makes of its notes, one entry a note. */
export interface WrittenLine {
  readonly given: readonly GivenFingering[];
  /** what does not go with the notes */
  readonly odd: readonly (readonly Odd[])[];
  /** between the signs of harmonics */
  readonly harmonics: readonly boolean[];
}

/** Reads the forms of a melody together. */
export function readTogether(notes: readonly WrittenNote[]): WrittenLine {
  const given = notes.map((note) => note.given);
  const odd: Odd[][] = notes.map(() => []);
  const harmonics = underSigns(notes);
  followMoves(notes, given, odd);
  const moments = momentsOf(notes);
  for (const moment of moments) pairUp(moment, given, odd);
  for (const [i, one] of given.entries()) if (harmonics[i]) given[i] = asHarmonic(one);
  holdOn(notes, given, harmonics);
  return { given, odd, harmonics };
}

/** The indexes of the notes that sound at once, in order of time. */
function momentsOf(notes: readonly WrittenNote[]): readonly (readonly number[])[] {
  const moments: number[][] = [];
  for (const [i, { chord }] of notes.entries()) {
    const last = moments.at(-1);
    if (chord !== null && last !== undefined && notes[last[0] as number]?.chord === chord) last.push(i);
    else moments.push([i]);
  }
  return moments;
}

function underSigns(notes: readonly WrittenNote[]): readonly boolean[] {
  let inside = false;
  return notes.map(({ forms }) => {
    if (forms.some((form) => form.harmonics === "begin")) inside = true;
    const here = inside;
    if (forms.some((form) => form.harmonics === "end")) inside = false;
    return here;
  });
}

/** Between the signs a whole hui is a harmonic, whichever finger touches it. */
function asHarmonic(given: GivenFingering): GivenFingering {
  const { sound, position, arrival } = given;
  const touched = position !== null && Number.isInteger(position) && (arrival === null || arrival === "plucked");
  return touched && (sound === null || sound === "stopped") ? { ...given, sound: "harmonic" } : given;
}

/** Gives the moves that a form names for later notes to these, and compares the ways of all slides with the notes. */
function followMoves(notes: readonly WrittenNote[], given: GivenFingering[], odd: Odd[][]): void {
  for (const [i, { forms }] of notes.entries())
    for (const form of forms) {
      compareWay(notes, i, form.direction, form.given, odd);
      for (const [k, move] of form.following.entries()) {
        const at = i + 1 + k;
        const target = notes[at];
        const { text } = form.given;
        if (target === undefined || target.chord !== null) {
          (odd[i] as Odd[]).push({ text, nearest: aloneInWords(form), trouble: "misfit" });
          break;
        }
        const wish = { ...NOTHING_GIVEN, ...move.given, written: true, text };
        const own = given[at] as GivenFingering;
        given[at] = givesNothing(own) ? wish : overlay(own, wish, odd[at] as Odd[]);
        compareWay(notes, at, move.direction, wish, odd);
      }
    }
}

function compareWay(
  notes: readonly WrittenNote[],
  at: number,
  direction: Direction | null,
  { text, position }: GivenFingering,
  odd: Odd[][],
): void {
  const before = notes[at - 1];
  const here = notes[at];
  if (direction === null || before === undefined || here === undefined) return;
  const step = here.height - before.height;
  if (step === 0 || step > 0 === (direction === "up")) return;
  const nearest = slideInWords(direction === "up" ? "down" : "up", position);
  (odd[at] as Odd[]).push({ text, nearest, trouble: "direction" });
}

/** A form without what it names for later notes. */
function aloneInWords({ given, direction }: SpokenForm): string {
  return direction === null ? inWords(given) : slideInWords(direction, given.position);
}

function slideInWords(direction: Direction, position: number | null): string {
  const word = direction === "up" ? "shang" : "xia";
  return position === null ? word : `${word} ${position}`;
}

/** A pinch belongs to two notes, whichever of them it is written at; any other compound to one. */
function pairUp(moment: readonly number[], given: GivenFingering[], odd: Odd[][]): void {
  const compounds = moment.filter((i) => given[i]?.compound !== null);
  const first = compounds[0];
  if (first === undefined) return;
  const source = given[first] as GivenFingering;
  const figure = isFigure(source.compound);
  if (figure ? moment.length === 1 : moment.length === 2) {
    if (!figure && compounds.length === 1) sharePinch(moment, source, given, odd);
    return;
  }
  const nearest = figure ? "cuo" : `gou ${source.string ?? source.across?.[0] ?? 4}`;
  for (const i of compounds) {
    const one = given[i] as GivenFingering;
    (odd[i] as Odd[]).push({ text: one.text, nearest, trouble: "misfit" });
    given[i] = { ...one, compound: null, across: null, stroke: null };
  }
}

function sharePinch(moment: readonly number[], source: GivenFingering, given: GivenFingering[], odd: Odd[][]): void {
  const { compound, across, written, text } = source;
  const sound = across !== null && source.sound === "open" ? source.sound : null;
  const wish: GivenFingering = { ...NOTHING_GIVEN, compound, across, sound, arrival: "plucked", written, text };
  for (const i of moment) {
    const own = given[i] as GivenFingering;
    if (own !== source) given[i] = givesNothing(own) ? wish : overlay(own, wish, odd[i] as Odd[]);
  }
}

/** Fills in what was left out: the finger, and where nothing but the stroke is written, the whole place if it holds. */
function holdOn(notes: readonly WrittenNote[], given: GivenFingering[], harmonics: readonly boolean[]): void {
  let state: Held | null = null;
  for (const [i, { chord, forms }] of notes.entries()) {
    if (chord !== null) {
      state = null;
      continue;
    }
    const one = given[i] as GivenFingering;
    const struck = forms.some((form) => form.given.stroke !== null) && (one.string ?? one.across) !== null;
    const within = harmonics[i] && state?.sound !== "harmonic" ? null : state;
    if (struck) given[i] = harmonics[i] ? touchedAt(within, heldFrom(within, one)) : heldFrom(within, one);
    state = stateAfter(state, given[i] as GivenFingering, struck);
  }
}

/** Between the signs the hui of before holds whatever the note is: nothing but a harmonic can be meant there. */
function touchedAt(state: Held | null, one: GivenFingering): GivenFingering {
  const { sound, position } = state ?? {};
  if (one.held === null || one.string === null || sound !== "harmonic" || position === undefined) return one;
  return { ...one, sound, position, held: null };
}

function heldFrom(state: Held | null, one: GivenFingering): GivenFingering {
  const { sound, position, finger } = one;
  if (sound === null && position !== null) {
    if (state?.sound === "harmonic" && Number.isInteger(position)) return { ...one, sound: "harmonic" };
    const hold = state?.sound === "stopped" ? { finger: state.finger, contact: state.contact } : {};
    return { ...one, sound: "stopped", ...hold };
  }
  if (position !== null || state === null) return one;
  if (sound === null && finger === null) return { ...one, held: state };
  return sound === "stopped" && state.sound === "stopped" ? { ...one, held: state } : one;
}

/** What holds after a note; null where nobody can know. */
function stateAfter(state: Held | null, one: GivenFingering, struck: boolean): Held | null {
  switch (one.sound) {
    case null:
      return struck ? state : null;
    case "open":
      return one.arrival === "pulled-off" ? null : { sound: "open", position: null, finger: null, contact: null };
    case "harmonic":
      return { sound: "harmonic", position: one.position, finger: null, contact: null };
    case "stopped": {
      const stop = state?.sound === "stopped" ? state : null;
      const own = one.finger !== null;
      return {
        sound: "stopped",
        position: one.position ?? one.held?.position ?? null,
        finger: own ? one.finger : (stop?.finger ?? null),
        contact: own ? one.contact : (stop?.contact ?? null),
      };
    }
  }
}
