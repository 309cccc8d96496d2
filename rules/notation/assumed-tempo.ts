// SPDX-License-Identifier: AGPL-3.0-or-later
import { ASSUMED_TEMPO } from "../../src/model/moments.js";
import { defineRule } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "assumed-tempo",
    kind: "notation",
    title: phrase("No tempo in the score", "谱上没有速度"),
    principle: phrase(
      "How fast the hands must move and how long a sound must last depend on the tempo.",
      "手要多快、音要多长，都取决于速度。",
    ),
    why: phrase(
      "Where the score gives none, a calm one is assumed, and every judgement of speed and fading rests on it.",
      "谱上没写，就假定一个平稳的速度；凡是说快慢和余音的判断，都以它为准。",
    ),
    whenRight: phrase("In free rhythm, as long as the player will not go faster.", "散板时，只要演奏者不会弹得更快。"),
    remedy: phrase("Write a metronome mark at the first bar.", "在第一小节写上节拍器速度。"),
    sources: [COMMON_PRACTICE],
    unit: "quarter notes a minute",
    parameters: {
      tempo: {
        default: ASSUMED_TEMPO,
        unit: "quarter notes a minute",
        doc: phrase("what is assumed", "所假定的速度"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("a score with a tempo", "写了速度的谱"),
        kind: "passes",
        melody: "D3 C3",
        tempo: 90,
        fingering: [],
        finds: [],
      },
      {
        shows: phrase("a score without", "没写速度的谱"),
        kind: "breaks",
        melody: "D3 C3",
        tempo: null,
        fingering: [],
        finds: [
          [
            0,
            "note",
            phrase(
              "The score gives no tempo; 72 quarter notes a minute are assumed, and everything said about speed and about fading sounds holds for that tempo only.",
              "谱上没有速度，这里假定每分钟72个四分音符；凡是说快慢和余音的话，都只对这个速度而言。",
            ),
          ],
        ],
      },
      {
        shows: phrase("any tempo will do, however slow", "有速度就行，再慢也可以"),
        kind: "exception",
        melody: "D3 C3",
        tempo: 30,
        fingering: [],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "passage",
    look: ({ score }) => {
      if (score.tempos.length > 0) return { looked: 1, findings: [] };
      const message = phrase(
        `The score gives no tempo; ${values.tempo} quarter notes a minute are assumed, and everything said about speed and about fading sounds holds for that tempo only.`,
        `谱上没有速度，这里假定每分钟${values.tempo}个四分音符；凡是说快慢和余音的话，都只对这个速度而言。`,
      );
      return { looked: 1, findings: [{ notes: [], severity: "note", measured: values.tempo, limit: null, message }] };
    },
  }),
);
