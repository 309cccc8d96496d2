// SPDX-License-Identifier: AGPL-3.0-or-later

import { stringInCharacters, strokeInCharacters } from "../../src/model/characters.js";
import { defineRule } from "../../src/rule/define.js";
import type { Line } from "../../src/rule/types.js";
import { phrase } from "../../src/words.js";
import { idsOf, pitchesAt, runsWhere } from "../shared/runs.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "plain-repetition",
    kind: "idiom",
    title: phrase("The same stroke on the same string again and again", "同一弦上一再用同一弹法"),
    principle: phrase(
      "A note that comes more than three times changes its stroke, goes to and fro between string and unison, or becomes a lun.",
      "同一个音连着弹三次以上，就变换弹法，或散音、按音交替，或改用轮。",
    ),
    why: phrase(
      "One stroke repeated on one string sounds like a machine, and each time the finger must come back without a sound.",
      "一弦一法反复下去，像机器一样；而且每弹一次，手指都要不出声地回到原处。",
    ),
    whenRight: phrase("As the toll of a bell, or a drum that is meant to be heard.", "如钟声，或有意要听到的鼓点。"),
    remedy: phrase(
      "Let two strokes go by turns, let the open string and its stopped unison answer each other, or write a lun.",
      "两种弹法交替，或散音与同音的按音一问一答，或写成轮。",
    ),
    cures: ["fingering"],
    sources: [COMMON_PRACTICE],
    unit: "notes",
    parameters: {
      limit: {
        default: 3,
        unit: "notes",
        doc: phrase("so many alike are no matter", "连着这么多次相同，不要紧"),
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: phrase("two strokes by turns", "两种弹法交替"),
        kind: "passes",
        melody: "D3 D3 D3 D3 D3",
        fingering: ["san tiao 7", "san mo 7", "san tiao 7", "san mo 7", "san tiao 7"],
        finds: [],
      },
      {
        shows: phrase("five times the same tiao", "连着五次都是挑"),
        kind: "breaks",
        melody: "D3 D3 D3 D3 D3",
        fingering: ["san tiao 7", "san tiao 7", "san tiao 7", "san tiao 7", "san tiao 7"],
        finds: [
          [
            5,
            "caution",
            phrase(
              "D3 comes 5 times in a row with the same tiao on string 7 (more than 3).",
              "D3连着5次都在七弦上用挑（超过3次）。",
            ),
          ],
        ],
      },
      {
        shows: phrase("open string and stopped unison answer each other", "散音与同音的按音一问一答"),
        kind: "exception",
        melody: "C3 C3 C3 C3",
        fingering: ["san tiao 6", "ming 10 gou 4", "san tiao 6", "ming 10 gou 4"],
        finds: [],
      },
      {
        shows: phrase("each of them a lun", "每个音都用轮"),
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
            const pitch = pitchesAt(line, run.from);
            return {
              notes: idsOf(line, run),
              severity: "caution",
              measured: count,
              limit: values.limit,
              message: phrase(
                `${pitch} comes ${count} times in a row with the same ${stroke} on string ${strings.outer} (more than ${values.limit}).`,
                `${pitch}连着${count}次都在${stringInCharacters(strings.outer)}上用${strokeInCharacters(stroke ?? "")}（超过${values.limit}次）。`,
              ),
            };
          }),
        };
      },
    };
  },
);
