// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule } from "../../src/rule/define.js";

/** What is measured: a harmonic that was not asked for, or one that was asked for and is missing. */
const UNASKED = 1;
const NOT_PLAYED = 2;

export default defineRule(
  {
    id: "unasked-harmonic",
    kind: "idiom",
    title: "A harmonic that nobody asked for, or one that is missing",
    topic: "harmonics that are asked for or not",
    principle:
      "Harmonics are a colour that the composer chooses: they stand where the score asks for them, and only there.",
    why: "The bell-like touch is heard as a new voice. One that comes only because its pitch was convenient breaks the line; one that is left out takes away what was meant.",
    whenRight: "Very high notes exist as harmonics alone; and a composer who likes the effect has only to mark it.",
    remedy: "Stop the note or play it open; or mark the whole phrase as harmonics.",
    cures: ["fingering", "octave"],
    sources: ["common practice, no source"],
    unit: null,
    parameters: {
      unasked: {
        default: 0.6,
        unit: "spare moves",
        doc: "a harmonic that neither score nor writer asked for",
        evidence: "our judgement",
      },
      notPlayed: {
        default: 2,
        unit: "spare moves",
        doc: "a note marked as a harmonic and played otherwise",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "a printed harmonic sign, played so",
        kind: "passes",
        melody: "D3^ G3^",
        fingering: ["fan 7 gou 2", "fan 7 tiao 4"],
        finds: [],
      },
      {
        shows: "the sign is printed, the note is played open",
        kind: "breaks",
        melody: "D3^",
        fingering: ["san tiao 7"],
        finds: [[1, "problem", "D3 is marked as a harmonic and played san tiao 7."]],
      },
      {
        shows: "no sign, but this pitch exists as a harmonic only",
        kind: "breaks",
        melody: "A5",
        fingering: ["-"],
        finds: [[1, "caution", "A5 is played as a harmonic, fan 13 tiao 5, and nothing in the score asks for one."]],
      },
      {
        shows: "no sign, but the fingering in the score says fan: that asks for it",
        kind: "exception",
        melody: "D3 G3",
        fingering: ["fan 7 gou 2", "fan 7 tiao 4"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: null,
    breaks: "above",
    measure: (placed, _missing, note) => {
      if (placed === null) return Number.NaN;
      if (placed.sound === "harmonic") return note.harmonicAsked ? 0 : UNASKED;
      return note.harmonicAsked ? NOT_PLAYED : Number.NaN;
    },
    charge: (measured) => (measured === UNASKED ? values.unasked : measured === NOT_PLAYED ? values.notPlayed : 0),
    message: (sight) =>
      sight.measured === UNASKED
        ? `${sight.note} is played as a harmonic, ${sight.spoken}, and nothing in the score asks for one.`
        : `${sight.note} is marked as a harmonic and played ${sight.spoken}.`,
  }),
);
