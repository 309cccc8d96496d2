// SPDX-License-Identifier: AGPL-3.0-or-later
// Other ways to play a note of the sample: examples of every kind that a page prints, no more than plausible.
import type { NoteJson } from "../../src/report.js";

/** Ways to play a note otherwise, cheapest first; none for a note without a place, and on strings with an even number. */
export function sampleWays(note: Pick<NoteJson, "sound" | "string" | "position">, head: string) {
  const { sound, string, position } = note;
  if (sound === null || string === null || string % 2 === 0) return [];
  const other = string === 7 ? 5 : string + 1;
  const place = position === null ? "sound: open" : `position: ${position}`;
  const own = position === null ? "san" : sound === "harmonic" ? `fan ${position}` : `da ${position}`;
  const free = { blockedMore: 0 };
  return [
    {
      ...{ ...free, spoken: `da 9 tiao ${other}`, sound: "stopped" as const, string: other, position: 9 },
      ...{ effortMore: 0.2, pin: `- { ${head}, string: ${other}, position: 9, finger: thumb, stroke: tiao }` },
    },
    {
      ...{ ...free, spoken: `${own} mo ${string}`, sound, string, position, effortMore: 0.35 },
      pin: `- { ${head}, ${place}, string: ${string}, stroke: mo }`,
    },
    { ...free, spoken: "qia qi", sound: "stopped" as const, string: other, position: 10, effortMore: 1.5, pin: null },
    {
      ...{ spoken: `fan 7 gou ${other}`, sound: "harmonic" as const, string: other, position: 7, blockedMore: 1 },
      ...{ effortMore: 0.4, pin: `- { ${head}, sound: harmonic, string: ${other}, position: 7, stroke: gou }` },
    },
  ];
}
