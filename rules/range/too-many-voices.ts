// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";

export default defineRule(
  {
    id: "too-many-voices",
    kind: "range",
    title: phrase("More notes at once than two hands can sound", "同时的音太多，两手弹不过来"),
    topic: phrase("notes beyond what two hands can sound", "两手弹不全的音"),
    principle: phrase(
      "Two notes at once are one pinch of the right hand on two strings, with both places under one left hand. There is no third voice.",
      "两个音同时响，就是右手在两根弦上一撮，左手一只手按得到两处。没有第三个声部。",
    ),
    why: phrase(
      "Somebody has to leave a note out, and without a word from you the player decides which.",
      "总得舍掉一个音；谱上不说，就由演奏者去定。",
    ),
    whenRight: phrase(
      "Never at one instant; a chord that may be rolled can be written as separate notes.",
      "要在同一刻响，总归弹不出；容许分先后的和音，不妨写成一个个单音。",
    ),
    remedy: phrase(
      "Keep the outer two notes, roll the chord as single notes, or bring the two notes nearer by an octave.",
      "保留最外面的两个音，把和音拆成先后的单音，或用移八度让两个音靠近。",
    ),
    cures: ["fingering", "octave"],
    sources: [
      phrase(
        "pinches of two notes: the right-hand term list at yueqixuexi.com",
        "撮是两个音：yueqixuexi.com右手指法表",
      ),
      phrase("two notes at most: common practice, no source", "最多两个音：通行做法（无出处）"),
    ],
    unit: "notes",
    parameters: {
      most: {
        default: 2,
        unit: "notes",
        doc: phrase("what one pinch sounds", "一撮能出的音"),
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: phrase("the open octave of strings 1 and 6, a large pinch", "一弦六弦散音八度，大撮"),
        kind: "passes",
        melody: "C2+C3",
        fingering: ["san gou 1", "san tuo 6"],
        finds: [],
      },
      {
        shows: phrase("three notes: the middle one is left out", "三个音：舍去中间一个"),
        kind: "breaks",
        melody: "C2+G2+C3",
        fingering: [],
        finds: [
          [
            2,
            "blocker",
            phrase(
              "G2 is one of 3 notes at once; one pinch sounds 2, so this one is left out.",
              "3个音同时响，G2是其中之一；一撮只能出2个音，所以舍去这个音。",
            ),
          ],
        ],
      },
      {
        shows: phrase("two low notes that share the only string for both", "两个低音都只有同一根弦可弹"),
        kind: "breaks",
        melody: "C2+C#2",
        fingering: [],
        finds: [
          [
            1,
            "blocker",
            phrase(
              "C2 finds no string beside the other note: no single pinch sounds both with one left hand, so this one is left out.",
              "另一个音占了弦，C2就无弦可弹：左手一只手按着，一撮弹不出这两个音，所以舍去这个音。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same three notes one after the other", "同样三个音，一个接一个地弹"),
        kind: "exception",
        melody: "C2 G2 C3",
        fingering: ["san gou 1", "san gou 4", "san tiao 6"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.most,
    breaks: "above",
    measure: (placed, missing, _note, moment) => {
      if (placed !== null) return moment.notes.length > 1 ? 0 : Number.NaN;
      return missing?.cause === "voices" ? missing.amount : Number.NaN;
    },
    charge: () => 0,
    blocks: (measured) => measured >= values.most,
    message: (sight) =>
      sight.measured > values.most
        ? phrase(
            `${sight.note} is one of ${plain(sight.measured)} notes at once; one pinch sounds ${plain(values.most)}, so this one is left out.`,
            `${plain(sight.measured)}个音同时响，${sight.note}是其中之一；一撮只能出${plain(values.most)}个音，所以舍去这个音。`,
          )
        : phrase(
            `${sight.note} finds no string beside the other note: no single pinch sounds both with one left hand, so this one is left out.`,
            `另一个音占了弦，${sight.note}就无弦可弹：左手一只手按着，一撮弹不出这两个音，所以舍去这个音。`,
          ),
  }),
);
