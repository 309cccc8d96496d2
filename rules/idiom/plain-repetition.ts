// SPDX-License-Identifier: AGPL-3.0-or-later

import { defineRule } from "../../src/rule/define.js";
import type { Line } from "../../src/rule/types.js";
import { idsOf, pitchesAt, runsWhere } from "../shared/runs.js";

export default defineRule(
  {
    id: "plain-repetition",
    kind: "idiom",
    title: "The same stroke on the same string again and again",
    principle:
      "A note that comes more than three times changes its stroke, goes to and fro between string and unison, or becomes a lun.",
    why: "One stroke repeated on one string sounds like a machine, and each time the finger must come back without a sound.",
    whenRight: "As the toll of a bell, or a drum that is meant to be heard.",
    remedy:
      "Let two strokes go by turns, let the open string and its stopped unison answer each other, or write a lun.",
    cures: ["fingering"],
    sources: ["common practice, no source"],
    unit: "notes",
    parameters: {
      limit: { default: 3, unit: "notes", doc: "so many alike are no matter", evidence: "common practice" },
    },
    examples: [
      {
        shows: "two strokes by turns",
        kind: "passes",
        melody: "D3 D3 D3 D3 D3",
        fingering: ["san tiao 7", "san mo 7", "san tiao 7", "san mo 7", "san tiao 7"],
        finds: [],
      },
      {
        shows: "five times the same tiao",
        kind: "breaks",
        melody: "D3 D3 D3 D3 D3",
        fingering: ["san tiao 7", "san tiao 7", "san tiao 7", "san tiao 7", "san tiao 7"],
        finds: [[5, "caution", "D3 comes 5 times in a row with the same tiao on string 7 (more than 3)."]],
      },
      {
        shows: "open string and stopped unison answer each other",
        kind: "exception",
        melody: "C3 C3 C3 C3",
        fingering: ["san tiao 6", "ming 10 gou 4", "san tiao 6", "ming 10 gou 4"],
        finds: [],
      },
      {
        shows: "each of them a lun",
        kind: "exception",
        melody: "D3 D3 D3 D3",
        fingering: ["san lun 7", "san lun 7", "san lun 7", "san lun 7"],
        finds: [],
      },
    ],
  },
  (values) => {
    /** Whether a moment sounds just as the one before: no rest between, one string, one stroke, no compound. */
    const alike = ({ moments, lefts, rights }: Line, at: number): boolean => {
      const [now, before] = [moments[at], moments[at - 1]];
      const [left, leftBefore] = [lefts[at], lefts[at - 1]];
      if (now === undefined || before === undefined || now.rested || left === undefined) return false;
      const [note, noteBefore] = [now.notes[0], before.notes[0]];
      if (now.notes.length !== 1 || before.notes.length !== 1 || note?.semitone !== noteBefore?.semitone) return false;
      if (note?.given.compound !== null || noteBefore?.given.compound !== null) return false;
      if (left.chain > 0 || left.first === null || left.first.string !== leftBefore?.first?.string) return false;
      return rights[at]?.stroke === rights[at - 1]?.stroke;
    };

    return {
      reach: "passage",
      look: (line) => {
        const runs = runsWhere(line.moments.length, (at) => alike(line, at));
        const plain = runs.filter(({ from, to }) => to - from + 1 > values.limit);
        return {
          looked: runs.filter(({ from, to }) => to > from).length,
          findings: plain.map((run) => {
            const count = run.to - run.from + 1;
            const { stroke, strings } = line.rights[run.from] as Line["rights"][number];
            return {
              notes: idsOf(line, run),
              severity: "caution",
              measured: count,
              limit: values.limit,
              message: `${pitchesAt(line, run.from)} comes ${count} times in a row with the same ${stroke} on string ${strings.outer} (more than ${values.limit}).`,
            };
          }),
        };
      },
    };
  },
);
