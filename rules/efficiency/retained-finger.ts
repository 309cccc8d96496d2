// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { STROKE_FINGER, type Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

const byIndex = (right: Right): boolean =>
  right.innerStroke === null && STROKE_FINGER[right.stroke as Stroke] === "index";
const byMiddle = (right: Right): boolean =>
  right.innerStroke === null && STROKE_FINGER[right.stroke as Stroke] === "middle";

/** Numbers above this are reported: less than a stroke that could have waited. */
const REPORTED = 0.29;

export default defineRule(
  {
    id: "retained-finger",
    kind: "efficiency",
    title: phrase("The middle finger is not where its next stroke falls", "中指没有停在下一次要弹的弦上"),
    topic: phrase("where the middle finger waits", "中指的停处"),
    principle: phrase(
      "While the index plays, the middle finger rests on the string of its next gou, one to four strings outside the index; never on an inner string, never on one that should go on ringing.",
      "食指在弹的时候，中指停在下一次要勾的弦上，比食指靠外一到四根弦；决不停在内侧的弦上，也决不停在须留响的弦上。",
    ),
    why: phrase(
      "The gou then needs no movement of the hand, and the resting finger steadies it.",
      "这样，勾的时候手不用动；停着的指头还能稳住手。",
    ),
    whenRight: phrase(
      "Where the waiting finger would damp a string that must ring, or the gou lies beyond its reach.",
      "停着的指头会碰停须留响的弦，或要勾的弦够不着。",
    ),
    remedy: phrase(
      "Plant the middle finger on the string of the coming gou from the first index stroke on, and leave it there.",
      "从食指弹第一下起，就让中指停在下一次要勾的弦上，不要离开。",
    ),
    sources: [COMMON_PRACTICE],
    movement: true,
    unit: null,
    parameters: {
      missed: {
        default: 0.3,
        unit: "spare moves",
        doc: phrase("it could have waited there and did not", "本可停在那里，却没有停"),
        evidence: "our judgement",
      },
      elsewhere: {
        default: 1,
        unit: "spare moves",
        doc: phrase("it waited on another string", "停在了别的弦上"),
        evidence: "common practice",
      },
      replanted: {
        default: 1,
        unit: "spare moves",
        doc: phrase("it changes its waiting string", "换了停着的弦"),
        evidence: "common practice",
      },
      plantedLate: {
        default: 0.05,
        unit: "spare moves",
        doc: phrase("planted only at a later index stroke", "食指后来弹时才停上去"),
        evidence: "our judgement",
      },
      waiting: {
        default: 0.02,
        unit: "spare moves",
        doc: phrase("each stroke of waiting", "停着，每弹一下"),
        evidence: "our judgement",
      },
      wide: {
        default: 0.1,
        unit: "spare moves",
        doc: phrase("planted four strings away", "停处隔了四根弦"),
        evidence: "our judgement",
      },
      onStruck: {
        default: 0.1,
        unit: "spare moves",
        doc: phrase("planted on the string just struck", "停在刚弹过的弦上"),
        evidence: "our judgement",
      },
      onRinging: {
        default: 1,
        unit: "spare moves",
        doc: phrase("planted on a string that must go on ringing", "停在须留响的弦上"),
        evidence: "common practice",
      },
      least: {
        default: 0.3,
        unit: "share",
        doc: phrase("what remains of the charge however slow the notes are", "音再慢，代价也留下这么多"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase(
          "tiao 6, tiao 5, gou 4: it waits on string 4 from the first tiao on",
          "挑六、挑五、勾四：从第一个挑起，中指就停在四弦上",
        ),
        kind: "passes",
        melody: "C3 A2 G2",
        fingering: ["san tiao 6", "san tiao 5", "san gou 4"],
        finds: [],
      },
      {
        shows: phrase(
          "a string that must ring cannot hold the waiting finger, and the gou comes unprepared",
          "须留响的弦不能停指，勾就没有准备",
        ),
        kind: "breaks",
        melody: "G2! C3 G2",
        tempo: 120,
        fingering: ["san gou 4", "san tiao 6", "san gou 4"],
        finds: [
          [
            3,
            "note",
            phrase(
              "The middle finger, placed by the search, does not wait quietly on its next string: san tiao 6, then san gou 4.",
              "中指（停处由编配时选定）没有安稳地停在下一次要弹的弦上：先“散挑六”，再“散勾四”。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a rest frees the hand: nothing has to wait across it", "休止时手是自由的：不必停着跨过休止"),
        kind: "exception",
        melody: "C3 r G2",
        fingering: ["san tiao 6", "san gou 4"],
        finds: [],
      },
      {
        shows: phrase(
          "a gou five strings away is out of reach: nothing is charged",
          "要勾的弦隔了五根，够不着：不计代价",
        ),
        kind: "exception",
        melody: "D3 D2",
        fingering: ["san tiao 7", "san gou 2"],
        finds: [],
      },
    ],
  },
  (values) => {
    const couldWait = (before: Right, string: number): boolean => {
      const apart = before.strings.outer - string;
      return apart >= 1 && apart <= 4;
    };

    /** A gou or ti after an index stroke. */
    const taken = (before: Right, right: Right): number => {
      const string = right.strings.outer;
      if (before.planted === string) return 0;
      if (before.planted !== 0) return values.elsewhere;
      return couldWait(before, string) ? values.missed : 0;
    };

    /** An index stroke with or without a waiting finger. */
    const waited = (before: Right, right: Right, ringsOn: boolean): number => {
      if (right.planted === 0) return 0;
      if (right.planted === before.planted) return values.waiting;
      const struck = right.planted === before.strings.outer || right.planted === before.strings.inner;
      const where =
        (struck ? (ringsOn ? values.onRinging : values.onStruck) : 0) +
        (right.strings.outer - right.planted === 4 ? values.wide : 0);
      if (!byIndex(before)) return where;
      return where + (before.planted === 0 ? values.plantedLate : values.replanted);
    };

    return {
      reach: "stroke-move",
      limit: REPORTED,
      breaks: "above",
      severities: [
        [REPORTED, "note"],
        [values.elsewhere - REPORTED, "problem"],
      ],
      measure: (before, right, gap) => {
        if (byIndex(right)) return waited(before, right, gap.ringsOn);
        // A rest frees the right hand: nothing waits across it.
        return byMiddle(right) && byIndex(before) && !gap.rested ? taken(before, right) : Number.NaN;
      },
      charge: (measured, _before, _right, gap) => measured * slowing(gap.seconds, gap.rested, values.least),
      message: (sight) =>
        sight.measured < values.elsewhere
          ? phrase(
              `The middle finger, placed by the search, does not wait quietly on its next string: ${sight.spokenBefore}, then ${sight.spoken}.`,
              `中指（停处由编配时选定）没有安稳地停在下一次要弹的弦上：先“${inCharacters(sight.spokenBefore)}”，再“${inCharacters(sight.spoken)}”。`,
            )
          : phrase(
              `The middle finger, placed by the search, waits on a string where it must not, or moves away unused: ${sight.spokenBefore}, then ${sight.spoken}.`,
              `中指（停处由编配时选定）停在了不该停的弦上，或没用上就挪开了：先“${inCharacters(sight.spokenBefore)}”，再“${inCharacters(sight.spoken)}”。`,
            ),
    };
  },
);
