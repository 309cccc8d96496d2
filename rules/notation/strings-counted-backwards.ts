// SPDX-License-Identifier: AGPL-3.0-or-later
import { withHeld } from "../../src/model/held.js";
import type { MomentNote } from "../../src/model/moments.js";
import type { CountedFingering, StringNumbers } from "../../src/model/score.js";
import { soundsWhereGiven } from "../../src/model/soundable.js";
import { defineRule } from "../../src/rule/define.js";
import { type Phrase, phrase, phraseOf } from "../../src/words.js";

/** A way of counting in words, and what to do for the other one. */
const WORDS: Readonly<Record<StringNumbers, { readonly how: Phrase; readonly cure: Phrase; readonly cause: Phrase }>> =
  {
    musicxml: {
      how: phrase("from the highest string, as MusicXML does", "照MusicXML的数法从最高的弦数起"),
      cure: phrase("take string-numbers: guqin out of the brief", "请从编配说明里删去string-numbers: guqin"),
      cause: phrase(
        "counts strings from the highest, as MusicXML does, and the brief says otherwise",
        "是照MusicXML的数法数弦的，从最高的弦起，编配说明却说是另一种数法",
      ),
    },
    guqin: {
      how: phrase("as players do, from the lowest", "照琴人的数法从最低的弦数起"),
      cure: phrase("say string-numbers: guqin in the brief", "请在编配说明里写string-numbers: guqin"),
      cause: phrase(
        "counts strings as players do, from the lowest (string-numbers: guqin)",
        "是照琴人的数法数弦的，从最低的弦起（string-numbers: guqin）",
      ),
    },
  };

export default defineRule(
  {
    id: "strings-counted-backwards",
    kind: "notation",
    title: phrase("String numbers counted from the other side", "弦号数反了"),
    principle: phrase(
      "MusicXML counts strings from the highest, players of the guqin from the lowest. A score whose string numbers fit in one way only was written in that way.",
      "MusicXML从最高的弦数起，琴人从最低的弦数起。一份谱的弦号若只有一种数法说得通，就是照那种数法写的。",
    ),
    why: phrase(
      "Counted from the wrong side, string 1 is taken for string 7, and a good fingering looks like a row of faults.",
      "数反了，一弦就当成七弦，好好的指法看来处处是毛病。",
    ),
    whenRight: phrase(
      "Where the numbers fit by chance, as in a few marks of a short melody: then correct the marks that do not fit.",
      "只是碰巧说得通，例如短短的旋律只标了几个弦号：那就改正不对的几个。",
    ),
    remedy: phrase(
      "Say in the brief how the strings are counted, or number them as MusicXML does.",
      "在编配说明里写明弦怎么数，或照MusicXML的数法标弦号。",
    ),
    sources: [
      phrase(
        "W3C, MusicXML 4.0, data type string-number: string numbers are ordered from high to low",
        "W3C，MusicXML 4.0，数据类型string-number：弦号由高到低",
      ),
      phrase("J. Thompson, silkqin.com: the first string is the lowest", "J. Thompson，silkqin.com：一弦最低"),
    ],
    unit: "strings",
    parameters: {
      limit: {
        default: 0,
        unit: "strings",
        doc: phrase("may misfit without a word", "不合而不提的弦号数"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase(
          "7 from the highest is the lowest string, which the words call 1",
          "从最高弦数起的第七根就是最低的弦，文字里叫一弦",
        ),
        kind: "passes",
        melody: "C2 G2 C3",
        fingering: ["<string> 7, san gou 1", "<string> 4, san tiao 4", "<string> 2, san gou 6"],
        finds: [],
      },
      {
        shows: phrase("the same strings numbered as players do", "同样的弦，照琴人的数法标"),
        kind: "breaks",
        melody: "C2 G2 C3",
        fingering: ["<string> 1, san gou 1", "<string> 4, san tiao 4", "<string> 6, san gou 6"],
        finds: [
          [
            0,
            "problem",
            phrase(
              "All 3 string numbers fit their notes when they are counted as players do, from the lowest: say string-numbers: guqin in the brief. Counted from the highest string, as MusicXML does, 2 of them do not.",
              "若照琴人的数法从最低的弦数起，3个弦号就都与音相合：请在编配说明里写string-numbers: guqin。眼下照MusicXML的数法从最高的弦数起，有2个不合。",
            ),
          ],
        ],
      },
      {
        shows: phrase("nothing but numbers: C2 is lower than the highest string", "只有弦号：C2比最高的弦还低"),
        kind: "breaks",
        melody: "C2 G2 A2",
        fingering: ["<string> 1", "<string> 4", "<string> 5"],
        finds: [
          [
            0,
            "problem",
            phrase(
              "All 3 string numbers fit their notes when they are counted as players do, from the lowest: say string-numbers: guqin in the brief. Counted from the highest string, as MusicXML does, one of them does not.",
              "若照琴人的数法从最低的弦数起，3个弦号就都与音相合：请在编配说明里写string-numbers: guqin。眼下照MusicXML的数法从最高的弦数起，有一个不合。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a place that another string sounds", "这个徽位要在另一根弦上才对"),
        kind: "breaks",
        melody: "C3",
        fingering: ["<string> 3, ming 9 gou 3"],
        finds: [
          [
            0,
            "problem",
            phrase(
              "The string number fits its note when it is counted as players do, from the lowest: say string-numbers: guqin in the brief. Counted from the highest string, as MusicXML does, it does not.",
              "若照琴人的数法从最低的弦数起，这个弦号就与音相合：请在编配说明里写string-numbers: guqin。眼下照MusicXML的数法从最高的弦数起，就不合。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a slip of the pen: neither way fits all", "笔误：两种数法都不全对"),
        kind: "exception",
        melody: "C2 G2 C3",
        fingering: ["<string> 7, san gou 1", "<string> 4, san tiao 4", "<string> 6, san gou 6"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const fits = ({ given, contradicted }: CountedFingering, { semitone, cents }: MomentNote): boolean =>
      !contradicted && soundsWhereGiven(withHeld(given, semitone, cents, setting), semitone, cents, setting);

    return {
      reach: "passage",
      look: ({ score, moments }) => {
        const notes = new Map(moments.flatMap((moment) => moment.notes.map((note) => [note.source.id, note])));
        const marks = score.stringMarks.flatMap((mark) => {
          const note = notes.get(mark.note);
          return note === undefined
            ? []
            : [{ note: mark.note, here: fits(mark.here, note), otherwise: fits(mark.otherwise, note) }];
        });
        const looked = marks.length;
        const measured = marks.filter((mark) => !mark.here).length;
        if (measured <= values.limit || !marks.every((mark) => mark.otherwise)) return { looked, findings: [] };
        const message = told(measured, looked, score.stringNumbers);
        // On another string nothing is as it was judged: place, finger, stroke and every move.
        const explains = {
          kinds: ["intonation", "idiom", "efficiency", "character"],
          notes: marks.map(({ note }) => note),
          cause: otherWay(score.stringNumbers).cause,
        } as const;
        const finding = { notes: [], severity: "problem", measured, limit: values.limit, message, explains } as const;
        return { looked, findings: [finding] };
      },
    };
  },
);

const otherWay = (counted: StringNumbers) => WORDS[counted === "musicxml" ? "guqin" : "musicxml"];

/** What to say in the brief, and what does not fit without. */
function told(misfits: number, all: number, counted: StringNumbers): Phrase {
  const here = WORDS[counted];
  const other = otherWay(counted);
  const fit =
    all === 1
      ? "The string number fits its note when it is counted"
      : `${all === 2 ? "Both" : `All ${all}`} string numbers fit their notes when they are counted`;
  const fitZh = all === 1 ? "这个弦号就与音相合" : `${all === 2 ? "两" : all}个弦号就都与音相合`;
  return phraseOf({
    en: (say) =>
      `${fit} ${say(other.how)}: ${say(other.cure)}. Counted ${say(here.how)}, ${say(misfitting(misfits, all))}.`,
    zh: (say) =>
      `若${say(other.how)}，${fitZh}：${say(other.cure)}。眼下${say(here.how)}，${say(misfitting(misfits, all))}。`,
  });
}

function misfitting(misfits: number, all: number): Phrase {
  if (all === 1) return phrase("it does not", "就不合");
  if (misfits === all) return phrase(all === 2 ? "neither does" : "none does", "一个也不合");
  const misfit = misfits === 1 ? "one of them does not" : `${misfits} of them do not`;
  return phrase(misfit, `有${misfits === 1 ? "一" : misfits}个不合`);
}
