// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { Sound } from "../../src/model/fingering.js";
import type { Left } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** The touch of a hand: of two strings the one that a finger presses decides. */
function touch(left: Left): Sound | null {
  if (left.first === null) return null;
  return left.second !== null && left.second.sound === "stopped" ? "stopped" : left.first.sound;
}

export default defineRule(
  {
    id: "colour-switching",
    kind: "idiom",
    title: phrase("A change between harmonics and other sounds", "泛音与散音、按音之间的转换"),
    topic: phrase("changes to and from harmonics", "泛音的转入转出"),
    principle: phrase(
      "Harmonics come in phrases of their own. Open and stopped notes mix freely; a change to or from harmonics is an event.",
      "泛音自成句段。散音与按音可以随处相间；一转入或转出泛音，听者就会留意。",
    ),
    why: phrase(
      "The finger changes from pressing to barely touching, and the sound from full to bell-like: the hand needs a moment, and the listener hears a seam.",
      "手指由按实变为轻点，声音由饱满变为清越：手要片刻准备，听者也会觉出接缝。",
    ),
    whenRight: phrase(
      "Between phrases, after a rest, at the closing note of a piece, or where the two colours are meant to answer each other.",
      "两句之间，休止之后，全曲收尾的音，或有意让两种音色一问一答。",
    ),
    remedy: phrase("Keep one colour to the end of the phrase.", "一种音色用到句尾再换。"),
    cures: ["fingering", "tempo"],
    sources: [
      COMMON_PRACTICE,
      phrase(
        "an introduction to the form of qin pieces at zgmzyq.cn: harmonics mostly open or close a piece, or fill a section",
        "zgmzyq.cn上介绍琴曲结构的文章：泛音多用在曲首、曲尾，或自成一段",
      ),
    ],
    unit: "s",
    parameters: {
      stoppedAndHarmonic: {
        default: 1.5,
        unit: "spare moves",
        doc: phrase("from a stopped note to a harmonic or back", "按音与泛音之间的转换"),
        evidence: "common practice",
      },
      openAndHarmonic: {
        default: 0.9,
        unit: "spare moves",
        doc: phrase("from an open string to a harmonic or back", "散音与泛音之间的转换"),
        evidence: "common practice",
      },
      afterSilence: {
        default: 0.5,
        unit: "of the charge",
        doc: phrase(
          "after a short silence; after a rest of a beat nothing is charged",
          "稍有停声之后按此折算；休止满一拍则不计",
        ),
        evidence: "our judgement",
      },
      unhurried: {
        default: 1.5,
        unit: "s",
        doc: phrase(
          "a change that has this much time is charged and not worth a word; within less it is a note",
          "转换有这么多时间就只计代价，不必提；不足则列为“值得一知”",
        ),
        evidence: "our judgement",
      },
      quick: {
        default: 0.8,
        unit: "s",
        doc: phrase("within less than this a caution", "不到此时间列为“听得出来”"),
        evidence: "our judgement",
      },
      hurried: {
        default: 0.4,
        unit: "s",
        doc: phrase("a change within less than this is hurried: a problem", "不到此时间就仓促了，列为“演奏者会追问”"),
        evidence: "our judgement",
      },
      hurriedLeast: {
        default: 1,
        unit: "spare moves",
        doc: phrase("a hurried change is charged at least this", "仓促的转换至少计这么多"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("a phrase in one colour", "整句一种音色"),
        kind: "passes",
        melody: "D3 G3 C4",
        fingering: ["fan 7 gou 2", "fan 7 gou 4", "fan 7 tiao 6"],
        finds: [],
      },
      {
        shows: phrase("stopped, then a harmonic", "按音之后接泛音"),
        kind: "breaks",
        melody: "F2 G3",
        fingering: ["ming 10 gou 1", "fan 7 tiao 4"],
        finds: [
          [
            2,
            "note",
            phrase(
              "Between ming 10 gou 1 and fan 7 tiao 4, 1 s apart, the sound changes to or from harmonics; with 1.5 s the hand has time.",
              "“名十勾一”到“泛七挑四”相隔1秒，音色转入或转出泛音；有1.5秒，手才从容。",
            ),
          ],
        ],
      },
      {
        shows: phrase("open, then a harmonic at once", "散音之后立刻接泛音"),
        kind: "breaks",
        melody: "C2:1/4 G3",
        fingering: ["san gou 1", "fan 7 tiao 4"],
        finds: [
          [
            2,
            "problem",
            phrase(
              "Between san gou 1 and fan 7 tiao 4 the hand changes to or from harmonics within 0.25 s; less than 0.4 s is hurried.",
              "“散勾一”到“泛七挑四”，要在0.25秒内转入或转出泛音；不到0.4秒就仓促了。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a section of harmonics ends on a long note", "一段泛音以长音收住"),
        kind: "exception",
        melody: "G3 D3:2 C3",
        fingering: ["fan 7 tiao 4", "fan 7 gou 2", "san tiao 6"],
        finds: [],
      },
      {
        shows: phrase("a rest of a beat lies between", "中间隔一拍休止"),
        kind: "exception",
        melody: "F2 r G3",
        fingering: ["ming 10 gou 1", "fan 7 tiao 4"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "hand-move",
    limit: values.unhurried,
    breaks: "below",
    severities: [
      [values.unhurried, "note"],
      [values.quick, "caution"],
      [values.hurried, "problem"],
    ],
    measure: (from, to, gap) => {
      const before = touch(from);
      const now = touch(to);
      if (gap.rested || before === null || now === null) return Number.NaN;
      if (before === now) return before === "harmonic" ? Number.POSITIVE_INFINITY : Number.NaN;
      return before === "harmonic" || now === "harmonic" ? gap.seconds : Number.NaN;
    },
    charge: (measured, from, to, gap) => {
      const before = touch(from);
      const now = touch(to);
      if (before === now) return 0;
      const full = before === "open" || now === "open" ? values.openAndHarmonic : values.stoppedAndHarmonic;
      const charge = gap.silent ? full * values.afterSilence : full;
      return measured < values.hurried ? Math.max(charge, values.hurriedLeast) : charge;
    },
    message: ({ measured, spoken, spokenBefore }) => {
      const between = `“${inCharacters(spokenBefore)}”到“${inCharacters(spoken)}”`;
      return measured < values.hurried
        ? phrase(
            `Between ${spokenBefore} and ${spoken} the hand changes to or from harmonics within ${plain(measured, 2)} s; less than ${plain(values.hurried)} s is hurried.`,
            `${between}，要在${plain(measured, 2)}秒内转入或转出泛音；不到${plain(values.hurried)}秒就仓促了。`,
          )
        : phrase(
            `Between ${spokenBefore} and ${spoken}, ${plain(measured)} s apart, the sound changes to or from harmonics; with ${plain(values.unhurried)} s the hand has time.`,
            `${between}相隔${plain(measured)}秒，音色转入或转出泛音；有${plain(values.unhurried)}秒，手才从容。`,
          );
    },
  }),
);
