// SPDX-License-Identifier: AGPL-3.0-or-later
import { STROKE_FINGER, type Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";

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
    title: "The middle finger is not where its next stroke falls",
    topic: "where the middle finger waits",
    principle:
      "While the index plays, the middle finger rests on the string of its next gou, one to four strings outside the index; never on an inner string, never on one that should go on ringing.",
    why: "The gou then needs no movement of the hand, and the resting finger steadies it.",
    whenRight: "Where the waiting finger would damp a string that must ring, or the gou lies beyond its reach.",
    remedy:
      "Plant the middle finger on the string of the coming gou from the first index stroke on, and leave it there.",
    sources: ["common practice, no source"],
    movement: true,
    unit: null,
    parameters: {
      missed: {
        default: 0.3,
        unit: "spare moves",
        doc: "it could have waited there and did not",
        evidence: "our judgement",
      },
      elsewhere: { default: 1, unit: "spare moves", doc: "it waited on another string", evidence: "common practice" },
      replanted: { default: 1, unit: "spare moves", doc: "it changes its waiting string", evidence: "common practice" },
      plantedLate: {
        default: 0.05,
        unit: "spare moves",
        doc: "planted only at a later index stroke",
        evidence: "our judgement",
      },
      waiting: { default: 0.02, unit: "spare moves", doc: "each stroke of waiting", evidence: "our judgement" },
      wide: { default: 0.1, unit: "spare moves", doc: "planted four strings away", evidence: "our judgement" },
      onStruck: {
        default: 0.1,
        unit: "spare moves",
        doc: "planted on the string just struck",
        evidence: "our judgement",
      },
      onRinging: {
        default: 1,
        unit: "spare moves",
        doc: "planted on a string that must go on ringing",
        evidence: "common practice",
      },
      least: {
        default: 0.3,
        unit: "share",
        doc: "what remains of the charge however slow the notes are",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "tiao 6, tiao 5, gou 4: it waits on string 4 from the first tiao on",
        kind: "passes",
        melody: "C3 A2 G2",
        fingering: ["san tiao 6", "san tiao 5", "san gou 4"],
        finds: [],
      },
      {
        shows: "a string that must ring cannot hold the waiting finger, and the gou comes unprepared",
        kind: "breaks",
        melody: "G2! C3 G2",
        tempo: 120,
        fingering: ["san gou 4", "san tiao 6", "san gou 4"],
        finds: [
          [
            3,
            "note",
            "The middle finger, placed by the search, does not wait quietly on its next string: san tiao 6, then san gou 4.",
          ],
        ],
      },
      {
        shows: "a rest frees the hand: nothing has to wait across it",
        kind: "exception",
        melody: "C3 r G2",
        fingering: ["san tiao 6", "san gou 4"],
        finds: [],
      },
      {
        shows: "a gou five strings away is out of reach: nothing is charged",
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
          ? `The middle finger, placed by the search, does not wait quietly on its next string: ${sight.spokenBefore}, then ${sight.spoken}.`
          : `The middle finger, placed by the search, waits on a string where it must not, or moves away unused: ${sight.spokenBefore}, then ${sight.spoken}.`,
    };
  },
);
