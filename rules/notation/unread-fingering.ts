// SPDX-License-Identifier: AGPL-3.0-or-later
import type { OddMark } from "../../src/model/score.js";
import { defineRule } from "../../src/rule/define.js";

/** What is amiss with a mark, given its text and the form that counts or would be understood. */
const WORDS: Readonly<Record<OddMark["trouble"], (text: string, nearest: string) => string>> = {
  unreadable: (text, nearest) =>
    `"${text}" could not be read as a fingering; the nearest form that can is "${nearest}".`,
  contradicted: (text, nearest) =>
    `The written "${text}" and the marks "${nearest}" of this note contradict each other; the marks count.`,
  direction: (text, nearest) =>
    `The written "${text}" goes the other way than the notes, for which it would be "${nearest}"; the notes count.`,
  misfit: (text, nearest) =>
    `The written "${text}" is meant for another number of notes than stand here, so part of it was left out; "${nearest}" would fit.`,
  // Techniques that are known: what they are, and why they are not judged.
  "jian-gou": (text) =>
    `"${text}" asks for jian gou, index and middle finger by turns on two or three strings. The handbooks differ on its notes, so it was not judged: write each note's own stroke and string.`,
  "fen-kai": (text, read) =>
    `"${text}" asks for fen kai: a pluck, a slide up, a second pluck and the way back. It does not say which notes these are, so it was not judged${kept(read)}: write a form at each of them.`,
  "xu-yan": (text, read) =>
    `"${text}" asks for xu yan, a tap of the thumb that sounds without a pluck before it. Nothing here judges such a sound, so the note was taken as a plucked one${kept(read)}.`,
};

const kept = (read: string): string => (read === "" ? "" : `, and "${read}" was read`);

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
      {
        shows: "a slide whose word goes the other way than the notes",
        kind: "breaks",
        melody: "(C3 D3)",
        fingering: ["ming 10 gou 4", "xia 9"],
        finds: [
          [
            2,
            "note",
            'The written "xia 9" goes the other way than the notes, for which it would be "shang 9"; the notes count.',
          ],
        ],
      },
      {
        shows: "a technique that is known and cannot be judged",
        kind: "breaks",
        melody: "C3 D3",
        fingering: ["ming 10 gou 4 fen kai", "-"],
        finds: [
          [
            1,
            "note",
            '"ming 10 gou 4 fen kai" asks for fen kai: a pluck, a slide up, a second pluck and the way back. It does not say which notes these are, so it was not judged, and "ming 10 gou 4" was read: write a form at each of them.',
          ],
        ],
      },
      {
        shows: "an ornament is read and kept",
        kind: "exception",
        melody: "C3",
        fingering: ["ming 10 gou 4 yin"],
        finds: [],
      },
      {
        shows: "a pinch at a single note",
        kind: "breaks",
        melody: "G2",
        fingering: ["san cuo 4"],
        finds: [
          [
            1,
            "note",
            'The written "san cuo 4" is meant for another number of notes than stand here, so part of it was left out; "gou 4" would fit.',
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
      findings: score.oddMarks.map((odd) => ({
        notes: [odd.note],
        severity: "note",
        measured: null,
        limit: null,
        message: WORDS[odd.trouble](odd.text, odd.nearest),
      })),
    }),
  }),
);
