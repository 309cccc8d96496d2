// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** Where the index finger lies for each stroke: strings inward of the struck one, nearest and farthest. */
const INDEX_FROM: Readonly<Record<Stroke, number>> = { mo: 0, tiao: 0, gou: 1, ti: 1, da: 2, zhai: 2, tuo: -2, bo: -2 };
const INDEX_TO: Readonly<Record<Stroke, number>> = { mo: 0, tiao: 0, gou: 4, ti: 4, da: 5, zhai: 5, tuo: 0, bo: 0 };

export default defineRule(
  {
    id: "string-leap",
    kind: "efficiency",
    title: phrase("The right hand leaps over the strings", "右手跨弦太远"),
    topic: phrase("leaps over the strings", "右手跨弦"),
    principle: phrase(
      "The right hand keeps its place over the strings and lets the fingers divide the work: the middle finger strikes up to four strings outside the index, so gou 1 and then tiao 5 is one place of the hand.",
      "右手在弦上守住位置，让手指分工：中指可以弹食指外侧四根弦以内，所以勾一再挑五，手是同一个位置。",
    ),
    why: phrase(
      "A hand that jumps has to find its string anew and loses the evenness of tone.",
      "手一跳，就得重新找弦，音色也不匀了。",
    ),
    whenRight: phrase(
      "Where the melody leaps in slow notes, or the leap is the effect.",
      "旋律在慢的音里跳，或要的就是跳的效果。",
    ),
    remedy: phrase(
      "Give the outer note to the middle finger and the inner one to the index, or take one of them on a nearer string.",
      "外侧的音给中指，内侧的音给食指，或把其中一个音移到较近的弦上。",
    ),
    sources: [COMMON_PRACTICE],
    movement: true,
    unit: "strings",
    parameters: {
      perString: {
        default: 0.15,
        unit: "spare moves per string",
        doc: phrase("each string of hand movement after the first", "手移过的弦，第一根以后的每一根"),
        evidence: "our judgement",
      },
      idleSeconds: {
        default: 2,
        unit: "s",
        doc: phrase(
          "so long after the pluck before, the hand finds its string without haste; a number above 1.5",
          "距前一弹到了这么久，手找弦就不慌；须大于1.5",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("gou 1, then tiao 5: one place of the hand", "勾一再挑五：手是同一个位置"),
        kind: "passes",
        melody: "C2 A2",
        fingering: ["san gou 1", "san tiao 5"],
        finds: [],
      },
      {
        shows: phrase("tiao from string 7 to string 2", "七弦挑过，再到二弦"),
        kind: "breaks",
        melody: "D3 D2",
        tempo: 120,
        fingering: ["san tiao 7", "san mo 2"],
        finds: [
          [
            2,
            "caution",
            phrase(
              "The right hand moves over 5 strings between san tiao 7 and san mo 2.",
              "从“散挑七”到“散抹二”，右手要跨过5根弦。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a rest gives the hand time", "有休止，手来得及"),
        kind: "exception",
        melody: "D3 r D2",
        fingering: ["san tiao 7", "san mo 2"],
        finds: [],
      },
      {
        shows: phrase("two seconds between the plucks are time enough", "两弹之间有两秒，足够了"),
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
        phrase(
          `The right hand moves over ${plain(sight.measured)} strings between ${sight.spokenBefore} and ${sight.spoken}.`,
          `从“${inCharacters(sight.spokenBefore)}”到“${inCharacters(sight.spoken)}”，右手要跨过${plain(sight.measured)}根弦。`,
        ),
    };
  },
);
