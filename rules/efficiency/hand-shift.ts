// SPDX-License-Identifier: AGPL-3.0-or-later
import type { HandGap, Left, Placed } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { handDistanceCm, thumbToRingCm } from "../shared/hand-distance.js";

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
    title: "The left hand travels along the strings",
    topic: "shifts of the hand",
    principle:
      "The hand stays in one place as long as the notes allow: ring and thumb share the work, and another string saves a move. Gliding on one string costs less than lifting, moving under an open string less still.",
    why: "Every journey takes time, risks the next place and lets the sound break.",
    whenRight: "A glide that is part of the melody, a move hidden under an open string or a harmonic, a rest.",
    remedy:
      "Take the note on another string near the hand, or let ring finger and thumb share two places about 4 to 10 cm apart.",
    cures: ["fingering", "tempo"],
    sources: ["common practice, no source"],
    movement: true,
    unit: "cm",
    parameters: {
      first: {
        default: 0.3,
        unit: "spare moves",
        doc: "any move beyond the free distance",
        evidence: "common practice",
      },
      perCm: {
        default: 0.05,
        unit: "spare moves per cm",
        doc: "each cm beyond the free distance",
        evidence: "common practice",
      },
      glide: { default: 0.5, unit: "share", doc: "one finger staying down on one string", evidence: "our judgement" },
      askedSlide: {
        default: 0.2,
        unit: "share",
        doc: "a slide that the score asks for: the glide is the melody",
        evidence: "our judgement",
      },
      underOpen: {
        default: 0.35,
        unit: "share",
        doc: "while an open string or a harmonic sounds",
        evidence: "our judgement",
      },
      perString: {
        default: 0.04,
        unit: "spare moves",
        doc: "across the strings, each after the first",
        evidence: "our judgement",
      },
      perSpeed: {
        default: 0.03,
        unit: "spare moves per cm/s",
        doc: "above the hand's comfortable speed",
        evidence: "our judgement",
      },
      tooFast: {
        default: 0.5,
        unit: "spare moves per pluck/s",
        doc: "plucks reached by a move, above the hand's limit",
        evidence: "our judgement",
      },
      crossed: {
        default: 1,
        unit: "cm",
        doc: "the ring finger on the bridge side of the thumb by so much, within the hand's span: crossed-hand charges the way",
        evidence: "our judgement",
      },
      blockedSpeed: { default: 200, unit: "cm/s", doc: "no hand arrives in time", evidence: "our judgement" },
    },
    examples: [
      {
        shows: "ring and thumb share hui 10 and 9: the hand stays",
        kind: "passes",
        melody: "F2 G2",
        fingering: ["ming 10 gou 1", "da 9 tiao 1"],
        finds: [],
      },
      {
        shows: "one finger goes from hui 9 to hui 13.1",
        kind: "breaks",
        melody: "A2 E2",
        fingering: ["ming 9 gou 2", "ming 13.1 gou 2"],
        finds: [[2, "caution", "The hand travels 24.4 cm along the strings in 1 s before ming 13.1 gou 2."]],
      },
      {
        shows: "the ring finger passes the thumb: that is a crossing, told by itself",
        kind: "exception",
        melody: "C3 D3",
        fingering: ["da 10 gou 4", "ming 9 tiao 4"],
        finds: [],
      },
      {
        shows: "a shorter journey hides under an open string",
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
        `The hand travels ${plain(sight.measured)} cm along the strings in ${plain(sight.seconds, 2)} s before ${sight.spoken}.`,
    };
  },
);
