// SPDX-License-Identifier: AGPL-3.0-or-later
import { closes, STROKE_FINGER, type Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { perSecond } from "../pace.js";

/** One finger going the same way again; mo and tiao by turns are a pair, not a repetition. */
const sameFinger = (a: Stroke | null, b: Stroke | null): boolean =>
  a !== null && b !== null && STROKE_FINGER[a] === STROKE_FINGER[b] && closes(a) === closes(b);

/** Whether a finger of the stroke before has to repeat its stroke at once; in a pinch two fingers play. */
function repeatsFinger(before: Right, right: Right): boolean {
  return (
    sameFinger(before.stroke, right.stroke) ||
    sameFinger(before.stroke, right.innerStroke) ||
    sameFinger(before.innerStroke, right.stroke) ||
    sameFinger(before.innerStroke, right.innerStroke)
  );
}

export default defineRule(
  {
    id: "too-fast",
    kind: "idiom",
    title: "More plucks than the hand has time for",
    principle:
      "Strokes in and out by turns come about five times a second at ease, one finger repeating its stroke about three times.",
    why: "Beyond that the strokes grow uneven and the hand stiffens. Quick notes that go on for long tire it: pain is a reason to stop and to ask a teacher.",
    whenRight:
      "In the fast figures of the trade, where several fingers roll over one string or one finger sweeps over several; and for practised hands, as their teacher judges.",
    remedy:
      "Slide to some of the notes or let the left hand sound them, share the notes between two fingers, or thin out the line.",
    sources: ["common practice, no source"],
    unit: "plucks/s",
    parameters: {
      excess: {
        default: 0.5,
        unit: "spare moves",
        doc: "for each pluck a second above what the hand's file allows",
        evidence: "our judgement",
      },
      noticeable: {
        default: 1,
        unit: "plucks/s",
        doc: "an excess beyond this is a caution, below it a note: one quick pair is soon over",
        evidence: "our judgement",
      },
      problem: {
        default: 2,
        unit: "plucks/s",
        doc: "an excess beyond this is a problem",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "five plucks a second with two fingers",
        kind: "passes",
        melody: "C2 G2 C2 G2",
        tempo: 300,
        fingering: ["san gou 1", "san tiao 4", "san gou 1", "san tiao 4"],
        finds: [],
      },
      {
        shows: "three and a half plucks a second with one finger",
        kind: "breaks",
        melody: "C2 D2",
        tempo: 210,
        fingering: ["san gou 1", "san gou 2"],
        finds: [
          [
            2,
            "note",
            "san gou 2 follows san gou 1 at 0.5 plucks/s more than these strokes allow: 5 plucks/s for strokes in and out by turns, 3 for one finger repeating its stroke.",
          ],
        ],
      },
      {
        shows: "eight plucks a second with two fingers",
        kind: "breaks",
        melody: "C2 G2",
        tempo: 480,
        fingering: ["san gou 1", "san tiao 4"],
        finds: [
          [
            2,
            "problem",
            "san tiao 4 follows san gou 1 at 3 plucks/s more than these strokes allow: 5 plucks/s for strokes in and out by turns, 3 for one finger repeating its stroke.",
          ],
        ],
      },
      {
        shows: "the quick note is slid, so the right hand has twice the time",
        kind: "exception",
        melody: "(F2 G2) G2",
        tempo: 480,
        fingering: ["ming 10 gou 1", "shang 9", "san tiao 4"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const { plucksPerSecond, plucksPerSecondOneFinger } = setting.hand;
    return {
      reach: "stroke-move",
      limit: 0,
      breaks: "above",
      severities: [
        [0, "note"],
        [values.noticeable, "caution"],
        [values.problem, "problem"],
      ],
      measure: (before, right, gap) => {
        const allowed = repeatsFinger(before, right) ? plucksPerSecondOneFinger : plucksPerSecond;
        return Math.max(0, perSecond(gap.seconds) - allowed);
      },
      charge: (measured) => measured * values.excess,
      message: (sight) =>
        `${sight.spoken} follows ${sight.spokenBefore} at ${plain(sight.measured)} plucks/s more than these strokes allow: ${plain(plucksPerSecond)} plucks/s for strokes in and out by turns, ${plain(plucksPerSecondOneFinger)} for one finger repeating its stroke.`,
    };
  },
);
