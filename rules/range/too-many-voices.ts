// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "too-many-voices",
    kind: "range",
    title: "More notes at once than two hands can sound",
    topic: "notes beyond what two hands can sound",
    principle:
      "Two notes at once are one pinch of the right hand on two strings, with both places under one left hand. There is no third voice.",
    why: "Somebody has to leave a note out, and without a word from you the player decides which.",
    whenRight: "Never at one instant; a chord that may be rolled can be written as separate notes.",
    remedy: "Keep the outer two notes, roll the chord as single notes, or bring the two notes nearer by an octave.",
    cures: ["fingering", "octave"],
    sources: [
      "pinches of two notes: the right-hand term list at yueqixuexi.com",
      "two notes at most: common practice, no source",
    ],
    unit: "notes",
    parameters: {
      most: { default: 2, unit: "notes", doc: "what one pinch sounds", evidence: "common practice" },
    },
    examples: [
      {
        shows: "the open octave of strings 1 and 6, a large pinch",
        kind: "passes",
        melody: "C2+C3",
        fingering: ["san gou 1", "san tuo 6"],
        finds: [],
      },
      {
        shows: "three notes: the middle one is left out",
        kind: "breaks",
        melody: "C2+G2+C3",
        fingering: [],
        finds: [[2, "blocker", "G2 is one of 3 notes at once; one pinch sounds 2, so this one is left out."]],
      },
      {
        shows: "two low notes that share the only string for both",
        kind: "breaks",
        melody: "C2+C#2",
        fingering: [],
        finds: [
          [
            1,
            "blocker",
            "C2 finds no string beside the other note: no single pinch sounds both with one left hand, so this one is left out.",
          ],
        ],
      },
      {
        shows: "the same three notes one after the other",
        kind: "exception",
        melody: "C2 G2 C3",
        fingering: ["san gou 1", "san gou 4", "san tiao 6"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.most,
    breaks: "above",
    measure: (placed, missing, _note, moment) => {
      if (placed !== null) return moment.notes.length > 1 ? 0 : Number.NaN;
      return missing?.cause === "voices" ? missing.amount : Number.NaN;
    },
    charge: () => 0,
    blocks: (measured) => measured >= values.most,
    message: (sight) =>
      sight.measured > values.most
        ? `${sight.note} is one of ${plain(sight.measured)} notes at once; one pinch sounds ${plain(values.most)}, so this one is left out.`
        : `${sight.note} finds no string beside the other note: no single pinch sounds both with one left hand, so this one is left out.`,
  }),
);
