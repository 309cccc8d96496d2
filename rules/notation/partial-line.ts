// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Score } from "../../src/model/score.js";
import { defineRule } from "../../src/rule/define.js";

type LeftOut = Score["leftOut"][number];

/** A word of the command line, in quotes where it holds a blank. */
const quoted = (word: string): string => (word.includes(" ") ? `"${word}"` : word);

/** The id with which a part's title begins, as in "P2 (Flute)". */
const partId = (title: string): string => title.split(" (")[0] as string;

const counted = (notes: number): string => `${notes} ${notes === 1 ? "note" : "notes"}`;

/** One part or voice, with its notes and the option that takes it. */
function described({ part, voice, notes }: LeftOut): string {
  if (voice === null) return `${notes} in part ${part} (--part ${quoted(partId(part))})`;
  return `${notes} in voice ${voice} of part ${part} (--voice ${quoted(voice)})`;
}

export default defineRule(
  {
    id: "partial-line",
    kind: "notation",
    title: "Notes left out of the check",
    principle: "One voice of one part is judged at a time, since one guqin plays one line.",
    why: "What stands in other voices and parts was not looked at, and may be the melody that you meant.",
    whenRight: "Where the other voices are for other players.",
    remedy: "Choose the part or voice with the option named, or write the melody into one voice.",
    sources: ["common practice, no source"],
    unit: "notes",
    parameters: {
      limit: { default: 0, unit: "notes", doc: "left out without a word", evidence: "our judgement" },
    },
    examples: [
      { shows: "a score of one voice", kind: "passes", melody: "D3 C3", fingering: [], finds: [] },
      {
        shows: "a second voice of three notes",
        kind: "breaks",
        melody: "D3 C3 A2 | C2 C2 F2",
        fingering: [],
        finds: [[0, "note", "3 notes of the score were not looked at: 3 in voice 2 of part P1 (--voice 2)."]],
      },
      {
        shows: "two notes at once in one voice are both read",
        kind: "exception",
        melody: "C2+C3",
        fingering: [],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "passage",
    look: ({ score }) => {
      const measured = score.leftOut.reduce((sum, one) => sum + one.notes, 0);
      const looked = score.notes.length + measured;
      if (measured <= values.limit) return { looked, findings: [] };
      const message = `${counted(measured)} of the score ${measured === 1 ? "was" : "were"} not looked at: ${score.leftOut.map(described).join(", ")}.`;
      return { looked, findings: [{ notes: [], severity: "note", measured, limit: values.limit, message }] };
    },
  }),
);
