// SPDX-License-Identifier: AGPL-3.0-or-later
import { ASSUMED_TEMPO } from "../../src/model/moments.js";
import { defineRule } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "assumed-tempo",
    kind: "notation",
    title: "No tempo in the score",
    principle: "How fast the hands must move and how long a sound must last depend on the tempo.",
    why: "Where the score gives none, a calm one is assumed, and every judgement of speed and fading rests on it.",
    whenRight: "In free rhythm, as long as the player will not go faster.",
    remedy: "Write a metronome mark at the first bar.",
    sources: ["common practice, no source"],
    unit: "quarter notes a minute",
    parameters: {
      tempo: {
        default: ASSUMED_TEMPO,
        unit: "quarter notes a minute",
        doc: "what is assumed",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "a score with a tempo",
        kind: "passes",
        melody: "D3 C3",
        tempo: 90,
        fingering: [],
        finds: [],
      },
      {
        shows: "a score without",
        kind: "breaks",
        melody: "D3 C3",
        tempo: null,
        fingering: [],
        finds: [
          [
            0,
            "note",
            "The score gives no tempo; 72 quarter notes a minute are assumed, and everything said about speed and about fading sounds holds for that tempo only.",
          ],
        ],
      },
      {
        shows: "any tempo will do, however slow",
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
      const message = `The score gives no tempo; ${values.tempo} quarter notes a minute are assumed, and everything said about speed and about fading sounds holds for that tempo only.`;
      return { looked: 1, findings: [{ notes: [], severity: "note", measured: values.tempo, limit: null, message }] };
    },
  }),
);
