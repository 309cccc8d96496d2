// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { defineRule } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "plucked-slur",
    kind: "idiom",
    title: phrase("A pluck where a slur or a slide is written", "写着连线或走音，却又弹弦"),
    topic: phrase("plucks where a slur or a slide is written", "连线、走音处的弹弦"),
    principle: phrase(
      "A slur over two or three notes in one direction is played with one pluck: the finger slides on, and the string goes on sounding.",
      "连线下两三个同向的音，只弹一次：手指走过去，弦声不断。",
    ),
    why: phrase(
      "A new pluck inside the slur cuts the breath that the slur draws; sliding is what the instrument does best.",
      "连线里再弹一次，就断了这口气；走音正是琴的长处。",
    ),
    whenRight: phrase(
      "Where the slur only marks a phrase, where the slide would begin on an open string, or where a word of the text wants every note clear.",
      "连线只划乐句；走音要从散音开始；或文字要求每个音都清楚。",
    ),
    remedy: phrase(
      "Stop both notes on one string with one finger and slide (shang or xia), or pull off to the open string.",
      "两个音用同一指按在同一根弦上走过去（上或下），或带起散音。",
    ),
    sources: [COMMON_PRACTICE],
    unit: null,
    parameters: {
      pluckedAnew: {
        default: 0.8,
        unit: "spare moves",
        doc: phrase("a pluck on a later note of a short slur that can be slid", "短连线里本可走音的后一个音，却又弹弦"),
        evidence: "common practice",
      },
      shortestSlide: {
        default: 0.12,
        unit: "s",
        doc: phrase(
          "a slide needs this long; nothing is asked of faster notes",
          "走音至少要这么长时间；更快的音不作要求",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("the slur is slid", "连线处走音"),
        kind: "passes",
        melody: "(F2 G2)",
        fingering: ["ming 10 gou 1", "shang 9"],
        finds: [],
      },
      {
        shows: phrase("the second note is plucked", "第二个音又弹弦"),
        kind: "breaks",
        melody: "(F2 G2)",
        fingering: ["ming 10 gou 1", "ming 9 tiao 1"],
        finds: [
          [
            2,
            "caution",
            phrase(
              "G2 is to be reached from the note before by the left hand alone, and is plucked anew: ming 9 tiao 1.",
              "G2该由左手从前一个音接过来，却又弹了一次：“名九挑一”。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a slur over four notes is phrasing", "四个音的连线只是分句"),
        kind: "exception",
        melody: "(F2 G2 A2 C3)",
        fingering: ["ming 10 gou 1", "ming 9 tiao 1", "san gou 5", "san tiao 6"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: null,
    breaks: "above",
    measure: (placed, _missing, note, moment, left) => {
      if (placed === null || moment.asks === null || moment.notes.length > 1 || note.harmonicAsked) return Number.NaN;
      if (moment.rested || moment.gapSeconds < values.shortestSlide) return Number.NaN;
      return moment.asks !== "slur" && left.arrival === "plucked" ? 1 : 0;
    },
    charge: (measured) => measured * values.pluckedAnew,
    message: ({ note, spoken }) =>
      phrase(
        `${note} is to be reached from the note before by the left hand alone, and is plucked anew: ${spoken}.`,
        `${note}该由左手从前一个音接过来，却又弹了一次：“${inCharacters(spoken)}”。`,
      ),
  }),
);
