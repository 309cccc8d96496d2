// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "wandering-unison",
    kind: "idiom",
    title: "The same pitch again at another place",
    topic: "one pitch in two places",
    principle:
      "A repeated stopped note stays where it is, under the same finger; or it goes by turns with the open string of the same pitch.",
    why: "The second place has another colour, and the hand travels to play what it already holds.",
    whenRight:
      "Where the two colours are meant to echo each other, or where the new place is the way into what follows.",
    remedy: "Stay at the first place, or let open and stopped answer each other.",
    sources: ["common practice, no source"],
    unit: null,
    parameters: {
      wandered: {
        default: 0.5,
        unit: "spare moves",
        doc: "the same pitch stopped at another place or by another finger",
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: "the repeated note stays where it is",
        kind: "passes",
        melody: "E3 E3",
        fingering: ["ming 9 gou 5", "ming 9 tiao 5"],
        finds: [],
      },
      {
        shows: "the same pitch on another string",
        kind: "breaks",
        melody: "E3 E3",
        fingering: ["ming 9 gou 5", "da 7.3 tiao 3"],
        finds: [[2, "note", "E3 comes again as da 7.3 tiao 3, after ming 9 gou 5."]],
      },
      {
        shows: "open and stopped answer each other",
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
      message: (sight) => `${sight.note} comes again as ${sight.spoken}, after ${sight.spokenBefore}.`,
    };
  },
);
