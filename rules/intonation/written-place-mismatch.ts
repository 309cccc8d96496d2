// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "written-place-mismatch",
    kind: "intonation",
    title: "The written place sounds another note",
    principle:
      "String and place decide the pitch. A written place belongs to its note when it lies within half a tenth or 25 cents of it, whichever is more.",
    why: "A player reads the tablature, not the staff, and will play the wrong note.",
    whenRight: "Only where the staff is wrong and the tablature right: then correct the staff.",
    remedy: "Write the place that sounds the note on this string, or the string on which this place does.",
    sources: [
      "places of the semitones: J. Thompson, silkqin.com, list of a Ming handbook; the beginner's list of hui-fen signs at kxting.com",
      "the tolerance: our judgement",
    ],
    unit: "cents",
    parameters: {
      wrongPlace: {
        default: 1,
        unit: "spare moves",
        doc: "a wrong place weighs as much as a wrong note",
        evidence: "our judgement",
      },
      tolerance: {
        default: 25,
        unit: "cents",
        doc: "a place this near is the note's own, or one within half a tenth where that is more",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "hui 10 of string 4 sounds C3",
        kind: "passes",
        melody: "C3",
        fingering: ["ming 10 gou 4"],
        finds: [],
      },
      {
        shows: "hui 9 of string 4 sounds D3, not C3",
        kind: "breaks",
        melody: "C3",
        fingering: ["ming 9 gou 4"],
        finds: [
          [
            1,
            "problem",
            "ming 9 gou 4 sounds 204 cents above C3, the note on the staff (up to 25 cents, or half a tenth, count as the same place).",
          ],
        ],
      },
      {
        shows: "7.9 where 7.6 is meant",
        kind: "breaks",
        melody: "F3",
        fingering: ["da 7.9 tiao 4"],
        finds: [
          [
            1,
            "problem",
            "da 7.9 tiao 4 sounds 83 cents below F3, the note on the staff (up to 25 cents, or half a tenth, count as the same place).",
          ],
        ],
      },
      {
        shows: "a left hand alone has nothing to slide from",
        kind: "breaks",
        melody: "C3",
        fingering: ["shang 10"],
        finds: [[1, "blocker", '"shang 10" is written for C3, and cannot sound it.']],
      },
      {
        shows: "hui 8 is near enough for 7.9: a comma apart",
        kind: "exception",
        melody: "A3",
        fingering: ["da 8 tiao 6"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.tolerance,
    breaks: "above",
    severities: [[values.tolerance, "problem"]],
    measure: (placed, missing, note) => {
      if (placed === null) return missing?.cause === "given" ? 0 : Number.NaN;
      if (placed.mismatch) return Math.abs(placed.offCents);
      return note.given.position !== null || note.given.string !== null ? 0 : Number.NaN;
    },
    charge: (cents) => (cents === 0 ? 0 : values.wrongPlace),
    message: (sight) => {
      if (sight.spoken === "") return `"${sight.written}" is written for ${sight.note}, and cannot sound it.`;
      const side = sight.offCents > 0 ? "above" : "below";
      return `${sight.spoken} sounds ${plain(sight.measured, 0)} cents ${side} ${sight.note}, the note on the staff (up to ${values.tolerance} cents, or half a tenth, count as the same place).`;
    },
  }),
);
