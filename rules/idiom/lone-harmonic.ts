// SPDX-License-Identifier: AGPL-3.0-or-later

import { defineRule } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { phrase, phraseOf } from "../../src/words.js";
import { barAt, idsOf, pitchesAt, placeWords, type Run, runsWhere } from "../shared/runs.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "lone-harmonic",
    kind: "idiom",
    title: phrase("A harmonic alone in a stopped line", "按音中孤零零的泛音"),
    principle: phrase(
      "Harmonics come in phrases and sections. One alone stands well at a close, or beside its own octave, open or stopped.",
      "泛音成句成段。单独一个，宜在收尾处，或紧挨着自己的八度（散音或按音）。",
    ),
    why: phrase(
      "A harmonic is another voice: one note of it within a stopped line sounds like a slip of the finger.",
      "泛音像换了一副嗓音：按音句里夹一个，听来像手指失误。",
    ),
    whenRight: phrase(
      "As an echo or a bell stroke that the music has prepared.",
      "作回声，或如钟一响，而音乐先已铺垫。",
    ),
    remedy: phrase(
      "Stop the note on another string, or let the whole phrase be harmonics.",
      "改在别的弦上按，或让整句都用泛音。",
    ),
    cures: ["fingering", "other-sound"],
    sources: [COMMON_PRACTICE],
    unit: "notes",
    parameters: {
      fewest: {
        default: 2,
        unit: "notes",
        doc: phrase("so many harmonics in a row make a colour of their own", "连着这么多个泛音，才自成一种音色"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("a phrase of harmonics", "一句泛音"),
        kind: "passes",
        melody: "D4 A4^ D5^ A4^ D4",
        fingering: ["da 7.9 tiao 3", "fan 9 gou 2", "fan 7 tiao 7", "fan 9 gou 2", "da 7 tiao 7"],
        finds: [],
      },
      {
        shows: phrase("one between two stopped notes", "两个按音之间夹一个泛音"),
        kind: "breaks",
        melody: "E4 A4^ E4",
        fingering: ["da 5 tiao 5", "fan 9 tiao 7", "da 5 tiao 5"],
        finds: [
          [
            2,
            "caution",
            phrase(
              "A4 as the harmonic at hui 9 of string 7 stands alone in a line of other sounds (harmonics come at least 2 in a row).",
              "A4（七弦九徽泛音）孤零零夹在别的音色之间（泛音至少连着2个）。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the last note of the piece", "全曲最后一个音"),
        kind: "exception",
        melody: "E4 G4 A4^",
        fingering: ["da 5 tiao 5", "da 5 tiao 6", "fan 9 tiao 7"],
        finds: [],
      },
      {
        shows: phrase("beside its own octave", "紧挨着自己的八度"),
        kind: "exception",
        melody: "E3 D3 D4^ E3",
        fingering: ["ming 9 gou 5", "san tiao 7", "fan 7 tiao 7", "ming 9 gou 5"],
        finds: [],
      },
    ],
  },
  (values) => {
    const isHarmonic = ({ lefts }: Line, at: number): boolean => {
      const placed = lefts[at]?.placed ?? [];
      return placed.length > 0 && placed.every(({ sound }) => sound === "harmonic");
    };

    /** Whether something is placed at a moment: a note out of reach is no neighbour. */
    const isPlaced = ({ lefts }: Line, at: number): boolean => (lefts[at]?.placed.length ?? 0) > 0;

    /** The last note of the piece, of a repeated section, under a fermata, or before a rest. */
    const closes = (line: Line, at: number): boolean => {
      const next = line.moments[at + 1];
      if (next === undefined || next.rested) return true;
      if (line.moments[at]?.notes.some(({ source }) => source.marks.fermata)) return true;
      const bar = line.score.bars[barAt(line, at)];
      const nextBar = line.score.bars[barAt(line, at + 1)];
      return bar !== nextBar && (bar?.repeatTimes !== null || (nextBar?.repeatStart ?? false));
    };

    /** Whether an open or stopped note of the same name stands at a moment. */
    const answers = (line: Line, at: number, to: number): boolean =>
      line.lefts[at]?.placed.some(
        ({ sound, note }) =>
          sound !== "harmonic" &&
          line.moments[to]?.notes.some(
            (other) => (other.semitone - (line.moments[at]?.notes[note]?.semitone ?? Number.NaN)) % 12 === 0,
          ),
      ) ?? false;

    const finding = (line: Line, run: Run): PassageFinding => {
      const length = run.to - run.from + 1;
      const [placed] = line.lefts[run.from]?.placed ?? [];
      const place = placed === undefined ? phrase("a harmonic", "泛音") : placeWords(placed);
      const pitch = pitchesAt(line, run.from);
      return {
        notes: idsOf(line, run),
        severity: "caution",
        measured: length,
        limit: values.fewest,
        message: phraseOf({
          en: (say) =>
            `${pitch} as ${say(place)} stands alone in a line of other sounds (harmonics come at least ${values.fewest} in a row).`,
          zh: (say) => `${pitch}（${say(place)}）孤零零夹在别的音色之间（泛音至少连着${values.fewest}个）。`,
        }),
      };
    };

    return {
      reach: "passage",
      look: (line) => {
        const runs = runsWhere(line.moments.length, (at) => isHarmonic(line, at) && isHarmonic(line, at - 1)).filter(
          (run) => isHarmonic(line, run.from),
        );
        const alone = runs.filter(
          ({ from, to }) =>
            to - from + 1 < values.fewest &&
            isPlaced(line, from - 1) &&
            isPlaced(line, to + 1) &&
            !closes(line, to) &&
            !answers(line, from - 1, from) &&
            !answers(line, to + 1, to),
        );
        return { looked: runs.length, findings: alone.map((run) => finding(line, run)) };
      },
    };
  },
);
