// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { closes, STROKE_FINGER, type Stroke } from "../../src/model/fingering.js";
import type { Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Sight } from "../../src/rule/types.js";
import { phrase } from "../../src/words.js";
import { perSecond } from "../pace.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

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
    title: phrase("More plucks than the hand has time for", "弹弦快过手所能及"),
    topic: phrase("the speed of the plucks", "弹弦的速度"),
    principle: phrase(
      "Strokes in and out by turns come about five times a second at ease, one finger repeating its stroke about three times.",
      "入弦、出弦交替，从容时每秒约五次；一指重复同一弹法，每秒约三次。",
    ),
    why: phrase(
      "Faster than the hand allows, the strokes grow uneven and the hand stiffens. Quick notes that go on for long tire it: pain is a reason to stop and to ask a teacher.",
      "快过手所能及，弹得就不匀，手也发僵。快音持续太久会把手累坏：疼痛就停下，去请教老师。",
    ),
    whenRight: phrase(
      "In the fast figures of the trade, where several fingers roll over one string or one finger sweeps over several; and for practised hands, as their teacher judges.",
      "琴上本来就快的指法，如几指连弹一弦，或一指连过数弦；练熟的手也可以，由其老师判断。",
    ),
    remedy: phrase(
      "Slide to some of the notes or let the left hand sound them, share the notes between two fingers, or thin out the line.",
      "有些音改用走音或由左手出声；或分给两指来弹；或减去几个音。",
    ),
    cures: ["fingering", "tempo"],
    sources: [COMMON_PRACTICE],
    unit: "plucks/s",
    parameters: {
      reported: {
        default: 1.2,
        unit: "share",
        doc: phrase(
          "a finding only beyond this share of what the hand allows: the short note of a lilt is soon over",
          "超过手所能及的这个倍数才算一处发现：附点节奏里的短音一晃就过",
        ),
        evidence: "our judgement",
      },
      ornament: {
        default: 0.29,
        unit: "spare moves",
        doc: phrase(
          "at most this for the pluck after a grace note: an ornament is as quick as the hand",
          "装饰音之后的一弹至多计此数：装饰音本来就是手多快它多快",
        ),
        evidence: "our judgement",
      },
      excess: {
        default: 0.5,
        unit: "spare moves",
        doc: phrase(
          "for each pluck a second above what the hand's file allows",
          "每秒弹弦次数每超出这只手所能的一次，计此数",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("five plucks a second with two fingers", "两指交替，每秒五弹"),
        kind: "passes",
        melody: "C2 G2 C2 G2",
        tempo: 300,
        fingering: ["san gou 1", "san tiao 4", "san gou 1", "san tiao 4"],
        finds: [],
      },
      {
        shows: phrase("four plucks a second with one finger", "一指每秒四弹"),
        kind: "breaks",
        melody: "C2 D2",
        tempo: 240,
        fingering: ["san gou 1", "san gou 2"],
        finds: [
          [
            2,
            "note",
            phrase(
              "san gou 2 follows san gou 1 at 4 plucks a second; the hand allows 3 for one finger repeating its stroke.",
              "“散勾一”之后紧接“散勾二”，快到每秒4弹；一指重复同一弹法，这只手每秒至多3弹。",
            ),
          ],
        ],
      },
      {
        shows: phrase("eight plucks a second with two fingers", "两指交替，每秒八弹"),
        kind: "breaks",
        melody: "C2 G2",
        tempo: 480,
        fingering: ["san gou 1", "san tiao 4"],
        finds: [
          [
            2,
            "problem",
            phrase(
              "san tiao 4 follows san gou 1 at 8 plucks a second; the hand allows 5 for strokes in and out by turns.",
              "“散勾一”之后紧接“散挑四”，快到每秒8弹；入弦、出弦交替，这只手每秒至多5弹。",
            ),
          ],
        ],
      },
      {
        shows: phrase(
          "the quick note is slid, so the right hand has twice the time",
          "快的那个音用走音，右手就有一倍的时间",
        ),
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
      message: (sight) => {
        const { spoken, spokenBefore } = sight;
        const [pace, most] = [plain(sight.measured), plain((sight.limit ?? 0) / values.reported)];
        const [how, howInChinese] = isOneFinger(sight)
          ? ["for one finger repeating its stroke", "一指重复同一弹法"]
          : ["for strokes in and out by turns", "入弦、出弦交替"];
        return phrase(
          `${spoken} follows ${spokenBefore} at ${pace} plucks a second; the hand allows ${most} ${how}.`,
          `“${inCharacters(spokenBefore)}”之后紧接“${inCharacters(spoken)}”，快到每秒${pace}弹；${howInChinese}，这只手每秒至多${most}弹。`,
        );
      },
    };
  },
);
