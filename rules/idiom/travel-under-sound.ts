// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Placed } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";

export default defineRule(
  {
    id: "travel-under-sound",
    kind: "idiom",
    title: "One finger leaves a ringing note for another string",
    topic: "leaving a note that rings",
    principle:
      "The finger that holds a note stays until the next one sounds. Ring finger and thumb take turns, so that one holds while the other moves.",
    why: "A finger that lifts off to stop another string ends its note early: the line has a hole where it should be joined.",
    whenRight:
      "Where the gap is wanted as a breath or an accent, or in slow notes, where the old sound has faded by then.",
    remedy:
      "Take one of the two notes with the other finger, on an open string, or on the same string so that the finger can glide.",
    cures: ["fingering", "tempo"],
    sources: [
      "common practice, no source",
      "a teaching essay by Mei Yueqiang, in a translation on the web: the finger stays on the old note until the new one sounds",
    ],
    movement: true,
    unit: "cm",
    parameters: {
      left: { default: 0.5, unit: "spare moves", doc: "one finger changes string", evidence: "common practice" },
      far: {
        default: 0.4,
        unit: "spare moves",
        doc: "more where it goes farther along the strings than the hand's comfortable span",
        evidence: "common practice",
      },
      samePlaceCm: {
        default: 0.7,
        unit: "cm",
        doc: "along the strings, still one place: tip and joint can hold both",
        evidence: "our judgement",
      },
      samePlaceStrings: {
        default: 2,
        unit: "strings",
        doc: "across, within reach of tip and joint",
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: "the thumb takes the next note while the ring finger holds",
        kind: "passes",
        melody: "D3 A3",
        tempo: 120,
        fingering: ["ming 9 gou 4", "da 7.9 tiao 6"],
        finds: [],
      },
      {
        shows: "the ring finger leaves string 3 for string 5",
        kind: "breaks",
        melody: "Bb2 E3",
        tempo: 120,
        fingering: ["ming 10 gou 3", "ming 9 tiao 5"],
        finds: [
          [
            2,
            "note",
            "One finger leaves ming 10 gou 3 while it rings and goes 9.2 cm along the strings to ming 9 tiao 5 on another string.",
          ],
        ],
      },
      {
        shows: "the thumb goes straight across, too far for tip and joint",
        kind: "breaks",
        melody: "A3 D3",
        tempo: 120,
        fingering: ["da jie 9 tiao 7", "da 9 gou 4"],
        finds: [
          [
            2,
            "note",
            "One finger leaves da jie 9 tiao 7 while it rings and reaches across to da 9 gou 4 on another string.",
          ],
        ],
      },
      {
        shows: "the same with a three-second note: the sound has faded",
        kind: "exception",
        melody: "Bb2:3 E3",
        fingering: ["ming 10 gou 3", "ming 9 tiao 5"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    /** Whether one finger has to lift off the first place to stop the second. */
    const lifts = (from: Placed, to: Placed): boolean =>
      from.finger === to.finger &&
      (Math.abs(from.cm - to.cm) > values.samePlaceCm || Math.abs(from.string - to.string) > values.samePlaceStrings);

    return {
      reach: "hand-move",
      limit: null,
      breaks: "above",
      measure: (from, to, gap) => {
        const a = from.first;
        const b = to.first;
        if (gap.rested || gap.silent || to.chain > 0 || a === null || b === null) return Number.NaN;
        if (from.second !== null || to.second !== null || a.string === b.string) return Number.NaN;
        if (a.sound !== "stopped" || b.sound !== "stopped") return Number.NaN;
        return lifts(a, b) ? Math.abs(a.cm - b.cm) : 0;
      },
      charge: (measured, from, to, gap) => {
        if (from.first === null || to.first === null || !lifts(from.first, to.first)) return 0;
        const far = measured > setting.hand.comfortableSpanCm ? values.far : 0;
        return (values.left + far) * slowing(gap.seconds, gap.rested, 0);
      },
      message: (sight) => {
        const way =
          sight.measured > values.samePlaceCm ? `goes ${plain(sight.measured)} cm along the strings` : "reaches across";
        return `One finger leaves ${sight.spokenBefore} while it rings and ${way} to ${sight.spoken} on another string.`;
      },
    };
  },
);
