// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "unasked-slide",
    kind: "idiom",
    title: "A left-hand sound that nothing asks for",
    topic: "left-hand sounds that nothing asks for",
    principle:
      "A note without a slur or a slide mark has its own pluck. Sliding, pulling off and tapping belong where the score joins notes.",
    why: "The left hand alone sounds softer and blurs the beginning of the note: the composer hears a slur that was never written.",
    whenRight:
      "In notes too quick to be plucked one by one, or where a player ornaments freely and the composer agrees.",
    remedy: "Pluck the note; or put a slur over both if the joined sound is welcome.",
    sources: ["common practice, no source"],
    unit: null,
    parameters: {
      slid: {
        default: 0.8,
        unit: "spare moves",
        doc: "a slid note without slur or slide mark",
        evidence: "our judgement",
      },
      sounded: {
        default: 1,
        unit: "spare moves",
        doc: "a note pulled off or tapped without a slur",
        evidence: "our judgement",
      },
      soundedInSlur: {
        default: 0.3,
        unit: "spare moves",
        doc: "a note pulled off or tapped under a slur, where a slide would be smoother",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "a slide under a slur",
        kind: "passes",
        melody: "(F2 G2)",
        fingering: ["ming 10 gou 1", "shang 9"],
        finds: [],
      },
      {
        shows: "eight notes a second without a slur: the left hand has to help",
        kind: "breaks",
        melody: "F2:1/8 G2:1/8 F2:1/8 G2:1/8",
        fingering: ["ming 10 gou 1", "-", "ming 10 tiao 1", "-"],
        finds: [
          [2, "problem", "G2 is sounded without a pluck, yan 9, and neither a slur nor a slide mark asks for that."],
          [4, "problem", "G2 is sounded without a pluck, yan 9, and neither a slur nor a slide mark asks for that."],
        ],
      },
      {
        shows: "a slur down to the open string, pulled off",
        kind: "breaks",
        melody: "(D3 G2)",
        fingering: ["ming 9 gou 4", "-"],
        finds: [
          [
            2,
            "note",
            "G2 is joined to the note before by the left hand alone, dai qi: softer than a pluck, and less closely than by a slide.",
          ],
        ],
      },
      {
        shows: "the writer's own word shang asks for the slide",
        kind: "exception",
        melody: "F2 G2",
        fingering: ["ming 10 gou 1", "shang 9"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: null,
    breaks: "above",
    measure: (placed, _missing, note, moment, left) => {
      if (placed === null || left.arrival === "plucked") return Number.NaN;
      const { given } = note.source;
      if (given.written && given.arrival === left.arrival) return 0;
      if (left.arrival === "slid") return moment.asks === null ? values.slid : 0;
      if (moment.asks === "pull-off" && left.arrival === "pulled-off") return 0;
      return moment.asks === null ? values.sounded : values.soundedInSlur;
    },
    charge: (measured) => measured,
    message: (sight) =>
      sight.measured === values.soundedInSlur
        ? `${sight.note} is joined to the note before by the left hand alone, ${sight.spoken}: softer than a pluck, and less closely than by a slide.`
        : `${sight.note} is sounded without a pluck, ${sight.spoken}, and neither a slur nor a slide mark asks for that.`,
  }),
);
