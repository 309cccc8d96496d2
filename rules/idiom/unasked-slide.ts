// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { defineRule } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "unasked-slide",
    kind: "idiom",
    title: phrase("A left-hand sound that nothing asks for", "谱上没有要求，却由左手出声"),
    topic: phrase("left-hand sounds that nothing asks for", "谱上没要求的左手出声"),
    principle: phrase(
      "A note without a slur or a slide mark has its own pluck. Sliding, pulling off and tapping belong where the score joins notes.",
      "没有连线或走音记号的音，各弹一次。走音、带起、罨，用在谱上相连的音之间。",
    ),
    why: phrase(
      "The left hand alone sounds softer and blurs the beginning of the note: the composer hears a slur that was never written.",
      "单靠左手，声音较轻，起音也模糊：作曲者会听到一条没写过的连线。",
    ),
    whenRight: phrase(
      "In notes too quick to be plucked one by one, or where a player ornaments freely and the composer agrees.",
      "音太快，来不及逐个弹；或演奏者自行润饰，作曲者也同意。",
    ),
    remedy: phrase(
      "Pluck the note; or put a slur over both if the joined sound is welcome.",
      "这个音改为弹出；若喜欢相连的效果，就给两个音加上连线。",
    ),
    sources: [COMMON_PRACTICE],
    unit: null,
    parameters: {
      slid: {
        default: 0.8,
        unit: "spare moves",
        doc: phrase("a slid note without slur or slide mark", "没有连线也没有走音记号，却用走音"),
        evidence: "our judgement",
      },
      sounded: {
        default: 1,
        unit: "spare moves",
        doc: phrase("a note pulled off or tapped without a slur", "没有连线，却用带起或罨"),
        evidence: "our judgement",
      },
      soundedInSlur: {
        default: 0.3,
        unit: "spare moves",
        doc: phrase(
          "a note pulled off or tapped under a slur, where a slide would be smoother",
          "连线下用带起或罨，而走音会更顺",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("a slide under a slur", "连线下走音"),
        kind: "passes",
        melody: "(F2 G2)",
        fingering: ["ming 10 gou 1", "shang 9"],
        finds: [],
      },
      {
        shows: phrase(
          "eight notes a second without a slur: the left hand has to help",
          "每秒八个音而没有连线：左手只好帮忙",
        ),
        kind: "breaks",
        melody: "F2:1/8 G2:1/8 F2:1/8 G2:1/8",
        fingering: ["ming 10 gou 1", "-", "ming 10 tiao 1", "-"],
        finds: [
          [
            2,
            "problem",
            phrase(
              "G2 is sounded without a pluck, yan 9, and neither a slur nor a slide mark asks for that.",
              "G2没有弹弦，由左手“罨九”出声，谱上却没有连线或走音记号。",
            ),
          ],
          [
            4,
            "problem",
            phrase(
              "G2 is sounded without a pluck, yan 9, and neither a slur nor a slide mark asks for that.",
              "G2没有弹弦，由左手“罨九”出声，谱上却没有连线或走音记号。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a slur down to the open string, pulled off", "连线向下到散音，用带起"),
        kind: "breaks",
        melody: "(D3 G2)",
        fingering: ["ming 9 gou 4", "-"],
        finds: [
          [
            2,
            "note",
            phrase(
              "G2 is joined to the note before by the left hand alone, dai qi: softer than a pluck, and less closely than by a slide.",
              "G2只靠左手“带起”与前音相连：比弹的轻，也不如走音接得紧。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the writer's own word shang asks for the slide", "写谱者自己写了“上”，就是要走音"),
        kind: "exception",
        melody: "F2 G2",
        fingering: ["ming 10 gou 1", "shang 9"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: null,
    breaks: "above",
    measure: (placed, _missing, note, moment, left) => {
      if (placed === null || left.arrival === "plucked") return Number.NaN;
      const { given } = note.source;
      if (given.written && given.arrival === left.arrival) return 0;
      if (left.arrival === "slid") return moment.asks === null ? values.slid : 0;
      if (moment.asks === "pull-off" && left.arrival === "pulled-off") return 0;
      return moment.asks === null ? values.sounded : values.soundedInSlur;
    },
    charge: (measured) => measured,
    message: ({ measured, note, spoken }) =>
      measured === values.soundedInSlur
        ? phrase(
            `${note} is joined to the note before by the left hand alone, ${spoken}: softer than a pluck, and less closely than by a slide.`,
            `${note}只靠左手“${inCharacters(spoken)}”与前音相连：比弹的轻，也不如走音接得紧。`,
          )
        : phrase(
            `${note} is sounded without a pluck, ${spoken}, and neither a slur nor a slide mark asks for that.`,
            `${note}没有弹弦，由左手“${inCharacters(spoken)}”出声，谱上却没有连线或走音记号。`,
          ),
  }),
);
