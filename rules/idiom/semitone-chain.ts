// SPDX-License-Identifier: AGPL-3.0-or-later

import { defineRule } from "../../src/rule/define.js";
import type { Line } from "../../src/rule/types.js";
import { idsOf, pitchesAt, type Run } from "../shared/runs.js";

export default defineRule(
  {
    id: "semitone-chain",
    kind: "idiom",
    title: "Semitones plucked in a chain",
    principle: "The scale of the instrument has five tones, seven at most. What lies between is slid through.",
    why: "Each semitone is one or two centimetres from the last and off the places that the hand knows; plucked one by one they sound like a search for the note.",
    whenRight: "Where the search is the meaning.",
    remedy: "Slide through the tones between, or leave them out and keep those of the scale.",
    cures: ["fingering", "slur"],
    sources: ["common practice, no source"],
    unit: "steps",
    parameters: {
      limit: {
        default: 2,
        unit: "steps",
        doc: "so many semitones in a row, each plucked, are no matter",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "whole tones with one semitone",
        kind: "passes",
        melody: "D3 E3 F3 G3",
        fingering: ["ming 10 gou 5", "ming 9 tiao 5", "da 8.5 tiao 5", "da 9 tiao 6"],
        finds: [],
      },
      {
        shows: "three semitones, each plucked",
        kind: "breaks",
        melody: "D3 D#3 E3 F3",
        fingering: ["ming 10 gou 5", "ming 9.4 tiao 5", "da 9 gou 5", "da 8.5 tiao 5"],
        finds: [[4, "caution", "3 semitone steps in a row lead from D3 to F3, each plucked (more than 2)."]],
      },
      {
        shows: "the same as a slide",
        kind: "exception",
        melody: "(D3 D#3 E3) F3",
        fingering: ["ming 10 gou 5", "shang 9.4", "shang 9", "da 8.5 tiao 5"],
        finds: [],
      },
    ],
  },
  (values) => {
    /** The plucked step into a moment: 1 or -1 for a semitone up or down, 0 for any other. */
    const stepAt = ({ moments, lefts }: Line, at: number): number => {
      const [now, before] = [moments[at], moments[at - 1]];
      if (now === undefined || before === undefined || now.rested || lefts[at]?.chain !== 0) return 0;
      const [note, noteBefore] = [now.notes[0], before.notes[0]];
      if (now.notes.length !== 1 || before.notes.length !== 1 || note?.source.grace || noteBefore?.source.grace)
        return 0;
      const step = (note?.semitone ?? 0) - (noteBefore?.semitone ?? 0);
      return Math.abs(step) === 1 ? step : 0;
    };

    /** Chains of semitones in one direction, from their first note. */
    const chainsOf = (line: Line): readonly Run[] => {
      const chains: { from: number; to: number }[] = [];
      let direction = 0;
      for (let at = 1; at < line.moments.length; at++) {
        const step = stepAt(line, at);
        const last = chains.at(-1);
        if (step !== 0 && step === direction && last !== undefined) last.to = at;
        else if (step !== 0) chains.push({ from: at - 1, to: at });
        direction = step;
      }
      return chains;
    };

    return {
      reach: "passage",
      look: (line) => {
        const chains = chainsOf(line);
        return {
          looked: chains.length,
          findings: chains
            .filter(({ from, to }) => to - from > values.limit)
            .map((run) => ({
              notes: idsOf(line, run),
              severity: "caution",
              measured: run.to - run.from,
              limit: values.limit,
              message: `${run.to - run.from} semitone steps in a row lead from ${pitchesAt(line, run.from)} to ${pitchesAt(line, run.to)}, each plucked (more than ${values.limit}).`,
            })),
        };
      },
    };
  },
);
