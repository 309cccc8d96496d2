// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "harmonic-off-pitch",
    kind: "intonation",
    title: "A harmonic beside the melody's pitch",
    principle:
      "A harmonic sounds a whole-number part of its string and cannot be corrected. At hui 3, 6, 8 and 11 it is a pure third, about a seventh of a semitone lower than on the piano.",
    why: "Next to stopped or open notes of the same name it sounds out of tune.",
    whenRight: "In a passage of harmonics that holds to pure thirds throughout.",
    remedy: "Take a harmonic at hui 7, 9 or 10 (or 5, 4) of another string, or stop the note.",
    cures: ["fingering", "octave"],
    sources: [
      "the fifth partial avoided in pieces shaped in the Qing: J. Thompson, silkqin.com, Qin tunings, some theoretical concepts",
      "the limits in cents: our judgement",
    ],
    unit: "cents",
    parameters: {
      inTune: { default: 10, unit: "cents", doc: "beyond it a caution, and never proposed", evidence: "our judgement" },
      apart: { default: 20, unit: "cents", doc: "beyond it a problem", evidence: "our judgement" },
    },
    examples: [
      {
        shows: "hui 9: a fifth above the octave",
        kind: "passes",
        melody: "A3^",
        fingering: ["fan 9 tiao 7"],
        finds: [],
      },
      {
        shows: "hui 11 of string 3 as A4, a comma under the Pythagorean third",
        kind: "breaks",
        melody: "A4^",
        fingering: ["fan 11 gou 3"],
        finds: [
          [
            1,
            "problem",
            "The harmonic fan 11 gou 3 differs by 21.5 cents from A4 of the melody's temperament (limit 10 cents).",
          ],
        ],
      },
      {
        shows: "the same in equal temperament",
        kind: "breaks",
        melody: "A4^",
        temperament: "equal",
        fingering: ["fan 11 gou 3"],
        finds: [
          [
            1,
            "caution",
            "The harmonic fan 11 gou 3 differs by 13.7 cents from A4 of the melody's temperament (limit 10 cents).",
          ],
        ],
      },
      {
        shows: "the same where the melody itself has pure thirds",
        kind: "exception",
        melody: "A4^",
        temperament: "just",
        fingering: ["fan 11 gou 3"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.inTune,
    breaks: "above",
    severities: [
      [values.inTune, "caution"],
      [values.apart, "problem"],
    ],
    measure: (placed) =>
      placed !== null && placed.sound === "harmonic" && !placed.mismatch ? Math.abs(placed.offCents) : Number.NaN,
    charge: () => 0,
    withholds: (placed) => placed.sound === "harmonic" && Math.abs(placed.offCents) > values.inTune,
    message: (sight) =>
      `The harmonic ${sight.spoken} differs by ${plain(sight.measured)} cents from ${sight.note} of the melody's temperament (limit ${plain(values.inTune)} cents).`,
  }),
);
