// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { defineRule } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "tip-and-joint",
    kind: "efficiency",
    title: phrase("One finger lifts or turns at one place", "一指在原处抬起或转动"),
    topic: phrase("lifting or turning a finger in place", "原处抬指转指"),
    principle: phrase(
      "At one place along the strings the thumb holds the inner string with its joint and the next outer one with its tip, and changes between them without moving; the ring finger does the same over up to three strings.",
      "沿弦同一处，大指用指节按内侧的弦，用指尖按外侧的邻弦，不必移动就能互换；名指也能这样管到三根弦。",
    ),
    why: phrase(
      "A finger that lifts to the next string breaks the sound; tip and joint carry it over.",
      "指头抬到邻弦上，声音就断；指尖与指节互换，声音就接得上。",
    ),
    whenRight: phrase(
      "When the break is wanted as a breath, or the notes are slow enough to hide it.",
      "正要这一断作气口，或音够慢，听不出来。",
    ),
    remedy: phrase(
      "Hold the inner string with the joint (jie) and the outer one with the tip, both at once.",
      "内侧的弦用指节，外侧的弦用指尖，两根同时按住。",
    ),
    sources: [COMMON_PRACTICE],
    movement: true,
    unit: null,
    parameters: {
      hop: {
        default: 0.9,
        unit: "spare moves",
        doc: phrase("the same contact lifted across", "用同一部位抬过去"),
        evidence: "common practice",
      },
      jointToJoint: {
        default: 0.3,
        unit: "spare moves",
        doc: phrase("ring joint to ring joint, one string on", "名指指节换到邻弦的指节"),
        evidence: "our judgement",
      },
      turn: {
        default: 0.3,
        unit: "spare moves",
        doc: phrase("change of contact on one string", "同一弦上换接触的部位"),
        evidence: "our judgement",
      },
      samePlaceCm: {
        default: 0.7,
        unit: "cm",
        doc: phrase("along the string, still one place", "沿弦相差这么多，还算同一处"),
        evidence: "our judgement",
      },
      ringReach: {
        default: 2,
        unit: "strings",
        doc: phrase(
          "inside the tip that the ring joint covers; the thumb's covers one",
          "名指指节能管到指尖以内几根弦；大指的只管一根",
        ),
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: phrase(
          "thumb joint on string 7, then its tip on string 6 at the same place",
          "大指指节按七弦，再用指尖按同处的六弦",
        ),
        kind: "passes",
        melody: "A3 G3",
        tempo: 120,
        fingering: ["da jie 9 tiao 7", "da 9 mo 6"],
        finds: [],
      },
      {
        shows: phrase("the thumb's tip hops from string 7 to string 6", "大指指尖从七弦跳到六弦"),
        kind: "breaks",
        melody: "A3 G3",
        tempo: 120,
        fingering: ["da 9 tiao 7", "da 9 mo 6"],
        finds: [
          [
            2,
            "caution",
            phrase(
              "One finger lifts from da 9 tiao 7 to da 9 mo 6 at one place, so the sound breaks between the strings.",
              "从“大九挑七”到“大九抹六”，同一指在原处抬到另一根弦上，两弦之间声音就断了。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the thumb turns from joint to tip on one string", "大指在同一弦上由指节转到指尖"),
        kind: "breaks",
        melody: "A3 A3",
        tempo: 120,
        fingering: ["da jie 9 tiao 7", "da 9 mo 7"],
        finds: [
          [
            2,
            "note",
            phrase(
              "From da jie 9 tiao 7 to da 9 mo 7 one finger turns or steps aside, which may break the sound a little.",
              "从“大节九挑七”到“大九抹七”，同一指要转一下或挪一下，声音可能略断。",
            ),
          ],
        ],
      },
      {
        shows: phrase("slow notes give the finger time", "音慢，手指来得及"),
        kind: "exception",
        melody: "A3:4 G3",
        fingering: ["da 9 tiao 7", "da 9 mo 6"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "hand-move",
    limit: null,
    breaks: "above",
    measure: (from, to, gap) => {
      const a = from.first;
      const b = to.first;
      if (gap.silent || from.second !== null || to.second !== null || a === null || b === null) return Number.NaN;
      if (a.finger === null || a.finger !== b.finger || to.arrival !== "plucked") return Number.NaN;
      if (a.string === b.string) return a.contact === b.contact ? Number.NaN : values.turn;
      const apart = Math.abs(a.string - b.string);
      if (Math.abs(a.cm - b.cm) > values.samePlaceCm || apart > values.ringReach) return Number.NaN;
      const outer = a.string < b.string ? a : b;
      const inner = outer === a ? b : a;
      const reach = a.finger === "ring" ? values.ringReach : 1;
      if (outer.contact === "tip" && inner.contact === "joint" && apart <= reach) return 0;
      if (a.finger === "ring" && apart === 1 && a.contact === "joint" && b.contact === "joint")
        return values.jointToJoint;
      return values.hop;
    },
    charge: (measured, _from, _to, gap) => measured * slowing(gap.seconds, gap.rested, 0),
    message: (sight) =>
      sight.measured < values.hop
        ? phrase(
            `From ${sight.spokenBefore} to ${sight.spoken} one finger turns or steps aside, which may break the sound a little.`,
            `从“${inCharacters(sight.spokenBefore)}”到“${inCharacters(sight.spoken)}”，同一指要转一下或挪一下，声音可能略断。`,
          )
        : phrase(
            `One finger lifts from ${sight.spokenBefore} to ${sight.spoken} at one place, so the sound breaks between the strings.`,
            `从“${inCharacters(sight.spokenBefore)}”到“${inCharacters(sight.spoken)}”，同一指在原处抬到另一根弦上，两弦之间声音就断了。`,
          ),
  }),
);
