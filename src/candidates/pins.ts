// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Brief, Pin } from "../model/brief.js";
import { pitchName } from "../model/pitch.js";
import { InputProblem } from "../problem.js";
import type { Choice } from "./candidates.js";

/**
 * Makes sure that every pin of the brief can sound its note.
 *
 * @throws InputProblem naming the pin's line
 */
export function guardPins(choices: readonly Choice[], brief: Brief): void {
  for (const pin of brief.pins) {
    const choice = choices.find(({ moment }) => moment.notes.some((note) => note.source.id === pin.note));
    if (choice !== undefined && !soundsAt(choice, pin)) throw pinProblem(choice, pin);
  }
}

function soundsAt(choice: Choice, pin: Pin): boolean {
  const index = choice.moment.notes.findIndex((note) => note.source.id === pin.note);
  return choice.lefts.some((left) => left.placed.some((placed) => placed.note === index && !placed.mismatch));
}

function pinProblem(choice: Choice, pin: Pin): InputProblem {
  const note = choice.moment.notes.find((one) => one.source.id === pin.note);
  const name = note === undefined ? "the note" : pitchName(note.sounding);
  const cure = `huipath where ${name} lists the places that can`;
  return new InputProblem("bad-pin", pin.place, `"${pin.text}": this cannot sound ${name}`, cure);
}
