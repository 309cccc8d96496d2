// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Brief, Pin } from "../model/brief.js";
import type { MomentNote } from "../model/moments.js";
import { pitchName } from "../model/pitch.js";
import type { Strung } from "../model/places.js";
import { soundsWhereGiven } from "../model/soundable.js";
import { InputProblem } from "../problem.js";
import type { Choice } from "./candidates.js";

/**
 * Makes sure that every pin of the brief can sound its note. Where the score's own fingering cannot, and a pin leaves that
 * as it is, the pin is not to blame: the check tells.
 *
 * @throws InputProblem naming the pin's line
 */
export function guardPins(choices: readonly Choice[], brief: Brief, strung: Strung): void {
  for (const pin of brief.pins) {
    const choice = choices.find(({ moment }) => moment.notes.some((note) => note.source.id === pin.note));
    const index = choice?.moment.notes.findIndex((note) => note.source.id === pin.note) ?? -1;
    const note = choice?.moment.notes[index];
    if (choice === undefined || note === undefined || soundsAt(choice, index)) continue;
    if (isToBlame(pin, note, strung)) throw pinProblem(note, pin);
  }
}

function soundsAt(choice: Choice, index: number): boolean {
  return choice.lefts.some((left) => left.placed.some((placed) => placed.note === index && !placed.mismatch));
}

function isToBlame(pin: Pin, { source, semitone, cents }: MomentNote, strung: Strung): boolean {
  const sounds = (given: Pin["given"]): boolean => soundsWhereGiven(given, semitone, cents, strung);
  return sounds(source.given) || !sounds(pin.given);
}

function pinProblem({ sounding }: MomentNote, pin: Pin): InputProblem {
  const name = pitchName(sounding);
  const cure = `huipath where ${name} lists the places that can`;
  return new InputProblem("bad-pin", pin.place, `"${pin.text}": this cannot sound ${name}`, cure);
}
