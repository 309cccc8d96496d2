// SPDX-License-Identifier: AGPL-3.0-or-later
// The range of every tuning as a table.
import type { Register } from "../../src/model/registers.js";
import { type Phrase, phrase } from "../../src/words.js";
import type { HandbookJson } from "./json.js";
import { type Section, term, text } from "./table.js";

/** How low and how high. */
export function rangeSection({ tunings }: HandbookJson): Section {
  const title = phrase("Lowest and highest notes", "最低音与最高音");
  return {
    id: "range",
    title: phrase("Range of the strings", "各弦音域"),
    words: [
      phrase(
        "Each range goes from the lowest string to the highest. Ordinary stops run from 13.1 to hui 4 (common practice). Beyond hui 4, up to hui 1, notes are thin and a semitone is 1.5 cm and less; below 13.1 there is only 13.6, a semitone above the open string. Harmonics run from hui 7 to hui 1, their whole range as in print (zgmzyq.cn; UBC Physics 341 wiki).",
        "音域都从最低的弦算到最高的弦。平常的按音从徽外（13.1）到四徽（通行做法）。四徽以上到一徽，音色单薄，一个半音不过1.5厘米；徽外之下只有13.6，比散音高一个半音。泛音从七徽到一徽，总音域与已刊资料相合（zgmzyq.cn；不列颠哥伦比亚大学物理341课程网页）。",
      ),
    ],
    parts: [
      {
        id: "range-table",
        title,
        words: [],
        tables: [
          {
            caption: title,
            layout: "numbers",
            head: [
              phrase("Tuning", "定弦"),
              phrase("Open", "散音"),
              phrase("Stopped, 13.1 to hui 4", "按音，徽外至四徽"),
              phrase("Stopped, 13.6 to hui 1", "按音，13.6至一徽"),
              phrase("Harmonics, hui 7 to hui 1", "泛音，七徽至一徽"),
            ],
            rows: tunings.map((tuning) => ({
              head: term(tuning.title, tuning.characters),
              cells: tuning.registers.map((register) => text(registerWords(register))),
              strong: true,
            })),
          },
        ],
      },
    ],
  };
}

function registerWords({ lowest, highest }: Register): Phrase {
  return phrase(`${lowest.pitch} to ${highest.pitch}`, `${lowest.pitch}至${highest.pitch}`);
}
