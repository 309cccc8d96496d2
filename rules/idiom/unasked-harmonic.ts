// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { defineRule } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** What is measured: a harmonic that was not asked for, or one that was asked for and is missing. */
const UNASKED = 1;
const NOT_PLAYED = 2;

export default defineRule(
  {
    id: "unasked-harmonic",
    kind: "idiom",
    title: phrase("A harmonic that nobody asked for, or one that is missing", "没人要求的泛音，或漏掉的泛音"),
    topic: phrase("harmonics that are asked for or not", "泛音与谱上要求不合"),
    principle: phrase(
      "Harmonics are a colour that the composer chooses: they stand where the score asks for them, and only there.",
      "泛音是作曲者选的音色：谱上要求处才有，别处没有。",
    ),
    why: phrase(
      "The bell-like touch is heard as a new voice. One that comes only because its pitch was convenient breaks the line; one that is left out takes away what was meant.",
      "轻点而出的钟声，听来是另一种声音。只图音高方便而用，会打断旋律；漏掉不弹，就失了原意。",
    ),
    whenRight: phrase(
      "Very high notes exist as harmonics alone; and a composer who likes the effect has only to mark it.",
      "极高的音只有泛音；作曲者若喜欢这效果，标上就是。",
    ),
    remedy: phrase(
      "Stop the note or play it open; or mark the whole phrase as harmonics.",
      "改为按音或散音；或把整句标为泛音。",
    ),
    cures: ["fingering", "octave"],
    sources: [COMMON_PRACTICE],
    unit: null,
    parameters: {
      unasked: {
        default: 0.6,
        unit: "spare moves",
        doc: phrase("a harmonic that neither score nor writer asked for", "谱上和作者都没有要求的泛音"),
        evidence: "our judgement",
      },
      notPlayed: {
        default: 2,
        unit: "spare moves",
        doc: phrase("a note marked as a harmonic and played otherwise", "标为泛音却不弹泛音的音"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("a printed harmonic sign, played so", "印有泛音记号，照弹"),
        kind: "passes",
        melody: "D3^ G3^",
        fingering: ["fan 7 gou 2", "fan 7 tiao 4"],
        finds: [],
      },
      {
        shows: phrase("the sign is printed, the note is played open", "印有泛音记号，却弹散音"),
        kind: "breaks",
        melody: "D3^",
        fingering: ["san tiao 7"],
        finds: [
          [1, "problem", phrase("D3 is marked as a harmonic and played san tiao 7.", "D3标为泛音，却弹作“散挑七”。")],
        ],
      },
      {
        shows: phrase("no sign, but this pitch exists as a harmonic only", "没有记号，但这个音高只有泛音才有"),
        kind: "breaks",
        melody: "A5",
        fingering: ["-"],
        finds: [
          [
            1,
            "caution",
            phrase(
              "A5 is played as a harmonic, fan 13 tiao 5, and nothing in the score asks for one.",
              "A5弹作泛音“泛十三挑五”，谱上并没有要求。",
            ),
          ],
        ],
      },
      {
        shows: phrase(
          "no sign, but the fingering in the score says fan: that asks for it",
          "没有记号，但谱上的指法写了泛：这就是要求",
        ),
        kind: "exception",
        melody: "D3 G3",
        fingering: ["fan 7 gou 2", "fan 7 tiao 4"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: null,
    breaks: "above",
    measure: (placed, _missing, note) => {
      if (placed === null) return Number.NaN;
      if (placed.sound === "harmonic") return note.harmonicAsked ? 0 : UNASKED;
      return note.harmonicAsked ? NOT_PLAYED : Number.NaN;
    },
    charge: (measured) => (measured === UNASKED ? values.unasked : measured === NOT_PLAYED ? values.notPlayed : 0),
    message: ({ measured, note, spoken }) =>
      measured === UNASKED
        ? phrase(
            `${note} is played as a harmonic, ${spoken}, and nothing in the score asks for one.`,
            `${note}弹作泛音“${inCharacters(spoken)}”，谱上并没有要求。`,
          )
        : phrase(
            `${note} is marked as a harmonic and played ${spoken}.`,
            `${note}标为泛音，却弹作“${inCharacters(spoken)}”。`,
          ),
  }),
);
