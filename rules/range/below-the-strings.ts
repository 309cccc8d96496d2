// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "below-the-strings",
    kind: "range",
    title: "Lower than the lowest string",
    topic: "notes below the strings",
    principle:
      "No sound lies under the lowest open string: stopping a string, sliding on it or touching it lightly only makes it higher.",
    why: "The note cannot be played in this tuning at all.",
    whenRight: "Never as written; a tuning with a lower first string may hold the note.",
    remedy: "Transpose the melody or the phrase up, or choose a tuning whose lowest string is low enough.",
    cures: ["fingering", "octave", "setting"],
    sources: [
      "lowest string of the standard tuning at C2: J. Thompson, silkqin.com, studies of the qin tunings",
      "common practice, no source",
    ],
    unit: "semitones",
    parameters: {
      reach: {
        default: 0,
        unit: "semitones",
        doc: "how far under the lowest open string a note may lie",
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: "C2 is the lowest open string itself",
        kind: "passes",
        melody: "C2 D2",
        fingering: ["san gou 1", "san gou 2"],
        finds: [],
      },
      {
        shows: "A1 in the standard tuning",
        kind: "breaks",
        melody: "A1 D2",
        fingering: [],
        finds: [
          [
            1,
            "blocker",
            "A1 lies 3 semitones below C2, the lowest open string, and no string can sound lower than that.",
          ],
        ],
      },
      {
        shows: "Bb1 where the tuning has lowered string 1 to it",
        kind: "exception",
        melody: "Bb1 D2",
        tuning: "huangzhong",
        fingering: ["san gou 1", "san gou 2"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const { semitones, strings } = setting.tuning;
    const lowest = strings[semitones.indexOf(Math.min(...semitones))];
    return {
      reach: "place",
      limit: values.reach,
      breaks: "above",
      measure: (placed, missing) => {
        if (placed !== null) return 0;
        return missing?.cause === "below" ? missing.amount : Number.NaN;
      },
      charge: () => 0,
      blocks: (measured) => measured > values.reach,
      message: (sight) =>
        `${sight.note} lies ${plain(sight.measured)} ${sight.measured === 1 ? "semitone" : "semitones"} below ${lowest}, the lowest open string, and no string can sound lower than that.`,
    };
  },
);
