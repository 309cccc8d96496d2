// SPDX-License-Identifier: AGPL-3.0-or-later

import { defineRule } from "../../src/rule/define.js";
import type { Line } from "../../src/rule/types.js";
import { phrase } from "../../src/words.js";
import { idsOf, pitchesAt, type Run } from "../shared/runs.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "semitone-chain",
    kind: "idiom",
    title: phrase("Semitones plucked in a chain", "半音连串，逐个弹出"),
    principle: phrase(
      "The scale of the instrument has five tones, seven at most. What lies between is slid through.",
      "琴用五声，至多七声。其间的音用走音带过。",
    ),
    why: phrase(
      "Each semitone is one or two centimetres from the last and off the places that the hand knows; plucked one by one they sound like a search for the note.",
      "每个半音与前一个只隔一两厘米，又不在手熟的音位上；逐个弹出来，像在找音。",
    ),
    whenRight: phrase("Where the search is the meaning.", "就是要这种寻觅的意味。"),
    remedy: phrase(
      "Slide through the tones between, or leave them out and keep those of the scale.",
      "中间的音用走音带过，或省去，只留音阶里的音。",
    ),
    cures: ["fingering", "slur"],
    sources: [COMMON_PRACTICE],
    unit: "steps",
    parameters: {
      limit: {
        default: 2,
        unit: "steps",
        doc: phrase("so many semitones in a row, each plucked, are no matter", "连着这么多个半音逐个弹，不要紧"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("whole tones with one semitone", "全音之中有一个半音"),
        kind: "passes",
        melody: "D3 E3 F3 G3",
        fingering: ["ming 10 gou 5", "ming 9 tiao 5", "da 8.5 tiao 5", "da 9 tiao 6"],
        finds: [],
      },
      {
        shows: phrase("three semitones, each plucked", "三个半音，逐个弹出"),
        kind: "breaks",
        melody: "D3 D#3 E3 F3",
        fingering: ["ming 10 gou 5", "ming 9.4 tiao 5", "da 9 gou 5", "da 8.5 tiao 5"],
        finds: [
          [
            4,
            "caution",
            phrase(
              "3 semitone steps in a row lead from D3 to F3, each plucked (more than 2).",
              "从D3到F3连走3个半音，个个都弹（超过2个）。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same as a slide", "同样的音用走音"),
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
            .map((run) => {
              const [steps, from, to] = [run.to - run.from, pitchesAt(line, run.from), pitchesAt(line, run.to)];
              return {
                notes: idsOf(line, run),
                severity: "caution",
                measured: steps,
                limit: values.limit,
                message: phrase(
                  `${steps} semitone steps in a row lead from ${from} to ${to}, each plucked (more than ${values.limit}).`,
                  `从${from}到${to}连走${steps}个半音，个个都弹（超过${values.limit}个）。`,
                ),
              };
            }),
        };
      },
    };
  },
);
