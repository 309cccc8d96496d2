// SPDX-License-Identifier: AGPL-3.0-or-later
// The range of every tuning as a table.
import type { Register } from "../../src/model/registers.js";
import type { HandbookJson } from "./json.js";
import { type Section, text } from "./table.js";

/** How low and how high. */
export function rangeSection({ tunings }: HandbookJson): Section {
  return {
    id: "range",
    title: "Range of the strings",
    words: [
      "Each range goes from the lowest string to the highest. Ordinary stops run from 13.1 to hui 4 (common practice). Beyond hui 4, up to hui 1, notes are thin and a semitone is 1.5 cm and less; below 13.1 there is only 13.6, a semitone above the open string. Harmonics run from hui 7 to hui 1, their whole range as in print (zgmzyq.cn; UBC Physics 341 wiki).",
    ],
    parts: [
      {
        id: "range-table",
        title: "Lowest and highest notes",
        words: [],
        tables: [
          {
            caption: "Lowest and highest notes",
            layout: "numbers",
            head: ["Tuning", "Open", "Stopped, 13.1 to hui 4", "Stopped, 13.6 to hui 1", "Harmonics, hui 7 to hui 1"],
            rows: tunings.map(({ title, characters, registers }) => ({
              head: { ...text(title), characters },
              cells: registers.map((register) => text(registerWords(register))),
              strong: true,
            })),
          },
        ],
      },
    ],
  };
}

function registerWords({ lowest, highest }: Register): string {
  return `${lowest.pitch} to ${highest.pitch}`;
}
