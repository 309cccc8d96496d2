// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Moment } from "../../src/model/moments.js";
import { pitchName } from "../../src/model/pitch.js";
import { defineRule } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { phrase } from "../../src/words.js";

/** Levels and accents beyond a quiet instrument. */
const TOO_LOUD = /^(f{2,}|sf|sfp|sfpp|sfz|sffz|sfzp|fz|rf|rfz)$/;

export default defineRule(
  {
    id: "growing-note",
    kind: "idiom",
    title: phrase("Louder than a plucked silk string", "力度超出弹弦所能"),
    principle: phrase(
      "A plucked note is loudest when it begins and only fades; and the instrument is quiet, played for a room and not for a hall.",
      "弹出的音起头最响，此后只会减弱；琴声本来就轻，宜于室内，不为厅堂而设。",
    ),
    why: phrase(
      "A crescendo on one note cannot be heard, and force does not make the string louder: it rattles on the board.",
      "一个音上的渐强听不出来；用力也不会更响，弦只会打板。",
    ),
    whenRight: phrase(
      "As a hint of the mood, where the player knows not to force it.",
      "只作情绪的提示，演奏者也知道不必硬用力。",
    ),
    remedy: phrase(
      "Spread the crescendo over several plucks; make a climax by tempo, register and double notes.",
      "把渐强分在几次弹弦上；高潮靠速度、音区和双音来造。",
    ),
    sources: [
      phrase(
        "a very quiet instrument: introductions to the qin by several writers; a climax by tempo, register and double notes: common practice, no source",
        "琴声甚轻：几位作者的古琴介绍；以速度、音区和双音造高潮：通行做法（无出处）",
      ),
    ],
    unit: null,
    parameters: {},
    examples: [
      {
        shows: phrase("a passage marked f", "标f的一段"),
        kind: "passes",
        melody: "D3{f} C3 A2",
        fingering: ["san tiao 7", "san tiao 6", "san gou 5"],
        finds: [],
      },
      {
        shows: phrase("a hairpin over one note", "渐强号只落在一个音上"),
        kind: "breaks",
        melody: "D3{<}:2 C3",
        fingering: ["san tiao 7", "san tiao 6"],
        finds: [
          [
            1,
            "note",
            phrase(
              "A crescendo stands over the one note D3, which only fades once it is plucked.",
              "渐强号只标在D3一个音上，而这个音弹出之后只会减弱。",
            ),
          ],
        ],
      },
      {
        shows: phrase("fortissimo", "标ff的一段"),
        kind: "breaks",
        melody: "D3{ff} C3 A2",
        fingering: ["san tiao 7", "san tiao 6", "san gou 5"],
        finds: [
          [
            3,
            "note",
            phrase(
              "The score asks for ff on 3 notes: louder than the instrument goes.",
              "谱上有3个音标了ff：琴没有这么响。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a diminuendo over one note, which the string does of itself", "一个音上的渐弱号：弦自会如此"),
        kind: "exception",
        melody: "D3{>}:2 C3",
        fingering: ["san tiao 7", "san tiao 6"],
        finds: [],
      },
      {
        shows: phrase("a hairpin over a lun, whose strokes can grow", "轮上的渐强号：几弹之间可以渐强"),
        kind: "exception",
        melody: "D3{<}:2 C3",
        fingering: ["san lun 7", "san tiao 6"],
        finds: [],
      },
    ],
  },
  () => {
    /** Crescendos that stand over one note. A compound stroke plucks it several times and can grow. */
    const growing = (line: Line): readonly PassageFinding[] =>
      line.score.wedges.flatMap(({ from, to, kind }): PassageFinding[] => {
        const note = line.moments.flatMap(({ notes }) => notes).find(({ source }) => source.id === from);
        if (kind !== "crescendo" || from !== to || note === undefined) return [];
        if (note.given.compound !== null) return [];
        const pitch = pitchName(note.sounding);
        const message = phrase(
          `A crescendo stands over the one note ${pitch}, which only fades once it is plucked.`,
          `渐强号只标在${pitch}一个音上，而这个音弹出之后只会减弱。`,
        );
        return [{ notes: [from], severity: "note", measured: null, limit: null, message }];
      });

    const loudOf = ({ notes }: Moment): string | null => {
      const dynamic = notes[0]?.source.dynamic ?? null;
      return dynamic !== null && TOO_LOUD.test(dynamic) ? dynamic : null;
    };

    /** One finding for the line: it is one habit, however often and in however many signs. */
    const loud = ({ moments }: Line): readonly PassageFinding[] => {
      const marked = moments.filter((moment) => loudOf(moment) !== null);
      if (marked.length === 0) return [];
      const marks = [...new Set(marked.map(loudOf))];
      const notes = marked.flatMap((moment) => moment.notes.map(({ source }) => source.id));
      const count = `${notes.length} ${notes.length === 1 ? "note" : "notes"}`;
      const message = phrase(
        `The score asks for ${marks.join(", ")} on ${count}: louder than the instrument goes.`,
        `谱上有${notes.length}个音标了${marks.join("、")}：琴没有这么响。`,
      );
      return [{ notes, severity: "note", measured: null, limit: null, message }];
    };

    return {
      reach: "passage",
      look: (line) => ({ looked: line.moments.length, findings: [...growing(line), ...loud(line)] }),
    };
  },
);
