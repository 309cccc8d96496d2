// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "plucked-slur",
    kind: "idiom",
    title: "A pluck where a slur or a slide is written",
    topic: "plucks where a slur or a slide is written",
    principle:
      "A slur over two or three notes in one direction is played with one pluck: the finger slides on, and the string goes on sounding.",
    why: "A new pluck inside the slur cuts the breath that the slur draws; sliding is what the instrument does best.",
    whenRight:
      "Where the slur only marks a phrase, where the slide would begin on an open string, or where a word of the text wants every note clear.",
    remedy: "Stop both notes on one string with one finger and slide (shang or xia), or pull off to the open string.",
    sources: ["common practice, no source"],
    unit: null,
    parameters: {
      pluckedAnew: {
        default: 0.8,
        unit: "spare moves",
        doc: "a pluck on a later note of a short slur that can be slid",
        evidence: "common practice",
      },
      shortestSlide: {
        default: 0.12,
        unit: "s",
        doc: "a slide needs this long; nothing is asked of faster notes",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "the slur is slid",
        kind: "passes",
        melody: "(F2 G2)",
        fingering: ["ming 10 gou 1", "shang 9"],
        finds: [],
      },
      {
        shows: "the second note is plucked",
        kind: "breaks",
        melody: "(F2 G2)",
        fingering: ["ming 10 gou 1", "ming 9 tiao 1"],
        finds: [
          [
            2,
            "caution",
            "G2 is to be reached from the note before by the left hand alone, and is plucked anew: ming 9 tiao 1.",
          ],
        ],
      },
      {
        shows: "a slur over four notes is phrasing",
        kind: "exception",
        melody: "(F2 G2 A2 C3)",
        fingering: ["ming 10 gou 1", "ming 9 tiao 1", "san gou 5", "san tiao 6"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: null,
    breaks: "above",
    measure: (placed, _missing, note, moment, left) => {
      if (placed === null || moment.asks === null || moment.notes.length > 1 || note.harmonicAsked) return Number.NaN;
      if (moment.rested || moment.gapSeconds < values.shortestSlide) return Number.NaN;
      return moment.asks !== "slur" && left.arrival === "plucked" ? 1 : 0;
    },
    charge: (measured) => measured * values.pluckedAnew,
    message: (sight) =>
      `${sight.note} is to be reached from the note before by the left hand alone, and is plucked anew: ${sight.spoken}.`,
  }),
);
