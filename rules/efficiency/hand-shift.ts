// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { handDistanceCm, thumbToRingCm } from "../../src/model/hand-distance.js";
import type { HandGap, Left, Placed } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** Strings between two places that each have a finger on them, 0 where one has none. */
function stringsBetween(a: Placed | null, b: Placed | null): number {
  if (a === null || b === null || a.finger === null || b.finger === null) return 0;
  return Math.abs(a.string - b.string);
}

/** One finger stays down on its string. */
function glides(a: Placed | null, b: Placed | null): boolean {
  return a !== null && b !== null && a.finger !== null && a.finger === b.finger && a.string === b.string;
}

export default defineRule(
  {
    id: "hand-shift",
    kind: "efficiency",
    title: phrase("The left hand travels along the strings", "左手沿弦移动"),
    topic: phrase("shifts of the hand", "换把"),
    principle: phrase(
      "The hand stays in one place as long as the notes allow: ring and thumb share the work, and another string saves a move. Gliding on one string costs less than lifting, moving under an open string less still.",
      "只要音允许，手就留在原处：名指与大指分工，换一根弦也能省一次移动。在一根弦上走，比抬手省；趁散音在响时移手，更省。",
    ),
    why: phrase(
      "Every journey takes time, risks the next place and lets the sound break.",
      "每移一次都要时间，下一处有按偏的风险，声音也容易断。",
    ),
    whenRight: phrase(
      "A glide that is part of the melody, a move hidden under an open string or a harmonic, a rest.",
      "上下走音本是旋律的一部分；移手藏在散音或泛音里；有休止。",
    ),
    remedy: phrase(
      "Take the note on another string near the hand, or let ring finger and thumb share two places about 4 to 10 cm apart.",
      "改用手边的另一根弦，或让名指与大指分管相距约4到10厘米的两处。",
    ),
    cures: ["fingering", "tempo"],
    sources: [COMMON_PRACTICE],
    movement: true,
    unit: "cm",
    parameters: {
      first: {
        default: 0.3,
        unit: "spare moves",
        doc: phrase("any move beyond the free distance", "超出不费力的距离，只要移动就算"),
        evidence: "common practice",
      },
      perCm: {
        default: 0.05,
        unit: "spare moves per cm",
        doc: phrase("each cm beyond the free distance", "超出不费力的距离后，每厘米"),
        evidence: "common practice",
      },
      glide: {
        default: 0.5,
        unit: "share",
        doc: phrase("one finger staying down on one string", "同一指不离弦"),
        evidence: "our judgement",
      },
      askedSlide: {
        default: 0.2,
        unit: "share",
        doc: phrase("a slide that the score asks for: the glide is the melody", "谱上要的走音：走音就是旋律"),
        evidence: "our judgement",
      },
      underOpen: {
        default: 0.35,
        unit: "share",
        doc: phrase("while an open string or a harmonic sounds", "趁散音或泛音在响时"),
        evidence: "our judgement",
      },
      perString: {
        default: 0.04,
        unit: "spare moves",
        doc: phrase("across the strings, each after the first", "横过琴弦，第一根以后的每一根"),
        evidence: "our judgement",
      },
      perSpeed: {
        default: 0.03,
        unit: "spare moves per cm/s",
        doc: phrase("above the hand's comfortable speed", "超过手从容的速度"),
        evidence: "our judgement",
      },
      tooFast: {
        default: 0.5,
        unit: "spare moves per pluck/s",
        doc: phrase("plucks reached by a move, above the hand's limit", "移手才够得着的弹弦，超过手的限度"),
        evidence: "our judgement",
      },
      crossed: {
        default: 1,
        unit: "cm",
        doc: phrase(
          "the ring finger on the bridge side of the thumb by so much, within the hand's span: crossed-hand charges the way",
          "先后按时名指越到大指的岳山一侧这么多而不出手的跨度：这段路由两指交叉一条计算",
        ),
        evidence: "our judgement",
      },
      blockedSpeed: {
        default: 200,
        unit: "cm/s",
        doc: phrase("no hand arrives in time", "这样的速度，谁的手也赶不到"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("ring and thumb share hui 10 and 9: the hand stays", "名指与大指分管十徽和九徽：手不动"),
        kind: "passes",
        melody: "F2 G2",
        fingering: ["ming 10 gou 1", "da 9 tiao 1"],
        finds: [],
      },
      {
        shows: phrase("one finger goes from hui 9 to hui 13.1", "一指从九徽移到徽外"),
        kind: "breaks",
        melody: "A2 E2",
        fingering: ["ming 9 gou 2", "ming 13.1 gou 2"],
        finds: [
          [
            2,
            "caution",
            phrase(
              "The hand travels 24.4 cm along the strings in 1 s before ming 13.1 gou 2.",
              "弹“名外勾二”之前，左手要在1秒内沿弦移动24.4厘米。",
            ),
          ],
        ],
      },
      {
        shows: phrase(
          "the ring finger passes the thumb: that is a crossing, told by itself",
          "名指越过大指：那是交叉，另有一条来说",
        ),
        kind: "exception",
        melody: "C3 D3",
        fingering: ["da 10 gou 4", "ming 9 tiao 4"],
        finds: [],
      },
      {
        shows: phrase("a shorter journey hides under an open string", "较短的移动藏在散音里"),
        kind: "exception",
        melody: "A2 C2 G2",
        fingering: ["ming 9 gou 2", "san gou 1", "ming 10 gou 2"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const { hand } = setting;
    const beyond = (cm: number): number => Math.max(0, cm - hand.freeShiftCm);
    /** A slide out of a grace note is as quick as it likes. */
    const isOrnament = (to: Left, gap: HandGap): boolean => gap.ornament && to.arrival === "slid";

    /** Thumb and ring finger in turn have changed sides within one hand. */
    const crosses = (from: Left, to: Left): boolean => {
      if (from.second !== null || to.second !== null) return false;
      const cm = thumbToRingCm(from.first, to.first);
      return cm < -values.crossed && cm >= -hand.spanLimitCm;
    };

    /** What is left of a move's charge when it is part of the music, glides, or hides under another sound. */
    const share = (from: Left, to: Left, gap: HandGap): number => {
      const a = from.first;
      if (to.arrival === "slid" && (gap.asked || gap.ornament)) return values.askedSlide;
      if (glides(a, to.first)) return values.glide;
      const hidden = a !== null && a.sound !== "stopped" && (from.second === null || from.second.sound !== "stopped");
      return hidden ? values.underOpen : 1;
    };

    return {
      reach: "hand-move",
      limit: hand.freeShiftCm,
      breaks: "above",
      measure: (from, to, gap) => (gap.rested ? Number.NaN : handDistanceCm(from, to, setting)),
      blocks: (cm, _from, to, gap) => !isOrnament(to, gap) && beyond(cm) > 0 && cm / gap.seconds > values.blockedSpeed,
      charge: (cm, from, to, gap) => {
        const across = values.perString * Math.max(0, stringsBetween(from.first, to.first) - 1);
        if (beyond(cm) === 0) return across;
        const far = crosses(from, to) ? 0 : values.first + values.perCm * beyond(cm);
        const hurry = isOrnament(to, gap)
          ? 0
          : values.perSpeed * Math.max(0, cm / gap.seconds - hand.comfortableCmPerSecond);
        const quick =
          to.arrival === "plucked" ? values.tooFast * Math.max(0, 1 / gap.seconds - hand.plucksPerSecondWithShift) : 0;
        return far * share(from, to, gap) + across + hurry + quick;
      },
      message: (sight) =>
        phrase(
          `The hand travels ${plain(sight.measured)} cm along the strings in ${plain(sight.seconds, 2)} s before ${sight.spoken}.`,
          `弹“${inCharacters(sight.spoken)}”之前，左手要在${plain(sight.seconds, 2)}秒内沿弦移动${plain(sight.measured)}厘米。`,
        ),
    };
  },
);
