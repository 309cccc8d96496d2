// SPDX-License-Identifier: AGPL-3.0-or-later
// The tempo of a metronome mark.
import { childText, type XmlElement } from "./xml.js";

/** Lengths of note values in quarter notes, by their MusicXML names. */
const VALUE_QUARTERS: Readonly<Record<string, number>> = {
  maxima: 32,
  long: 16,
  breve: 8,
  whole: 4,
  half: 2,
  quarter: 1,
  eighth: 1 / 2,
  "16th": 1 / 4,
  "32nd": 1 / 8,
  "64th": 1 / 16,
  "128th": 1 / 32,
  "256th": 1 / 64,
  "512th": 1 / 128,
  "1024th": 1 / 256,
};

/** The length of a note value in quarter notes; null for a name that is none. */
export function valueQuarters(name: string | null): number | null {
  return name === null ? null : (VALUE_QUARTERS[name] ?? null);
}

/**
 * Quarter notes a minute by a printed mark. A range or an approximation counts by its first number: "c. 72", "60-66". Null
 * where there is no number, as where one note value is set equal to another.
 */
export function printedTempo(mark: XmlElement): number | null {
  const beat = beatOf(mark);
  const number = Number(/\d{1,4}(\.\d{1,6})?/.exec(childText(mark, "per-minute") ?? "")?.[0] ?? 0);
  return beat !== null && number > 0 ? number * beat : null;
}

/** The beat: a value with its dots, and those that are tied to it. */
function beatOf(mark: XmlElement): number | null {
  const tied = mark.children.filter((inner) => inner.nodeName === "beat-unit-tied").map(beatOf);
  const value = valueQuarters(childText(mark, "beat-unit"));
  const dots = mark.children.filter((inner) => inner.nodeName === "beat-unit-dot").length;
  return tied.reduce(
    (sum, part) => (sum === null || part === null ? null : sum + part),
    value === null ? null : value * (2 - 0.5 ** dots),
  );
}
