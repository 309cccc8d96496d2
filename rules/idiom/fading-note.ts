// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { RING_PARAMETERS, ringSeconds } from "./ring-time.js";

export default defineRule(
  {
    id: "fading-note",
    kind: "idiom",
    title: phrase("A note longer than its sound", "时值比余音长"),
    topic: phrase("notes that fade early", "余音不够长的音"),
    principle: phrase(
      "A plucked note fades: an open string rings longest, then the harmonic and the thumb's nail; other fingers, high places and slid notes fade sooner.",
      "弹出的音随即衰减：散音最长，其次是泛音和大指甲侧的按音；其他手指、靠近岳山的高音位和走音走到的音消失得更早。",
    ),
    why: phrase(
      "What is written as one long tone is heard as a short tone and a silence.",
      "写的是一个长音，听到的却是一个短音加一段空白。",
    ),
    whenRight: phrase(
      "Where the silence is part of the music; where vibrato or a slide keeps a fading tone alive; at the end of a piece.",
      "空白本身就是音乐；有吟猱或走音让余音延续；或在全曲末尾。",
    ),
    remedy: phrase(
      "Pluck again, write a shorter value, or take the note an octave lower or on an open string.",
      "再弹一次，或写短些，或移低八度，或改用散音。",
    ),
    cures: ["fingering", "tempo", "octave"],
    sources: [
      phrase(
        "Penttinen, Pakarinen, Välimäki, Laurson, Li, Leman, J. Acoust. Soc. Am. 120(6), 2006 (abstract): tones stopped by the fingertip fade sooner than those stopped by the nail",
        "Penttinen, Pakarinen, Välimäki, Laurson, Li, Leman, J. Acoust. Soc. Am. 120(6), 2006（摘要）：指肉按的音比指甲按的音消失得早",
      ),
      phrase(
        "Waltham, Lan, Koster, as told in Physics Today, 2016: low notes are sonorous, high stopped ones short",
        "Waltham, Lan, Koster，据Physics Today，2016：低音浑厚，高处的按音短促",
      ),
      phrase(
        "the seconds are our judgement: no measured times are published",
        "各项秒数是我们的判断：没有公开发表的实测时间",
      ),
    ],
    unit: "s",
    parameters: {
      ...RING_PARAMETERS,
      slid: {
        default: 0.6,
        unit: "of the plucked time",
        doc: phrase("a note that is slid to lives on what its pluck left", "走音走到的音只靠前一弹的余音，按此折算"),
        evidence: "our judgement",
      },
      faded: {
        default: 0.4,
        unit: "spare moves",
        doc: phrase("for each further ring time that the note is to last", "时值每多出一个余音时间，计此数"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("four seconds on an open string", "散音上四秒"),
        kind: "passes",
        melody: "C2:4",
        fingering: ["san gou 1"],
        finds: [],
      },
      {
        shows: phrase("six seconds under the ring finger", "名指按音六秒"),
        kind: "breaks",
        melody: "F2:6",
        fingering: ["ming 10 gou 1"],
        finds: [
          [
            1,
            "caution",
            phrase(
              "F2 is to last 6 s, but as ming 10 gou 1 it is heard for about 2.1 s.",
              "F2要响6秒，弹作“名十勾一”却只听得见约2.1秒。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a little longer than the sound: charged, not worth a word", "比余音略长：计代价，不必提"),
        kind: "exception",
        melody: "F2:3",
        fingering: ["ming 10 gou 1"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.ringOpen,
    breaks: "above",
    measure: (placed, _missing, _note, moment) => (placed === null ? Number.NaN : moment.durationSeconds),
    limitAt: (placed, _note, _moment, left) =>
      ringSeconds(placed, values) * (left.arrival === "slid" ? values.slid : 1),
    charge: (measured, placed, _note, _moment, left) => {
      if (placed === null) return 0;
      const ring = ringSeconds(placed, values) * (left.arrival === "slid" ? values.slid : 1);
      return Math.max(0, values.faded * (measured / ring - 1));
    },
    message: ({ note, measured, spoken, limit }) => {
      const heard = plain(limit ?? values.ringOpen);
      return phrase(
        `${note} is to last ${plain(measured)} s, but as ${spoken} it is heard for about ${heard} s.`,
        `${note}要响${plain(measured)}秒，弹作“${inCharacters(spoken)}”却只听得见约${heard}秒。`,
      );
    },
  }),
);
