// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "unread-fingering",
    kind: "notation",
    title: "A fingering mark that was not understood",
    principle:
      "A fingering is read from the marks, lyrics and words beside the notes, in the form that players speak: sound or finger, place, stroke, string.",
    why: "A mark that could not be read was not judged, and the search chose in its place.",
    whenRight: "Where the text was never meant as a fingering.",
    remedy: "Write it in the form given, or move other texts to another line of lyrics.",
    sources: ["the spoken reading of a fingering: common practice, no source"],
    unit: null,
    parameters: {},
    examples: [
      {
        shows: "a spoken form",
        kind: "passes",
        melody: "C3",
        fingering: ["ming 10 gou 4"],
        finds: [],
      },
      {
        shows: "a word that is no finger",
        kind: "breaks",
        melody: "C3",
        fingering: ["? minf 10 gou 4"],
        finds: [
          [
            1,
            "note",
            '"minf 10 gou 4" could not be read as a fingering; the nearest form that can is "ming 10 gou 4".',
          ],
        ],
      },
      { shows: "no fingering at all", kind: "exception", melody: "C3", fingering: ["-"], finds: [] },
    ],
  },
  () => ({
    reach: "passage",
    look: ({ score }) => ({
      looked: score.notes.filter((note) => note.given.text !== "").length + score.oddMarks.length,
      findings: score.oddMarks.map(({ note, text, trouble, nearest }) => ({
        notes: [note],
        severity: "note",
        measured: null,
        limit: null,
        message:
          trouble === "contradicted"
            ? `The written "${text}" and the marks "${nearest}" of this note contradict each other; the marks count.`
            : `"${text}" could not be read as a fingering; the nearest form that can is "${nearest}".`,
      })),
    }),
  }),
);
