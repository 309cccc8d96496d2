// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Moment, MomentNote } from "../../src/model/moments.js";
import type { Placed } from "../../src/model/playing.js";
import { defineRule } from "../../src/rule/define.js";
import type { Holding } from "../../src/rule/types.js";

/** A pinch of an open string with its own pitch stopped beside it: a doubling, which the trade likes. */
function doublesOpen(placed: Placed, note: MomentNote, moment: Moment, left: Holding): boolean {
  const other = left.first === placed ? left.second : left.first;
  return other !== null && other.sound === "open" && moment.notes[other.note]?.semitone === note.semitone;
}

export default defineRule(
  {
    id: "passed-over-open-string",
    kind: "idiom",
    title: "An open string passed over",
    topic: "open strings passed over",
    principle: "Where a string, left open, already sounds the note, that string is the first choice.",
    why: "Open strings ring longest, are always in tune, and leave the left hand free to travel to what comes next.",
    whenRight:
      "A note that is slid to or from, carries vibrato, or keeps the colour of the stopped notes around it wants a finger; a long one may.",
    remedy: "Leave the string of that pitch open.",
    sources: ["common practice, no source"],
    unit: null,
    parameters: {
      passedOverInPinch: {
        default: 0.8,
        unit: "spare moves",
        doc: "in a pinch, where a stop binds the hand for nothing",
        evidence: "our judgement",
      },
      passedOver: {
        default: 0.4,
        unit: "spare moves",
        doc: "a stop where this very pitch lies open",
        evidence: "common practice",
      },
      passedOverLong: {
        default: 0.3,
        unit: "spare moves",
        doc: "the same for a long note: it may want vibrato",
        evidence: "common practice",
      },
      long: { default: 1.5, unit: "s", doc: "a note is long beyond this", evidence: "our judgement" },
    },
    examples: [
      {
        shows: "C3 on the open sixth string",
        kind: "passes",
        melody: "C3 G2",
        fingering: ["san tiao 6", "san gou 4"],
        finds: [],
      },
      {
        shows: "C3 stopped on string 3 while string 6 lies open",
        kind: "breaks",
        melody: "C3 G2",
        fingering: ["ming 9 gou 3", "san tiao 4"],
        finds: [[1, "note", "C3 is stopped as ming 9 gou 3, though a string lies open at this very pitch."]],
      },
      {
        shows: "vibrato needs a finger",
        kind: "exception",
        melody: "C3~ G2",
        fingering: ["ming 9 gou 3", "san tiao 4"],
        finds: [],
      },
      {
        shows: "the open string and its stopped unison struck together",
        kind: "exception",
        melody: "D3+D3",
        fingering: ["ming 9 gou 4", "san tiao 7"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: null,
    breaks: "above",
    measure: (placed, _missing, note, moment, left) => {
      if (placed === null || placed.sound === "harmonic" || placed.mismatch || !note.liesOpen) return Number.NaN;
      if (placed.sound === "open" || left.arrival !== "plucked" || moment.asks !== null || moment.leadsOn) return 0;
      const { vibrato, slideTo } = note.source.marks;
      return vibrato || slideTo || doublesOpen(placed, note, moment, left) ? 0 : 1;
    },
    charge: (measured, _placed, _note, moment) => {
      if (measured === 0) return 0;
      if (moment.notes.length > 1) return values.passedOverInPinch;
      return moment.durationSeconds > values.long ? values.passedOverLong : values.passedOver;
    },
    message: (sight) => `${sight.note} is stopped as ${sight.spoken}, though a string lies open at this very pitch.`,
  }),
);
