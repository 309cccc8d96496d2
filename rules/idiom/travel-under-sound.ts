// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { Placed } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "travel-under-sound",
    kind: "idiom",
    title: phrase("One finger leaves a ringing note for another string", "音还在响，同一指就离弦去按另一根弦"),
    topic: phrase("leaving a note that rings", "离开还在响的音"),
    principle: phrase(
      "The finger that holds a note stays until the next one sounds. Ring finger and thumb take turns, so that one holds while the other moves.",
      "按住一个音的手指，等下一个音出来才离开。名指与大指轮流：一指按住，另一指移动。",
    ),
    why: phrase(
      "A finger that lifts off to stop another string ends its note early: the line has a hole where it should be joined.",
      "手指抬起去按另一根弦，前音就早断了：该连的地方有了缺口。",
    ),
    whenRight: phrase(
      "Where the gap is wanted as a breath or an accent, or in slow notes, where the old sound has faded by then.",
      "有意要这一口气或一个重音；或音很慢，前音到时已经消失。",
    ),
    remedy: phrase(
      "Take one of the two notes with the other finger, on an open string, or on the same string so that the finger can glide.",
      "两个音中改一个用另一指，或用散音，或按在同一根弦上让手指走过去。",
    ),
    cures: ["fingering", "tempo"],
    sources: [
      COMMON_PRACTICE,
      phrase(
        "a teaching essay by Mei Yueqiang, in a translation on the web: the finger stays on the old note until the new one sounds",
        "梅曰强的教学文章（见于网上的译文）：后音出声之前，手指留在前音上",
      ),
    ],
    movement: true,
    unit: "cm",
    parameters: {
      left: {
        default: 0.5,
        unit: "spare moves",
        doc: phrase("one finger changes string", "同一指换弦"),
        evidence: "common practice",
      },
      far: {
        default: 0.4,
        unit: "spare moves",
        doc: phrase(
          "more where it goes farther along the strings than the hand's comfortable span",
          "沿弦移动超过手的从容跨度时，另加此数",
        ),
        evidence: "common practice",
      },
      samePlaceCm: {
        default: 0.7,
        unit: "cm",
        doc: phrase(
          "along the strings, still one place: tip and joint can hold both",
          "沿弦相距不超过此数，仍算同一处：指尖与指节可以兼按",
        ),
        evidence: "our judgement",
      },
      samePlaceStrings: {
        default: 2,
        unit: "strings",
        doc: phrase("across, within reach of tip and joint", "跨这么多根弦以内，指尖与指节够得到"),
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: phrase("the thumb takes the next note while the ring finger holds", "名指按住，大指去按下一个音"),
        kind: "passes",
        melody: "D3 A3",
        tempo: 120,
        fingering: ["ming 9 gou 4", "da 7.9 tiao 6"],
        finds: [],
      },
      {
        shows: phrase("the ring finger leaves string 3 for string 5", "名指离开三弦去按五弦"),
        kind: "breaks",
        melody: "Bb2 E3",
        tempo: 120,
        fingering: ["ming 10 gou 3", "ming 9 tiao 5"],
        finds: [
          [
            2,
            "note",
            phrase(
              "One finger leaves ming 10 gou 3 while it rings and goes 9.2 cm along the strings to ming 9 tiao 5 on another string.",
              "“名十勾三”还在响，同一指就离开，沿弦移9.2厘米，去按另一根弦上的“名九挑五”。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the thumb goes straight across, too far for tip and joint", "大指横跨过去，指尖与指节兼顾不到"),
        kind: "breaks",
        melody: "A3 D3",
        tempo: 120,
        fingering: ["da jie 9 tiao 7", "da 9 gou 4"],
        finds: [
          [
            2,
            "note",
            phrase(
              "One finger leaves da jie 9 tiao 7 while it rings and reaches across to da 9 gou 4 on another string.",
              "“大节九挑七”还在响，同一指就离开，横跨过去，去按另一根弦上的“大九勾四”。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same with a three-second note: the sound has faded", "同样两个音，前音长三秒：声音已经消失"),
        kind: "exception",
        melody: "Bb2:3 E3",
        fingering: ["ming 10 gou 3", "ming 9 tiao 5"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    /** Whether one finger has to lift off the first place to stop the second. */
    const lifts = (from: Placed, to: Placed): boolean =>
      from.finger === to.finger &&
      (Math.abs(from.cm - to.cm) > values.samePlaceCm || Math.abs(from.string - to.string) > values.samePlaceStrings);

    return {
      reach: "hand-move",
      limit: null,
      breaks: "above",
      measure: (from, to, gap) => {
        const a = from.first;
        const b = to.first;
        if (gap.rested || gap.silent || to.chain > 0 || a === null || b === null) return Number.NaN;
        if (from.second !== null || to.second !== null || a.string === b.string) return Number.NaN;
        if (a.sound !== "stopped" || b.sound !== "stopped") return Number.NaN;
        return lifts(a, b) ? Math.abs(a.cm - b.cm) : 0;
      },
      charge: (measured, from, to, gap) => {
        if (from.first === null || to.first === null || !lifts(from.first, to.first)) return 0;
        const far = measured > setting.hand.comfortableSpanCm ? values.far : 0;
        return (values.left + far) * slowing(gap.seconds, gap.rested, 0);
      },
      message: (sight) => {
        const { spoken, spokenBefore, measured } = sight;
        const [way, wayInChinese] =
          measured > values.samePlaceCm
            ? [`goes ${plain(measured)} cm along the strings`, `沿弦移${plain(measured)}厘米`]
            : ["reaches across", "横跨过去"];
        return phrase(
          `One finger leaves ${spokenBefore} while it rings and ${way} to ${spoken} on another string.`,
          `“${inCharacters(spokenBefore)}”还在响，同一指就离开，${wayInChinese}，去按另一根弦上的“${inCharacters(spoken)}”。`,
        );
      },
    };
  },
);
