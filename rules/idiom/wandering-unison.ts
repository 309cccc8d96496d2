// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { defineRule } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "wandering-unison",
    kind: "idiom",
    title: phrase("The same pitch again at another place", "同一个音又换了音位"),
    topic: phrase("one pitch in two places", "一音两位"),
    principle: phrase(
      "A repeated stopped note stays where it is, under the same finger; or it goes by turns with the open string of the same pitch.",
      "重复的按音留在原处，仍用原来的手指；或与同音的散音交替。",
    ),
    why: phrase(
      "The second place has another colour, and the hand travels to play what it already holds.",
      "换了音位，音色就变；手还白跑一趟，去弹本来就按着的音。",
    ),
    whenRight: phrase(
      "Where the two colours are meant to echo each other, or where the new place is the way into what follows.",
      "有意让两种音色呼应；或新的音位正好通向后面。",
    ),
    remedy: phrase(
      "Stay at the first place, or let open and stopped answer each other.",
      "留在原处，或让散音与按音一问一答。",
    ),
    sources: [COMMON_PRACTICE],
    unit: null,
    parameters: {
      wandered: {
        default: 0.5,
        unit: "spare moves",
        doc: phrase("the same pitch stopped at another place or by another finger", "同一个音换了音位或换了手指来按"),
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: phrase("the repeated note stays where it is", "重复的音留在原处"),
        kind: "passes",
        melody: "E3 E3",
        fingering: ["ming 9 gou 5", "ming 9 tiao 5"],
        finds: [],
      },
      {
        shows: phrase("the same pitch on another string", "同一个音换到别的弦上"),
        kind: "breaks",
        melody: "E3 E3",
        fingering: ["ming 9 gou 5", "da 7.3 tiao 3"],
        finds: [
          [
            2,
            "note",
            phrase(
              "E3 comes again as da 7.3 tiao 3, after ming 9 gou 5.",
              "E3再次出现时弹作“大七三挑三”，前一次是“名九勾五”。",
            ),
          ],
        ],
      },
      {
        shows: phrase("open and stopped answer each other", "散音与按音一问一答"),
        kind: "exception",
        melody: "C3 C3",
        fingering: ["san tiao 6", "ming 9 gou 3"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const open = setting.tuning.semitones;
    return {
      reach: "hand-move",
      limit: null,
      breaks: "above",
      measure: (from, to, gap) => {
        const a = from.first;
        const b = to.first;
        if (gap.rested || a === null || b === null || from.second !== null || to.second !== null) return Number.NaN;
        if (to.chain > 0 || a.mismatch || b.mismatch) return Number.NaN;
        if (a.sound === "harmonic" || b.sound === "harmonic") return Number.NaN;
        if ((open[a.string - 1] as number) + a.semitones !== (open[b.string - 1] as number) + b.semitones)
          return Number.NaN;
        if (a.sound === "open" || b.sound === "open") return 0;
        return a.string === b.string && a.finger === b.finger ? 0 : 1;
      },
      charge: (measured) => measured * values.wandered,
      message: ({ note, spoken, spokenBefore }) =>
        phrase(
          `${note} comes again as ${spoken}, after ${spokenBefore}.`,
          `${note}再次出现时弹作“${inCharacters(spoken)}”，前一次是“${inCharacters(spokenBefore)}”。`,
        ),
    };
  },
);
