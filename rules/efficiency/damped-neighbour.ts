// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "damped-neighbour",
    kind: "efficiency",
    title: phrase("A stroke lands on a string that must ring", "弹后手指落在须留响的弦上"),
    topic: phrase("damping a string that rings", "碰停留响的弦"),
    principle: phrase(
      "Gou, mo and da come to rest on the next inner string, tuo, the outward stroke of the thumb, on the next outer one, and stop it. In a plain line that is the ordinary release.",
      "勾、抹、打弹后停在内侧的邻弦上，托（大指向外弹）停在外侧的邻弦上，那根弦也就止住了。单线的旋律里，这本是平常的收法。",
    ),
    why: phrase(
      "Where the score wants the note before to go on sounding, that stroke cuts it off.",
      "谱上要前一个音继续响，这一弹却把它切断了。",
    ),
    whenRight: phrase(
      "Where the end of the note before is wanted, or hidden by a louder one.",
      "前一个音正要在此收住，或有更响的音盖过去。",
    ),
    remedy: phrase(
      "Take an opening stroke (tiao or ti), or either note on another string.",
      "改用张开的弹法（挑或剔），或把其中一个音移到别的弦上。",
    ),
    sources: [COMMON_PRACTICE],
    unit: null,
    parameters: {
      damped: {
        default: 0.8,
        unit: "spare moves",
        doc: phrase("a string that must ring is stopped", "须留响的弦被止住"),
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: phrase("without a sign to let it ring nothing is amiss", "没有留响的记号，就没有问题"),
        kind: "passes",
        melody: "G2 F2",
        fingering: ["san tiao 4", "san gou 3"],
        finds: [],
      },
      {
        shows: phrase("gou 3 comes to rest on string 4, which must ring", "勾三弦，指停在四弦上，而四弦须留响"),
        kind: "breaks",
        melody: "G2! F2",
        fingering: ["san tiao 4", "san gou 3"],
        finds: [
          [
            2,
            "caution",
            phrase(
              "san gou 3 comes to rest on the string of san tiao 4, which the score lets ring, and stops it.",
              "“散勾三”弹后落在“散挑四”那根弦上；谱上要那根弦留响，这一落就止住了。",
            ),
          ],
        ],
      },
      {
        shows: phrase("ti leaves the string outward and ends in the air", "剔向外离弦，指停在空处"),
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
        phrase(
          `${sight.spoken} comes to rest on the string of ${sight.spokenBefore}, which the score lets ring, and stops it.`,
          `“${inCharacters(sight.spoken)}”弹后落在“${inCharacters(sight.spokenBefore)}”那根弦上；谱上要那根弦留响，这一落就止住了。`,
        ),
    };
  },
);
