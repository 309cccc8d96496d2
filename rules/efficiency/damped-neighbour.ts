// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "damped-neighbour",
    kind: "efficiency",
    title: "A stroke lands on a string that must ring",
    topic: "damping a string that rings",
    principle:
      "Gou, mo and da come to rest on the next inner string, tuo, the outward stroke of the thumb, on the next outer one, and stop it. In a plain line that is the ordinary release.",
    why: "Where the score wants the note before to go on sounding, that stroke cuts it off.",
    whenRight: "Where the end of the note before is wanted, or hidden by a louder one.",
    remedy: "Take an opening stroke (tiao or ti), or either note on another string.",
    sources: ["common practice, no source"],
    unit: null,
    parameters: {
      damped: {
        default: 0.8,
        unit: "spare moves",
        doc: "a string that must ring is stopped",
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: "without a sign to let it ring nothing is amiss",
        kind: "passes",
        melody: "G2 F2",
        fingering: ["san tiao 4", "san gou 3"],
        finds: [],
      },
      {
        shows: "gou 3 comes to rest on string 4, which must ring",
        kind: "breaks",
        melody: "G2! F2",
        fingering: ["san tiao 4", "san gou 3"],
        finds: [
          [
            2,
            "caution",
            "san gou 3 comes to rest on the string of san tiao 4, which the score lets ring, and stops it.",
          ],
        ],
      },
      {
        shows: "ti leaves the string outward and ends in the air",
        kind: "exception",
        melody: "G2! F2",
        fingering: ["san tiao 4", "san ti 3"],
        finds: [],
      },
    ],
  },
  (values) => {
    /** The string on which a stroke comes to rest, 0 for none. */
    const touched = (stroke: Stroke, string: number): number => {
      if (stroke === "gou" || stroke === "mo" || stroke === "da") return string + 1;
      return stroke === "tuo" ? string - 1 : 0;
    };

    /** Whether a stroke stops a string of the stroke before that is not struck again itself. */
    const stops = (before: Right, right: Right, stroke: Stroke, string: number): boolean => {
      const rest = touched(stroke, string);
      if (rest === right.strings.outer || rest === right.strings.inner) return false;
      return rest === before.strings.outer || rest === before.strings.inner;
    };

    return {
      reach: "stroke-move",
      limit: null,
      breaks: "above",
      measure: (before, right, gap) => {
        if (!gap.ringsOn || right.stroke === null) return Number.NaN;
        if (stops(before, right, right.stroke, right.strings.outer)) return 1;
        const inner = right.innerStroke !== null && stops(before, right, right.innerStroke, right.strings.inner);
        return inner ? 1 : 0;
      },
      charge: (measured) => measured * values.damped,
      message: (sight) =>
        `${sight.spoken} comes to rest on the string of ${sight.spokenBefore}, which the score lets ring, and stops it.`,
    };
  },
);
