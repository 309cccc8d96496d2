// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { closes, STROKE_FINGER, type Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** Strokes that travel toward the inner strings by themselves; the others travel toward the outer ones. */
const TRAVELS_INWARD: ReadonlySet<Stroke> = new Set(["gou", "mo", "da", "bo"]);

/** One finger follows another on one string in the compound strokes of the trade. */
const COMPOUND: ReadonlySet<string> = new Set(["mo gou", "ti tiao", "zhai ti"]);

export default defineRule(
  {
    id: "alternate-strokes",
    kind: "efficiency",
    title: phrase("Two strokes of one kind in a row", "同类弹法连弹两下"),
    topic: phrase("strokes of one kind in a row", "同类弹法连用"),
    principle: phrase(
      "Mo, gou, da and tuo close the hand toward a fist; tiao, ti, zhai and bo open it. After one kind the hand is ready for the other.",
      "抹、勾、打、托使手收拢，挑、剔、摘、擘使手张开；弹过一类，手正好备好了另一类。",
    ),
    why: phrase(
      "Two strokes of one kind in a row cost a movement between them that makes no sound.",
      "同类弹法连弹两下，中间就要多一个不出声的动作。",
    ),
    whenRight: phrase(
      "The same stroke may walk its own way over neighbouring strings, an echo may want the same colour twice, and after a rest or a long note the hand has time.",
      "同一弹法可以顺着自己的方向走过相邻的弦；回声处可能要同样的音色弹两次；休止或长音之后，手也来得及。",
    ),
    remedy: phrase(
      "Take the other direction: tiao after a closing stroke, gou or mo after an opening one, or the same pitch on a string that suits it.",
      "换个方向：收拢之后用挑，张开之后用勾或抹；或把同一个音放到顺手的弦上。",
    ),
    sources: [COMMON_PRACTICE],
    movement: true,
    unit: null,
    parameters: {
      sameString: {
        default: [1.1, 0.9],
        unit: "spare moves",
        doc: phrase("one finger twice on one string: closing, opening", "同一指在同一弦上连弹两下：收拢的、张开的"),
        evidence: "common practice",
      },
      travelClosing: {
        default: [0.1, 0.3, 0.6],
        unit: "spare moves",
        doc: phrase(
          "a closing stroke again, its own way, 1, 2, 3 or more strings on",
          "收拢的弹法再弹一次，顺着走，隔1、2、3根弦或更多",
        ),
        evidence: "common practice",
      },
      travelOpening: {
        default: [0.1, 0.4, 0.8],
        unit: "spare moves",
        doc: phrase(
          "an opening stroke again, its own way, 1, 2, 3 or more strings on",
          "张开的弹法再弹一次，顺着走，隔1、2、3根弦或更多",
        ),
        evidence: "common practice",
      },
      againstTravel: {
        default: 1,
        unit: "spare moves",
        doc: phrase("one finger again, against its way", "同一指再弹一次，逆着走"),
        evidence: "common practice",
      },
      otherFinger: {
        default: 0.7,
        unit: "spare moves",
        doc: phrase("another finger, same direction", "换一指，但同是收拢或同是张开"),
        evidence: "common practice",
      },
      samePinch: {
        default: 0.2,
        unit: "spare moves",
        doc: phrase(
          "the same pinch on the same strings: the hand falls open by itself",
          "同样两根弦上再撮一次：手自己会松开",
        ),
        evidence: "our judgement",
      },
      compound: {
        default: 0.35,
        unit: "spare moves",
        doc: phrase(
          "mo gou, ti tiao or zhai ti on one string, as in the compound strokes",
          "同一弦上抹勾、剔挑、摘剔，即组合指法里的接法",
        ),
        evidence: "our judgement",
      },
      idleSeconds: {
        default: 2,
        unit: "s",
        doc: phrase(
          "so long after the pluck before, the hand has had time to go back; a number above 1.5",
          "距前一弹到了这么久，手已来得及还原；须大于1.5",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("gou opens the way for tiao", "勾过之后，正好用挑"),
        kind: "passes",
        melody: "G2 C2",
        fingering: ["san tiao 4", "san gou 1"],
        finds: [],
      },
      {
        shows: phrase("gou twice, from the inner string to the outer", "连勾两下，由内侧的弦到外侧的弦"),
        kind: "breaks",
        melody: "G2 C2",
        tempo: 120,
        fingering: ["san gou 4", "san gou 1"],
        finds: [
          [
            2,
            "problem",
            phrase(
              "san gou 1 follows san gou 4: both strokes move the hand the same way, so it moves once between them without sounding.",
              "“散勾四”之后是“散勾一”：两下都让手往同一方向动，中间得多一个不出声的动作。",
            ),
          ],
        ],
      },
      {
        shows: phrase("gou walks from outer to inner strings, its own way", "勾由外侧的弦走向内侧的弦，顺着走"),
        kind: "exception",
        melody: "C2 D2 F2",
        tempo: 120,
        fingering: ["san gou 1", "san gou 2", "san gou 3"],
        finds: [],
      },
      {
        shows: phrase("two seconds between the plucks: the hand has time", "两弹之间有两秒：手来得及"),
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
        phrase(
          `${sight.spoken} follows ${sight.spokenBefore}: both strokes move the hand the same way, so it moves once between them without sounding.`,
          `“${inCharacters(sight.spokenBefore)}”之后是“${inCharacters(sight.spoken)}”：两下都让手往同一方向动，中间得多一个不出声的动作。`,
        ),
    };
  },
);
