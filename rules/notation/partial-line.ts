// SPDX-License-Identifier: AGPL-3.0-or-later
import type { LeftOutLine } from "../../src/model/line-choice.js";
import { defineRule } from "../../src/rule/define.js";
import { joined, type Phrase, phrase, phraseOf } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** At most so many lines are named. */
const NAMED = 6;

const counted = (notes: number): string => `${notes} ${notes === 1 ? "note" : "notes"}`;

/** A line, with its notes and the options that take it. */
function described({ part, voice, notes, take }: LeftOutLine): Phrase {
  const where = voice === null ? `part ${part}` : `voice ${voice} of part ${part}`;
  const whereZh = voice === null ? `声部${part}` : `声部${part}的线${voice}`;
  return phrase(`${notes} in ${where} (${take})`, `${whereZh}有${notes}个（${take}）`);
}

/** The lines in order; those behind the first few are counted. */
function listed(leftOut: readonly LeftOutLine[]): Phrase {
  const named = leftOut.slice(0, leftOut.length > NAMED + 1 ? NAMED : undefined);
  const rest = leftOut.slice(named.length);
  const notes = rest.reduce((sum, one) => sum + one.notes, 0);
  const more = phrase(`${notes} in ${rest.length} more lines`, `另外${rest.length}条线有${notes}个`);
  return joined([...named.map(described), ...(rest.length === 0 ? [] : [more])], phrase(", ", "，"));
}

export default defineRule(
  {
    id: "partial-line",
    kind: "notation",
    title: phrase("Notes left out of the check", "没有查看的音"),
    principle: phrase(
      "One voice of one part is judged at a time, since one guqin plays one line.",
      "一次只看一个声部里的一条线，因为一张琴只弹一条线。",
    ),
    why: phrase(
      "What stands in other voices and parts was not looked at, and may be the melody that you meant.",
      "其他声部和线里的音没有看，真正的旋律也许就在其中。",
    ),
    whenRight: phrase("Where the other voices are for other players.", "其他的线本来就是给别人演奏的。"),
    remedy: phrase(
      "Choose the part or voice with the option named, or write the melody into one voice.",
      "用所示的选项选定声部或线，或把旋律写进一条线里。",
    ),
    sources: [COMMON_PRACTICE],
    unit: "notes",
    parameters: {
      limit: {
        default: 0,
        unit: "notes",
        doc: phrase("left out without a word", "略去而不提的音数"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("a score of one voice", "只有一条线的谱"),
        kind: "passes",
        melody: "D3 C3",
        fingering: [],
        finds: [],
      },
      {
        shows: phrase("a second voice of three notes", "另有一条三个音的线"),
        kind: "breaks",
        melody: "D3 C3 A2 | C2 C2 F2",
        fingering: [],
        finds: [
          [
            0,
            "note",
            phrase(
              "3 notes of the score were not looked at: 3 in voice 2 of part P1 (--voice 2).",
              "谱上有3个音没有查看：其中声部P1的线2有3个（--voice 2）。",
            ),
          ],
        ],
      },
      {
        shows: phrase("two notes at once in one voice are both read", "同一条线里同时的两个音，都会读"),
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
      const message = phraseOf({
        en: (say) =>
          `${counted(measured)} of the score ${measured === 1 ? "was" : "were"} not looked at: ${say(listed(score.leftOut))}.`,
        zh: (say) => `谱上有${measured}个音没有查看：其中${say(listed(score.leftOut))}。`,
      });
      return { looked, findings: [{ notes: [], severity: "note", measured, limit: values.limit, message }] };
    },
  }),
);
