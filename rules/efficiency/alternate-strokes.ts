// SPDX-License-Identifier: AGPL-3.0-or-later
import { closes, STROKE_FINGER, type Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";

/** Strokes that travel toward the inner strings by themselves; the others travel toward the outer ones. */
const TRAVELS_INWARD: ReadonlySet<Stroke> = new Set(["gou", "mo", "da", "bo"]);

/** One finger follows another on one string in the compound strokes of the trade. */
const COMPOUND: ReadonlySet<string> = new Set(["mo gou", "ti tiao", "zhai ti"]);

export default defineRule(
  {
    id: "alternate-strokes",
    kind: "efficiency",
    title: "Two strokes of one kind in a row",
    topic: "strokes of one kind in a row",
    principle:
      "Mo, gou, da and tuo close the hand toward a fist; tiao, ti, zhai and bo open it. After one kind the hand is ready for the other.",
    why: "Two strokes of one kind in a row cost a movement between them that makes no sound.",
    whenRight:
      "The same stroke may walk its own way over neighbouring strings, an echo may want the same colour twice, and after a rest or a long note the hand has time.",
    remedy:
      "Take the other direction: tiao after a closing stroke, gou or mo after an opening one, or the same pitch on a string that suits it.",
    sources: ["common practice, no source"],
    movement: true,
    unit: null,
    parameters: {
      sameString: {
        default: [1.1, 0.9],
        unit: "spare moves",
        doc: "one finger twice on one string: closing, opening",
        evidence: "common practice",
      },
      travelClosing: {
        default: [0.1, 0.3, 0.6],
        unit: "spare moves",
        doc: "a closing stroke again, its own way, 1, 2, 3 or more strings on",
        evidence: "common practice",
      },
      travelOpening: {
        default: [0.1, 0.4, 0.8],
        unit: "spare moves",
        doc: "an opening stroke again, its own way, 1, 2, 3 or more strings on",
        evidence: "common practice",
      },
      againstTravel: {
        default: 1,
        unit: "spare moves",
        doc: "one finger again, against its way",
        evidence: "common practice",
      },
      otherFinger: {
        default: 0.7,
        unit: "spare moves",
        doc: "another finger, same direction",
        evidence: "common practice",
      },
      samePinch: {
        default: 0.2,
        unit: "spare moves",
        doc: "the same pinch on the same strings: the hand falls open by itself",
        evidence: "our judgement",
      },
      compound: {
        default: 0.35,
        unit: "spare moves",
        doc: "mo gou, ti tiao or zhai ti on one string, as in the compound strokes",
        evidence: "our judgement",
      },
      idleSeconds: {
        default: 2,
        unit: "s",
        doc: "so long after the pluck before, the hand has had time to go back; a number above 1.5",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "gou opens the way for tiao",
        kind: "passes",
        melody: "G2 C2",
        fingering: ["san tiao 4", "san gou 1"],
        finds: [],
      },
      {
        shows: "gou twice, from the inner string to the outer",
        kind: "breaks",
        melody: "G2 C2",
        tempo: 120,
        fingering: ["san gou 4", "san gou 1"],
        finds: [
          [
            2,
            "problem",
            "san gou 1 follows san gou 4: both strokes move the hand the same way, so it moves once between them without sounding.",
          ],
        ],
      },
      {
        shows: "gou walks from outer to inner strings, its own way",
        kind: "exception",
        melody: "C2 D2 F2",
        tempo: 120,
        fingering: ["san gou 1", "san gou 2", "san gou 3"],
        finds: [],
      },
      {
        shows: "two seconds between the plucks: the hand has time",
        kind: "exception",
        melody: "G2:2 C2:2",
        fingering: ["san gou 4", "san gou 1"],
        finds: [],
      },
    ],
  },
  (values) => {
    const travelled = (row: readonly number[], strings: number): number => row[Math.min(strings, 3) - 1] as number;

    /** Spare moves between two strokes, by string. */
    const clash = (first: Stroke, firstString: number, next: Stroke, nextString: number): number => {
      if (closes(first) !== closes(next)) return 0;
      const apart = nextString - firstString;
      if (STROKE_FINGER[first] !== STROKE_FINGER[next])
        return apart === 0 && COMPOUND.has(`${first} ${next}`) ? values.compound : values.otherFinger;
      const closing = closes(next);
      if (apart === 0) return values.sameString[closing ? 0 : 1] as number;
      if (apart > 0 !== TRAVELS_INWARD.has(next)) return values.againstTravel;
      return travelled(closing ? values.travelClosing : values.travelOpening, Math.abs(apart));
    };

    /** One stroke after a stroke or a pinch: of a pinch the same finger counts; a small cuo has opened one and closed the other. */
    const after = (before: Right, next: Stroke, string: number): number => {
      const outer = before.stroke as Stroke;
      const { outer: outerString, inner: innerString } = before.strings;
      if (before.innerStroke === null) return clash(outer, outerString, next, string);
      if (STROKE_FINGER[outer] === STROKE_FINGER[next]) return clash(outer, outerString, next, string);
      if (STROKE_FINGER[before.innerStroke] === STROKE_FINGER[next])
        return clash(before.innerStroke, innerString, next, string);
      return before.pinch === "small-cuo" ? 0 : clash(outer, outerString, next, string);
    };

    return {
      reach: "stroke-move",
      limit: null,
      breaks: "above",
      // A pinch is prepared when either of its strokes is: the hand closes as a whole.
      measure: (before, right) => {
        if (right.pinch !== null && right === before) return values.samePinch;
        const outer = after(before, right.stroke as Stroke, right.strings.outer);
        if (right.innerStroke === null) return outer;
        return Math.min(outer, after(before, right.innerStroke, right.strings.inner));
      },
      charge: (measured, _before, _right, gap) => measured * slowing(gap.seconds, gap.rested, 0, values.idleSeconds),
      message: (sight) =>
        `${sight.spoken} follows ${sight.spokenBefore}: both strokes move the hand the same way, so it moves once between them without sounding.`,
    };
  },
);
