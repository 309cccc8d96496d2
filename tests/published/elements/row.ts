// SPDX-License-Identifier: AGPL-3.0-or-later
// How the table of MusicXML's elements is written down.
import type { Score } from "../../../src/model/score.js";

/** Elements that the melody takes in, and a piece of music that shows it. */
export interface ReadRow {
  readonly elements: readonly string[];
  /** the content of one bar in four quarters, all bars, or a whole document */
  readonly music: string;
  readonly shows: (score: Score) => unknown;
  readonly as: unknown;
}

/** Elements that are told as left out, and a piece of music that shows it. */
export interface NamedRow {
  readonly elements: readonly string[];
  readonly music: string;
  /** the line that the user reads */
  readonly told: string;
}

/** Elements that a test elsewhere shows to be taken in. */
export interface ElsewhereRow {
  readonly elements: readonly string[];
  /** from the repository's top level */
  readonly file: string;
  /** the test's title in it */
  readonly test: string;
}

/** A quarter note with what stands before its pitch and behind its voice. */
export function note(pitch: string, behind = "", before = "", attributes = ""): string {
  const [, step, alter, octave] = /^([A-G])([#b]?)(\d)$/.exec(pitch) as RegExpExecArray;
  const altered = alter === "" ? "" : `<alter>${alter === "#" ? 1 : -1}</alter>`;
  return `<note${attributes}>${before}<pitch><step>${step}</step>${altered}<octave>${octave}</octave></pitch><duration>1</duration><voice>1</voice>${behind}</note>`;
}

/** A note with notations. */
export function marked(notations: string): string {
  return note("D4", `<notations>${notations}</notations>`);
}

/** A note with technical marks. */
export function technical(marks: string): string {
  return marked(`<technical>${marks}</technical>`);
}

/** A direction before a note. */
export function direction(types: string, behind = ""): string {
  return `<direction><direction-type>${types}</direction-type>${behind}</direction>${note("D4")}`;
}

/** Attributes before a note. */
export function attributes(inner: string): string {
  return `<attributes>${inner}</attributes>${note("D4")}`;
}
