// SPDX-License-Identifier: AGPL-3.0-or-later
import { closes, STROKE_FINGER, type Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Sight } from "../../src/rule/types.js";
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
    topic: "the speed of the plucks",
    principle:
      "Strokes in and out by turns come about five times a second at ease, one finger repeating its stroke about three times.",
    why: "Faster than the hand allows, the strokes grow uneven and the hand stiffens. Quick notes that go on for long tire it: pain is a reason to stop and to ask a teacher.",
    whenRight:
      "In the fast figures of the trade, where several fingers roll over one string or one finger sweeps over several; and for practised hands, as their teacher judges.",
    remedy:
      "Slide to some of the notes or let the left hand sound them, share the notes between two fingers, or thin out the line.",
    cures: ["fingering", "tempo"],
    sources: ["common practice, no source"],
    unit: "plucks/s",
    parameters: {
      reported: {
        default: 1.2,
        unit: "share",
        doc: "a finding only beyond this share of what the hand allows: the short note of a lilt is soon over",
        evidence: "our judgement",
      },
      ornament: {
        default: 0.29,
        unit: "spare moves",
        doc: "at most this for the pluck after a grace note: an ornament is as quick as the hand",
        evidence: "our judgement",
      },
      excess: {
        default: 0.5,
        unit: "spare moves",
        doc: "for each pluck a second above what the hand's file allows",
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
        shows: "four plucks a second with one finger",
        kind: "breaks",
        melody: "C2 D2",
        tempo: 240,
        fingering: ["san gou 1", "san gou 2"],
        finds: [
          [
            2,
            "note",
            "san gou 2 follows san gou 1 at 4 plucks a second; the hand allows 3 for one finger repeating its stroke.",
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
            "san tiao 4 follows san gou 1 at 8 plucks a second; the hand allows 5 for strokes in and out by turns.",
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
    const allowed = (before: Right, right: Right): number =>
      repeatsFinger(before, right) ? plucksPerSecondOneFinger : plucksPerSecond;
    const isOneFinger = (sight: Sight): boolean => sight.limit === plucksPerSecondOneFinger * values.reported;
    return {
      reach: "stroke-move",
      limit: plucksPerSecond,
      limitAt: (before, right) => allowed(before, right) * values.reported,
      breaks: "above",
      // A roll or a sweep is as quick as the hand, and so is what leads into it and out of it.
      measure: (before, right, gap) => (before.rolled || right.rolled ? Number.NaN : perSecond(gap.seconds)),
      charge: (measured, before, right, gap) => {
        const charge = values.excess * Math.max(0, measured - allowed(before, right));
        return gap.ornament ? Math.min(charge, values.ornament) : charge;
      },
      message: (sight) =>
        `${sight.spoken} follows ${sight.spokenBefore} at ${plain(sight.measured)} plucks a second; the hand allows ${plain((sight.limit ?? 0) / values.reported)} ${isOneFinger(sight) ? "for one finger repeating its stroke" : "for strokes in and out by turns"}.`,
    };
  },
);
