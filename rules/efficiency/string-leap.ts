// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";

/** Where the index finger lies for each stroke: strings inward of the struck one, nearest and farthest. */
const INDEX_FROM: Readonly<Record<Stroke, number>> = { mo: 0, tiao: 0, gou: 1, ti: 1, da: 2, zhai: 2, tuo: -2, bo: -2 };
const INDEX_TO: Readonly<Record<Stroke, number>> = { mo: 0, tiao: 0, gou: 4, ti: 4, da: 5, zhai: 5, tuo: 0, bo: 0 };

export default defineRule(
  {
    id: "string-leap",
    kind: "efficiency",
    title: "The right hand leaps over the strings",
    topic: "leaps over the strings",
    principle:
      "The right hand keeps its place over the strings and lets the fingers divide the work: the middle finger strikes up to four strings outside the index, so gou 1 and then tiao 5 is one place of the hand.",
    why: "A hand that jumps has to find its string anew and loses the evenness of tone.",
    whenRight: "Where the melody leaps in slow notes, or the leap is the effect.",
    remedy:
      "Give the outer note to the middle finger and the inner one to the index, or take one of them on a nearer string.",
    sources: ["common practice, no source"],
    movement: true,
    unit: "strings",
    parameters: {
      perString: {
        default: 0.15,
        unit: "spare moves per string",
        doc: "each string of hand movement after the first",
        evidence: "our judgement",
      },
      idleSeconds: {
        default: 2,
        unit: "s",
        doc: "so long after the pluck before, the hand finds its string without haste; a number above 1.5",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "gou 1, then tiao 5: one place of the hand",
        kind: "passes",
        melody: "C2 A2",
        fingering: ["san gou 1", "san tiao 5"],
        finds: [],
      },
      {
        shows: "tiao from string 7 to string 2",
        kind: "breaks",
        melody: "D3 D2",
        tempo: 120,
        fingering: ["san tiao 7", "san mo 2"],
        finds: [[2, "caution", "The right hand moves over 5 strings between san tiao 7 and san mo 2."]],
      },
      {
        shows: "a rest gives the hand time",
        kind: "exception",
        melody: "D3 r D2",
        fingering: ["san tiao 7", "san mo 2"],
        finds: [],
      },
      {
        shows: "two seconds between the plucks are time enough",
        kind: "exception",
        melody: "D3:2 D2:2",
        fingering: ["san tiao 7", "san mo 2"],
        finds: [],
      },
    ],
  },
  (values) => {
    const from = (right: Right): number => {
      const outer = right.strings.outer + INDEX_FROM[right.stroke as Stroke];
      return right.innerStroke === null ? outer : Math.max(outer, right.strings.inner + INDEX_FROM[right.innerStroke]);
    };
    const to = (right: Right): number => {
      const outer = right.strings.outer + INDEX_TO[right.stroke as Stroke];
      return right.innerStroke === null ? outer : Math.min(outer, right.strings.inner + INDEX_TO[right.innerStroke]);
    };
    return {
      reach: "stroke-move",
      limit: 1,
      breaks: "above",
      measure: (before, right, gap) =>
        gap.rested ? Number.NaN : Math.max(0, from(before) - to(right), from(right) - to(before)),
      charge: (strings, _before, _right, gap) =>
        values.perString * Math.max(0, strings - 1) * slowing(gap.seconds, gap.rested, 0, values.idleSeconds),
      message: (sight) =>
        `The right hand moves over ${plain(sight.measured)} strings between ${sight.spokenBefore} and ${sight.spoken}.`,
    };
  },
);
