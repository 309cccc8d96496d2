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
 * as it is, the pin is not to blame: the check tells. Nor is it where only other pins are in its way.
 *
 * @param alone the choices if a pin were the only one; the same where that is not told apart
 * @throws InputProblem naming the pin's line
 */
export function guardPins(
  choices: readonly Choice[],
  brief: Brief,
  strung: Strung,
  alone: (pin: Pin) => readonly Choice[] = () => choices,
): void {
  for (const pin of brief.pins) {
    const note = choices.flatMap(({ moment }) => moment.notes).find(({ source }) => source.id === pin.note);
    if (note === undefined || sounds(choices, pin)) continue;
    if (isToBlame(pin, note, strung) && (brief.pins.length === 1 || !sounds(alone(pin), pin)))
      throw pinProblem(note, pin);
  }
}

function sounds(choices: readonly Choice[], pin: Pin): boolean {
  return choices.some(({ moment, lefts }) => {
    const index = moment.notes.findIndex((note) => note.source.id === pin.note);
    return lefts.some((left) => left.placed.some((placed) => placed.note === index && !placed.mismatch));
  });
}

function isToBlame(pin: Pin, { source, semitone, cents }: MomentNote, strung: Strung): boolean {
  const fits = (given: Pin["given"]): boolean => soundsWhereGiven(given, semitone, cents, strung);
  return fits(source.given) || !fits(pin.given);
}

function pinProblem({ sounding }: MomentNote, pin: Pin): InputProblem {
  const name = pitchName(sounding);
  const cure = `huipath where ${name} lists the places that can`;
  return new InputProblem("bad-pin", pin.place, `"${pin.text}": this cannot sound ${name}`, cure);
}
