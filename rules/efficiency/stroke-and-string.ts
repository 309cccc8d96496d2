// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { type Phrase, phrase } from "../../src/words.js";

/** A row of the table: what one stroke costs on strings 1 to 7. */
const row = <const R extends readonly number[]>(stroke: Phrase, cells: R) => ({
  default: cells,
  unit: "spare moves",
  doc: phrase(`${stroke.en}, on strings 1 to 7`, `${stroke.zh}，依次在一至七弦上`),
  evidence: "common practice" as const,
});

export default defineRule(
  {
    id: "stroke-and-string",
    kind: "efficiency",
    title: phrase("The stroke does not suit the string", "弹法与弦不相宜"),
    topic: phrase("the choice of stroke", "弹法的选择"),
    principle: phrase(
      "Gou serves the outer strings, tiao the inner ones, mo and ti fill in; da and zhai belong to strings 1 and 2, tuo and bo to 6 and 7. A small pinch spans two to four strings, a large one five.",
      "勾宜外侧的弦，挑宜内侧的弦，抹与剔居间补足；打、摘用于一、二弦，托、擘用于六、七弦。小撮跨二到四根弦，大撮跨五根。",
    ),
    why: phrase(
      "Each finger has the right angle and weight on its own strings; elsewhere the hand bends, and the tone is weak or harsh.",
      "每个指头在自己的弦上角度和分量正合适；到了别处手就得弯着，音不是弱就是硬。",
    ),
    whenRight: phrase(
      "For its colour, inside a compound stroke, or where it keeps the closing and opening going.",
      "要的是那种音色，在组合指法当中，或为了收张轮换不断。",
    ),
    remedy: phrase(
      "Take gou or mo on the outer strings and tiao or mo on the inner ones.",
      "外侧的弦用勾或抹，内侧的弦用挑或抹。",
    ),
    sources: [
      phrase(
        "thumb mainly on strings 6 and 7, ring finger on 1 and 2: a workshop summary at yangzhousiyue.com",
        "大指多用于六、七弦，名指多用于一、二弦：yangzhousiyue.com一次研习的小结",
      ),
      phrase(
        "large pinch of thumb and middle finger: the right-hand term list at yueqixuexi.com",
        "大指与中指的大撮：yueqixuexi.com右手指法表",
      ),
      phrase("common practice, no source, for the rest", "其余：通行做法（无出处）"),
    ],
    unit: "spare moves",
    parameters: {
      awkward: {
        default: 1.2,
        unit: "spare moves",
        doc: phrase("beyond this a player would notice", "超过此数，演奏者会察觉"),
        evidence: "our judgement",
      },
      strange: {
        default: 1.45,
        unit: "spare moves",
        doc: phrase("beyond this a player would ask", "超过此数，演奏者会追问"),
        evidence: "our judgement",
      },
      unusual: {
        default: 0.45,
        unit: "spare moves",
        doc: phrase(
          "beyond this a stroke is named; less is part of everyday playing",
          "超过此数才指出；不到此数都属日常弹法",
        ),
        evidence: "our judgement",
      },
      gou: row(phrase("gou", "勾"), [0, 0, 0, 0, 0.1, 0.4, 0.9]),
      tiao: row(phrase("tiao", "挑"), [1.5, 0.9, 0.4, 0.1, 0, 0, 0]),
      mo: row(phrase("mo", "抹"), [1, 0.5, 0.3, 0.25, 0.2, 0.15, 0.2]),
      ti: row(phrase("ti", "剔"), [0.4, 0.4, 0.5, 0.6, 0.8, 1.4, 2]),
      da: row(phrase("da", "打"), [0.9, 0.9, 1.4, 2.5, 3, 3, 3]),
      zhai: row(phrase("zhai", "摘"), [1, 1, 1.5, 2.5, 3, 3, 3]),
      tuo: row(phrase("tuo", "托"), [3, 3, 3, 2.5, 1.6, 1.1, 1]),
      bo: row(phrase("bo", "擘"), [3, 3, 3, 2.5, 1.6, 1.1, 1]),
      notProposed: {
        default: 3,
        unit: "spare moves",
        doc: phrase(
          "strokes that weigh this much are never proposed, only judged",
          "重到此数的弹法，编配时不采用，只作判断",
        ),
        evidence: "our judgement",
      },
      smallPinch: {
        default: [0.5, 0, 0, 0],
        unit: "spare moves",
        doc: phrase("small pinch, or yuan lou, over 1 to 4 strings", "小撮或圆搂，跨一到四根弦"),
        evidence: "common practice",
      },
      largePinch: {
        default: [0.2, 0, 0.2],
        unit: "spare moves",
        doc: phrase("large pinch over 4 to 6 strings", "大撮，跨四到六根弦"),
        evidence: "common practice",
      },
      largePinchFrom: {
        default: 4,
        unit: "strings",
        doc: phrase("the nearest large pinch", "最近的大撮"),
        evidence: "common practice",
      },
      reverse: {
        default: 0.5,
        unit: "spare moves",
        doc: phrase("added where a large pinch goes outward", "大撮向外弹时另加"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("gou on string 1, tiao on string 6, the large pinch of both", "一弦勾，六弦挑，再两弦大撮"),
        kind: "passes",
        melody: "C2 C3 C2+C3",
        fingering: ["san gou 1", "san tiao 6", "san gou 1", "san tuo 6"],
        finds: [],
      },
      {
        shows: phrase("tiao on string 1", "挑一弦"),
        kind: "breaks",
        melody: "C2",
        fingering: ["san tiao 1"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "san tiao 1 is no everyday stroke there: it weighs 1.5 spare moves, the everyday one nothing.",
              "“散挑一”在那里不是日常的弹法：费1.5空动，日常的弹法不费力。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the ring finger on an inner string", "名指打内侧的弦"),
        kind: "breaks",
        melody: "C3",
        fingering: ["san da 6"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "san da 6 is no everyday stroke there: it weighs 3 spare moves, the everyday one nothing.",
              "“散打六”在那里不是日常的弹法：费3空动，日常的弹法不费力。",
            ),
          ],
        ],
      },
      {
        shows: phrase("mo anywhere among the inner strings is unusual to nobody", "内侧各弦用抹，谁也不觉得少见"),
        kind: "exception",
        melody: "A2",
        fingering: ["san mo 5"],
        finds: [],
      },
      {
        shows: phrase("the reversed pinch, for its colour", "反撮，取其音色"),
        kind: "breaks",
        melody: "C2+C3",
        fingering: ["san ti 1", "san bo 6"],
        finds: [
          [
            1,
            "note",
            phrase(
              "san ti 1 + san bo 6 is no everyday stroke there: it weighs 0.5 spare moves, the everyday one nothing.",
              "“散剔一+散擘六”在那里不是日常的弹法：费0.5空动，日常的弹法不费力。",
            ),
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
        phrase(
          `${sight.spoken} is no everyday stroke there: it weighs ${plain(sight.measured, 2)} spare moves, the everyday one nothing.`,
          `“${inCharacters(sight.spoken)}”在那里不是日常的弹法：费${plain(sight.measured, 2)}空动，日常的弹法不费力。`,
        ),
    };
  },
);
