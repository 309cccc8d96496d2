// SPDX-License-Identifier: AGPL-3.0-or-later
// From the file's pitch to what is printed and what sounds: transposing parts and octave signs.
import type { Attributes, Transpose } from "musicxml-interfaces";
import { type Pitch, type Step, semitoneOf } from "../model/pitch.js";
import { InputProblem } from "../problem.js";
import { child, childText, type XmlElement } from "./xml.js";

const STEPS = ["C", "D", "E", "F", "G", "A", "B"] as const satisfies readonly Step[];

/**
 * The file's own pitch of a note: what its part's player reads, octave signs already counted.
 *
 * @throws InputProblem on a step, octave or alter that is none, with the line
 */
export function filePitch(element: XmlElement, file: string): Pitch {
  const holder = child(element, "pitch") ?? element;
  const step = childText(holder, "step")?.toUpperCase() as Step;
  // A number that only begins as one is none.
  const alterText = childText(holder, "alter") ?? "0";
  const plainAlter = /^[+-]?\d{1,2}(\.\d{1,6})?$/.test(alterText);
  const alter = plainAlter ? Number(alterText) : Number.NaN;
  const octaveText = childText(holder, "octave") ?? "";
  const plainOctave = /^\d$/.test(octaveText);
  const octave = Number(octaveText);
  if (!STEPS.includes(step) || !plainOctave || !(Math.abs(alter) <= 4))
    throw new InputProblem(
      "bad-pitch",
      `${file} line ${holder.line}`,
      "this pitch has no step A to G, octave 0 to 9 and alter -4 to 4",
      "correct it or export the score again",
    );
  return { step, alter, octave };
}

/** How a part transposes: steps of the staff and semitones from print to sound. */
export interface PartTransposition {
  readonly steps: number;
  readonly semitones: number;
}

/** Transpositions by staff, as `<attributes>` set them. */
export class Transpositions {
  readonly #byStaff = new Map<string, PartTransposition>();

  /** @returns whether the part is doubled at the octave, which is not followed */
  read(element: XmlElement, parsed: Attributes): boolean {
    const holders = element.children.filter((inner) => inner.nodeName === "transpose");
    for (const [index, transpose] of (parsed.transposes ?? []).entries()) {
      const staff = holders[index]?.getAttribute("number") ?? ALL;
      if (staff === ALL) this.#byStaff.clear();
      this.#byStaff.set(staff, transpositionOf(transpose));
    }
    return holders.some((holder) => child(holder, "double") !== null);
  }

  /** The transposition in force on a staff. */
  on(staff: string): PartTransposition {
    return this.#byStaff.get(staff) ?? this.#byStaff.get(ALL) ?? { steps: 0, semitones: 0 };
  }
}

const ALL = "all";

function transpositionOf(transpose: Transpose): PartTransposition {
  const octaves = whole(transpose.octaveChange) ?? 0;
  const semitones = whole(transpose.chromatic) ?? 0;
  const steps = whole(transpose.diatonic) ?? usualSteps(semitones);
  return { steps: steps + 7 * octaves, semitones: semitones + 12 * octaves };
}

function whole(text: string | undefined): number | null {
  return text !== undefined && /^[+-]?\d{1,3}$/.test(text) ? Number(text) : null;
}

/** Steps of the staff for a number of semitones: the major, minor or perfect interval; the tritone as a fourth. */
function usualSteps(semitones: number): number {
  const within = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];
  const size = Math.abs(semitones);
  const steps = 7 * Math.floor(size / 12) + (within[size % 12] as number);
  return semitones < 0 ? -steps : steps;
}

/**
 * The pitch that lies so many steps and semitones away. Where the steps would need more than two accidentals (a file
 * that names the wrong steps) the usual ones are taken.
 */
export function moved(pitch: Pitch, by: PartTransposition): Pitch {
  if (by.steps === 0 && by.semitones === 0) return pitch;
  const direct = movedBy(pitch, by);
  return Math.abs(direct.alter) <= 2 ? direct : movedBy(pitch, { ...by, steps: usualSteps(by.semitones) });
}

function movedBy(pitch: Pitch, { steps, semitones }: PartTransposition): Pitch {
  const index = STEPS.indexOf(pitch.step) + steps;
  const octave = pitch.octave + Math.floor(index / 7);
  const step = STEPS[((index % 7) + 7) % 7] as Step;
  const target = semitoneOf({ ...pitch, alter: 0 }) + pitch.alter + semitones;
  return { step, octave, alter: target - semitoneOf({ step, octave, alter: 0 }) };
}

/** A pitch moved by whole octaves. */
export function byOctaves(pitch: Pitch, octaves: number): Pitch {
  return octaves === 0 ? pitch : { ...pitch, octave: pitch.octave + octaves };
}
