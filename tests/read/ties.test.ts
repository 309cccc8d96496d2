// SPDX-License-Identifier: AGPL-3.0-or-later
// Ties in chords that hold one height twice. Reference: MusicXML 4.0, <tied>: a tie connects two notes of one pitch.
import { expect, test } from "vitest";
import { documentOf, readText } from "./helpers.js";

const E_SHARP = "<step>E</step><alter>1</alter><octave>4</octave>";
const F = "<step>F</step><octave>4</octave>";
const INWARD = ["stop", "start"];

/** A bar with the two notes a and b as a chord, in the order given, with these ends of ties at both. */
function bar(number: number, pitches: Readonly<Record<"a" | "b", string>>, order: "ab" | "ba", ends: string[]): string {
  const tied = ends.map((type) => `<tied type="${type}"/>`).join("");
  const notes = (order === "ab" ? (["a", "b"] as const) : (["b", "a"] as const)).map((name, i) => {
    const behind = `<duration>4</duration><notations>${tied}</notations>`;
    return `<note id="${name}${number}">${i === 0 ? "" : "<chord/>"}<pitch>${pitches[name]}</pitch>${behind}</note>`;
  });
  return `<measure number="${number}">${notes.join("")}</measure>`;
}

test.each([
  { what: "a unison", a: F, b: F, order: "ab" },
  { what: "one height under two names", a: E_SHARP, b: F, order: "ab" },
  { what: "one height under two names, in changing order", a: E_SHARP, b: F, order: "ba" },
] as const)("$what is held over three bars, each note by its own", ({ a, b, order }) => {
  const pitches = { a, b };
  const bars = [bar(1, pitches, "ab", ["start"]), bar(2, pitches, order, INWARD), bar(3, pitches, "ab", ["stop"])];
  const { notes } = readText(documentOf(bars.join("")));
  expect(notes.map(({ id, tiedIds, duration }) => [id, ...tiedIds, duration.valueOf()])).toEqual([
    ["a1", "a2", "a3", 12],
    ["b1", "b2", "b3", 12],
  ]);
});
