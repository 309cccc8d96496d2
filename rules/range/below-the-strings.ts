// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "below-the-strings",
    kind: "range",
    title: phrase("Lower than the lowest string", "低过最低的弦"),
    topic: phrase("notes below the strings", "低过最低散音的音"),
    principle: phrase(
      "No sound lies under the lowest open string: stopping a string, sliding on it or touching it lightly only makes it higher.",
      "最低的散音以下没有音：按弦、走音、轻触，都只会让弦音变高。",
    ),
    why: phrase("The note cannot be played in this tuning at all.", "在这个定弦下，这个音根本弹不出来。"),
    whenRight: phrase(
      "Never as written; a tuning with a lower first string may hold the note.",
      "照原样写，总归弹不出；换一个一弦更低的定弦，也许就有这个音。",
    ),
    remedy: phrase(
      "Transpose the melody or the phrase up, or choose a tuning whose lowest string is low enough.",
      "把旋律或这一句移高，或选一个最低弦足够低的定弦。",
    ),
    cures: ["fingering", "octave", "setting"],
    sources: [
      phrase(
        "lowest string of the standard tuning at C2: J. Thompson, silkqin.com, studies of the qin tunings",
        "正调最低弦为C2：J. Thompson，silkqin.com，古琴定弦研究",
      ),
      COMMON_PRACTICE,
    ],
    unit: "semitones",
    parameters: {
      reach: {
        default: 0,
        unit: "semitones",
        doc: phrase("how far under the lowest open string a note may lie", "音最多可以比最低的散音低多少"),
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: phrase("C2 is the lowest open string itself", "C2正是最低的散音"),
        kind: "passes",
        melody: "C2 D2",
        fingering: ["san gou 1", "san gou 2"],
        finds: [],
      },
      {
        shows: phrase("A1 in the standard tuning", "正调下的A1"),
        kind: "breaks",
        melody: "A1 D2",
        fingering: [],
        finds: [
          [
            1,
            "blocker",
            phrase(
              "A1 lies 3 semitones below C2, the lowest open string, and no string can sound lower than that.",
              "A1比最低的散音C2还低3个半音，没有哪根弦能发出这么低的音。",
            ),
          ],
        ],
      },
      {
        shows: phrase("Bb1 where the tuning has lowered string 1 to it", "一弦慢到Bb1的定弦下，Bb1就有了"),
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
        phrase(
          `${sight.note} lies ${plain(sight.measured)} ${sight.measured === 1 ? "semitone" : "semitones"} below ${lowest}, the lowest open string, and no string can sound lower than that.`,
          `${sight.note}比最低的散音${lowest}还低${plain(sight.measured)}个半音，没有哪根弦能发出这么低的音。`,
        ),
    };
  },
);
