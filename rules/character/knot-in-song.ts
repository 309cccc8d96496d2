// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";
import { characterOf, KNOT_PARAMETERS, knotsOf } from "../shared/awkward-moves.js";
import { barsOf, idsOf } from "../shared/runs.js";

export default defineRule(
  {
    id: "knot-in-song",
    kind: "character",
    title: "Awkward moves crowd together where the music sings",
    principle: "Where the brief says that a passage flows, a knot of awkward moves is a fault worth changing.",
    why: "The listener hears the hands struggle where the line should sing.",
    whenRight: "Where the passage does not flow after all: then the brief should say so.",
    remedy: "Take the smoothest fingering of the passage, or thin the melody out at the knot.",
    cures: ["fingering"],
    sources: ["common practice, no source"],
    unit: "spare moves",
    parameters: KNOT_PARAMETERS,
    examples: [
      {
        shows: "a smooth passage, marked flowing",
        kind: "passes",
        melody: "G2 C2 G2 C2",
        tempo: 120,
        flowing: true,
        fingering: ["san tiao 4", "san gou 1", "san tiao 4", "san gou 1"],
        finds: [],
      },
      {
        shows: "gou against its way, marked flowing",
        kind: "breaks",
        melody: "G2 C2 G2 C2",
        tempo: 120,
        flowing: true,
        fingering: ["san gou 4", "san gou 1", "san gou 4", "san gou 1"],
        finds: [
          [
            4,
            "problem",
            "This passage is to flow, but awkward moves crowd together in bar 1: 3.9 spare moves within 4 plucks.",
          ],
        ],
      },
      {
        shows: "the same without a stated character is only asked about",
        kind: "exception",
        melody: "G2 C2 G2 C2",
        tempo: 120,
        fingering: ["san gou 4", "san gou 1", "san gou 4", "san gou 1"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "passage",
    look: (line) => {
      const flowing = line.brief.passages.some((passage) => passage.character === "flowing");
      const knots = knotsOf(line, values).filter((knot) => characterOf(line, knot) === "flowing");
      return {
        looked: flowing ? line.moments.length : 0,
        findings: knots.map((knot) => ({
          notes: idsOf(line, knot),
          severity: "problem",
          measured: knot.effort,
          limit: values.effort,
          message: `This passage is to flow, but awkward moves crowd together in ${barsOf(line, knot)}: ${plain(knot.effort)} spare moves within ${values.plucks} plucks.`,
        })),
      };
    },
  }),
);
