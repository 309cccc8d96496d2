// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";

/** A row of the table: what one stroke costs on strings 1 to 7. */
const row = <const R extends readonly number[]>(doc: string, cells: R) => ({
  default: cells,
  unit: "spare moves",
  doc: `${doc}, on strings 1 to 7`,
  evidence: "common practice" as const,
});

export default defineRule(
  {
    id: "stroke-and-string",
    kind: "efficiency",
    title: "The stroke does not suit the string",
    topic: "the choice of stroke",
    principle:
      "Gou serves the outer strings, tiao the inner ones, mo and ti fill in; da and zhai belong to strings 1 and 2, tuo and bo to 6 and 7. A small pinch spans two to four strings, a large one five.",
    why: "Each finger has the right angle and weight on its own strings; elsewhere the hand bends, and the tone is weak or harsh.",
    whenRight: "For its colour, inside a compound stroke, or where it keeps the closing and opening going.",
    remedy: "Take gou or mo on the outer strings and tiao or mo on the inner ones.",
    sources: [
      "thumb mainly on strings 6 and 7, ring finger on 1 and 2: a workshop summary at yangzhousiyue.com",
      "large pinch of thumb and middle finger: the right-hand term list at yueqixuexi.com",
      "common practice, no source, for the rest",
    ],
    unit: "spare moves",
    parameters: {
      awkward: {
        default: 1.2,
        unit: "spare moves",
        doc: "beyond this a player would notice",
        evidence: "our judgement",
      },
      strange: { default: 1.45, unit: "spare moves", doc: "beyond this a player would ask", evidence: "our judgement" },
      unusual: {
        default: 0.45,
        unit: "spare moves",
        doc: "beyond this a stroke is named; less is part of everyday playing",
        evidence: "our judgement",
      },
      gou: row("gou", [0, 0, 0, 0, 0.1, 0.4, 0.9]),
      tiao: row("tiao", [1.5, 0.9, 0.4, 0.1, 0, 0, 0]),
      mo: row("mo", [1, 0.5, 0.3, 0.25, 0.2, 0.15, 0.2]),
      ti: row("ti", [0.4, 0.4, 0.5, 0.6, 0.8, 1.4, 2]),
      da: row("da", [0.9, 0.9, 1.4, 2.5, 3, 3, 3]),
      zhai: row("zhai", [1, 1, 1.5, 2.5, 3, 3, 3]),
      tuo: row("tuo", [3, 3, 3, 2.5, 1.6, 1.1, 1]),
      bo: row("bo", [3, 3, 3, 2.5, 1.6, 1.1, 1]),
      notProposed: {
        default: 3,
        unit: "spare moves",
        doc: "strokes that weigh this much are never proposed, only judged",
        evidence: "our judgement",
      },
      smallPinch: {
        default: [0.5, 0, 0, 0],
        unit: "spare moves",
        doc: "small pinch, or yuan lou, over 1 to 4 strings",
        evidence: "common practice",
      },
      largePinch: {
        default: [0.2, 0, 0.2],
        unit: "spare moves",
        doc: "large pinch over 4 to 6 strings",
        evidence: "common practice",
      },
      largePinchFrom: { default: 4, unit: "strings", doc: "the nearest large pinch", evidence: "common practice" },
      reverse: {
        default: 0.5,
        unit: "spare moves",
        doc: "added where a large pinch goes outward",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "gou on string 1, tiao on string 6, the large pinch of both",
        kind: "passes",
        melody: "C2 C3 C2+C3",
        fingering: ["san gou 1", "san tiao 6", "san gou 1", "san tuo 6"],
        finds: [],
      },
      {
        shows: "tiao on string 1",
        kind: "breaks",
        melody: "C2",
        fingering: ["san tiao 1"],
        finds: [
          [
            1,
            "problem",
            "san tiao 1 is no everyday stroke there: it weighs 1.5 spare moves, the everyday one nothing.",
          ],
        ],
      },
      {
        shows: "the ring finger on an inner string",
        kind: "breaks",
        melody: "C3",
        fingering: ["san da 6"],
        finds: [
          [1, "problem", "san da 6 is no everyday stroke there: it weighs 3 spare moves, the everyday one nothing."],
        ],
      },
      {
        shows: "mo anywhere among the inner strings is unusual to nobody",
        kind: "exception",
        melody: "A2",
        fingering: ["san mo 5"],
        finds: [],
      },
      {
        shows: "the reversed pinch, for its colour",
        kind: "breaks",
        melody: "C2+C3",
        fingering: ["san ti 1", "san bo 6"],
        finds: [
          [
            1,
            "note",
            "san ti 1 + san bo 6 is no everyday stroke there: it weighs 0.5 spare moves, the everyday one nothing.",
          ],
        ],
      },
    ],
  },
  (values) => {
    const table: Readonly<Record<Stroke, readonly number[]>> = values;

    const pinched = (right: Right): number => {
      const apart = right.strings.inner - right.strings.outer;
      if (right.pinch === "small-cuo" || right.pinch === "yuan-lou") return values.smallPinch[apart - 1] as number;
      const large = values.largePinch[apart - values.largePinchFrom] as number;
      return right.pinch === "reverse-cuo" ? large + values.reverse : large;
    };

    const measure = (right: Right): number => {
      // Inside a roll or a sweep any string serves any finger.
      if (right.stroke === null || right.rolled) return Number.NaN;
      return right.pinch === null ? (table[right.stroke][right.strings.outer - 1] as number) : pinched(right);
    };

    return {
      reach: "strike",
      limit: values.unusual,
      severities: [
        [values.unusual, "note"],
        [values.awkward, "caution"],
        [values.strange, "problem"],
      ],
      breaks: "above",
      measure,
      charge: (measured) => measured,
      withholds: (right) =>
        right.pinch === "yuan-lou" || (right.pinch === null && measure(right) >= values.notProposed),
      message: (sight) =>
        `${sight.spoken} is no everyday stroke there: it weighs ${plain(sight.measured, 2)} spare moves, the everyday one nothing.`,
    };
  },
);
