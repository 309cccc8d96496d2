// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";
import { RING_PARAMETERS, ringSeconds } from "./ring-time.js";

export default defineRule(
  {
    id: "fading-note",
    kind: "idiom",
    title: "A note longer than its sound",
    topic: "notes that fade early",
    principle:
      "A plucked note fades: an open string rings longest, then the harmonic and the thumb's nail; other fingers, high places and slid notes fade sooner.",
    why: "What is written as one long tone is heard as a short tone and a silence.",
    whenRight:
      "Where the silence is part of the music; where vibrato or a slide keeps a fading tone alive; at the end of a piece.",
    remedy: "Pluck again, write a shorter value, or take the note an octave lower or on an open string.",
    cures: ["fingering", "tempo", "octave"],
    sources: [
      "Penttinen, Pakarinen, Välimäki, Laurson, Li, Leman, J. Acoust. Soc. Am. 120(6), 2006 (abstract): tones stopped by the fingertip fade sooner than those stopped by the nail",
      "Waltham, Lan, Koster, as told in Physics Today, 2016: low notes are sonorous, high stopped ones short",
      "the seconds are our judgement: no measured times are published",
    ],
    unit: "s",
    parameters: {
      ...RING_PARAMETERS,
      slid: {
        default: 0.6,
        unit: "of the plucked time",
        doc: "a note that is slid to lives on what its pluck left",
        evidence: "our judgement",
      },
      faded: {
        default: 0.4,
        unit: "spare moves",
        doc: "for each further ring time that the note is to last",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "four seconds on an open string",
        kind: "passes",
        melody: "C2:4",
        fingering: ["san gou 1"],
        finds: [],
      },
      {
        shows: "six seconds under the ring finger",
        kind: "breaks",
        melody: "F2:6",
        fingering: ["ming 10 gou 1"],
        finds: [[1, "caution", "F2 is to last 6 s, but as ming 10 gou 1 it is heard for about 2.1 s."]],
      },
      {
        shows: "a little longer than the sound: charged, not worth a word",
        kind: "exception",
        melody: "F2:3",
        fingering: ["ming 10 gou 1"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.ringOpen,
    breaks: "above",
    measure: (placed, _missing, _note, moment) => (placed === null ? Number.NaN : moment.durationSeconds),
    limitAt: (placed, _note, _moment, left) =>
      ringSeconds(placed, values) * (left.arrival === "slid" ? values.slid : 1),
    charge: (measured, placed, _note, _moment, left) => {
      if (placed === null) return 0;
      const ring = ringSeconds(placed, values) * (left.arrival === "slid" ? values.slid : 1);
      return Math.max(0, values.faded * (measured / ring - 1));
    },
    message: (sight) =>
      `${sight.note} is to last ${plain(sight.measured)} s, but as ${sight.spoken} it is heard for about ${plain(sight.limit ?? values.ringOpen)} s.`,
  }),
);
