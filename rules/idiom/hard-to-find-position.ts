// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";
import { perSecond } from "../pace.js";

export default defineRule(
  {
    id: "hard-to-find-position",
    kind: "idiom",
    title: "A place that is hard to find at speed",
    topic: "places that are hard to find",
    principle:
      "The board has no frets: a player finds the hui and a few familiar places between them at once, and the others only by listening.",
    why: "A stop away from the hui and from familiar places needs a moment to be set right by ear; in quick notes there is none, and it sounds out of tune.",
    whenRight:
      "Where the note is approached by a slide from a sure place, where its roughness is the point, or where a good player has time to practise this one spot.",
    remedy: "Take the same pitch on another string, where it lies at a hui or at a familiar place.",
    cures: ["fingering", "tempo"],
    sources: ["common practice, no source"],
    unit: "notes/s",
    parameters: {
      limit: {
        default: 2,
        unit: "notes/s",
        doc: "up to this pace the ear has time to correct the finger",
        evidence: "our judgement",
      },
      bySemitones: {
        default: [
          0, 0.5, 0.15, 0.15, 0.05, 0, 0.5, 0, 0.1, 0.05, 0.05, 0.5, 0, 0.5, 0.1, 0.1, 0.2, 0.1, 0.5, 0.05, 0.3, 0.2,
          0.2, 0.5, 0.05,
        ],
        unit: "spare moves",
        doc: "a stop 0 to 24 semitones above its open string",
        evidence: "our judgement",
      },
      beyond: {
        default: 0.5,
        unit: "spare moves",
        doc: "a stop more than two octaves above its open string",
        evidence: "our judgement",
      },
      harmonicByHui: {
        default: [0.5, 0.5, 1, 0.15, 0.1, 1, 0, 1, 0.05, 0.1, 1, 0.35, 0.35],
        unit: "spare moves",
        doc: "a harmonic at hui 1 to 13",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "the fourth and the fifth above the open string lie on hui 10 and 9",
        kind: "passes",
        melody: "F2 G2",
        tempo: 240,
        fingering: ["ming 10 gou 1", "ming 9 gou 1"],
        finds: [],
      },
      {
        shows: "a major seventh above the open string, four notes a second",
        kind: "breaks",
        melody: "A2 B2",
        tempo: 240,
        fingering: ["da 7.9 gou 1", "da 7.3 tiao 1"],
        finds: [
          [
            2,
            "note",
            "B2 as da 7.3 tiao 1 lies away from the places that a hand finds at once, and comes at 4 notes a second; up to 2 there is time to listen.",
          ],
        ],
      },
      {
        shows: "the same place with time to listen",
        kind: "exception",
        melody: "A2 B2",
        fingering: ["da 7.9 gou 1", "da 7.3 tiao 1"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.limit,
    breaks: "above",
    measure: (placed, _missing, _note, moment) => {
      if (placed === null || placed.sound === "open" || placed.mismatch) return Number.NaN;
      return perSecond(Math.min(moment.gapSeconds, moment.toNextSeconds));
    },
    charge: (_measured, placed) => {
      if (placed === null || placed.sound === "open") return 0;
      if (placed.sound === "harmonic") return values.harmonicByHui[(placed.position as number) - 1] as number;
      return values.bySemitones[placed.semitones] ?? values.beyond;
    },
    message: (sight) =>
      sight.spoken.startsWith("fan")
        ? `${sight.note} as ${sight.spoken} sounds only where the finger touches exactly, and comes at ${plain(sight.measured)} notes a second; up to ${plain(values.limit)} there is time to find the spot.`
        : `${sight.note} as ${sight.spoken} lies away from the places that a hand finds at once, and comes at ${plain(sight.measured)} notes a second; up to ${plain(values.limit)} there is time to listen.`,
  }),
);
