// SPDX-License-Identifier: AGPL-3.0-or-later
import type { LeftOutLine } from "../../src/model/line-choice.js";
import { defineRule } from "../../src/rule/define.js";

/** At most so many lines are named. */
const NAMED = 6;

const counted = (notes: number): string => `${notes} ${notes === 1 ? "note" : "notes"}`;

/** A line, with its notes and the options that take it. */
function described({ part, voice, notes, take }: LeftOutLine): string {
  const where = voice === null ? `part ${part}` : `voice ${voice} of part ${part}`;
  return `${notes} in ${where} (${take})`;
}

/** The lines in order; those behind the first few are counted. */
function listed(leftOut: readonly LeftOutLine[]): string {
  const named = leftOut.slice(0, leftOut.length > NAMED + 1 ? NAMED : undefined);
  const rest = leftOut.slice(named.length);
  const notes = rest.reduce((sum, one) => sum + one.notes, 0);
  return [...named.map(described), ...(rest.length === 0 ? [] : [`${notes} in ${rest.length} more lines`])].join(", ");
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
      const message = `${counted(measured)} of the score ${measured === 1 ? "was" : "were"} not looked at: ${listed(score.leftOut)}.`;
      return { looked, findings: [{ notes: [], severity: "note", measured, limit: values.limit, message }] };
    },
  }),
);
