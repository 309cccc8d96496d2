// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Sound } from "../../src/model/fingering.js";
import type { Left } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";

/** The touch of a hand: of two strings the one that a finger presses decides. */
function touch(left: Left): Sound | null {
  if (left.first === null) return null;
  return left.second !== null && left.second.sound === "stopped" ? "stopped" : left.first.sound;
}

export default defineRule(
  {
    id: "colour-switching",
    kind: "idiom",
    title: "A change between harmonics and other sounds",
    topic: "changes to and from harmonics",
    principle:
      "Harmonics come in phrases of their own. Open and stopped notes mix freely; a change to or from harmonics is an event.",
    why: "The finger changes from pressing to barely touching, and the sound from full to bell-like: the hand needs a moment, and the listener hears a seam.",
    whenRight:
      "Between phrases, after a rest, at the closing note of a piece, or where the two colours are meant to answer each other.",
    remedy: "Keep one colour to the end of the phrase.",
    cures: ["fingering", "tempo"],
    sources: [
      "common practice, no source",
      "an introduction to the form of qin pieces at zgmzyq.cn: harmonics mostly open or close a piece, or fill a section",
    ],
    unit: "s",
    parameters: {
      stoppedAndHarmonic: {
        default: 1.5,
        unit: "spare moves",
        doc: "from a stopped note to a harmonic or back",
        evidence: "common practice",
      },
      openAndHarmonic: {
        default: 0.9,
        unit: "spare moves",
        doc: "from an open string to a harmonic or back",
        evidence: "common practice",
      },
      afterSilence: {
        default: 0.5,
        unit: "of the charge",
        doc: "after a short silence; after a rest of a beat nothing is charged",
        evidence: "our judgement",
      },
      unhurried: {
        default: 1.5,
        unit: "s",
        doc: "a change that has this much time is charged and not worth a word; within less it is a note",
        evidence: "our judgement",
      },
      quick: { default: 0.8, unit: "s", doc: "within less than this a caution", evidence: "our judgement" },
      hurried: {
        default: 0.4,
        unit: "s",
        doc: "a change within less than this is hurried: a problem",
        evidence: "our judgement",
      },
      hurriedLeast: {
        default: 1,
        unit: "spare moves",
        doc: "a hurried change is charged at least this",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "a phrase in one colour",
        kind: "passes",
        melody: "D3 G3 C4",
        fingering: ["fan 7 gou 2", "fan 7 gou 4", "fan 7 tiao 6"],
        finds: [],
      },
      {
        shows: "stopped, then a harmonic",
        kind: "breaks",
        melody: "F2 G3",
        fingering: ["ming 10 gou 1", "fan 7 tiao 4"],
        finds: [
          [
            2,
            "note",
            "Between ming 10 gou 1 and fan 7 tiao 4, 1 s apart, the sound changes to or from harmonics; with 1.5 s the hand has time.",
          ],
        ],
      },
      {
        shows: "open, then a harmonic at once",
        kind: "breaks",
        melody: "C2:1/4 G3",
        fingering: ["san gou 1", "fan 7 tiao 4"],
        finds: [
          [
            2,
            "problem",
            "Between san gou 1 and fan 7 tiao 4 the hand changes to or from harmonics within 0.25 s; less than 0.4 s is hurried.",
          ],
        ],
      },
      {
        shows: "a section of harmonics ends on a long note",
        kind: "exception",
        melody: "G3 D3:2 C3",
        fingering: ["fan 7 tiao 4", "fan 7 gou 2", "san tiao 6"],
        finds: [],
      },
      {
        shows: "a rest of a beat lies between",
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
    message: (sight) =>
      sight.measured < values.hurried
        ? `Between ${sight.spokenBefore} and ${sight.spoken} the hand changes to or from harmonics within ${plain(sight.measured, 2)} s; less than ${plain(values.hurried)} s is hurried.`
        : `Between ${sight.spokenBefore} and ${sight.spoken}, ${plain(sight.measured)} s apart, the sound changes to or from harmonics; with ${plain(values.unhurried)} s the hand has time.`,
  }),
);
