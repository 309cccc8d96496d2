// SPDX-License-Identifier: AGPL-3.0-or-later
import { WIDEST_SLIDE_SEMITONES } from "../../src/model/moments.js";
import type { HandGap, Left } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { RING_PARAMETERS, ringSeconds } from "./ring-time.js";

export default defineRule(
  {
    id: "overloaded-pluck",
    kind: "idiom",
    title: "Too much hangs on one pluck",
    topic: "what hangs on one pluck",
    principle:
      "One pluck carries one or two further notes of the left hand, three at most; a slide stays within a fifth, takes its time, and comes while the string still sounds.",
    why: "Every slid note is weaker than the one before. A long, late or hurried slide is heard as a scrape.",
    whenRight: "In slow music with a strong low pluck, or where a vanishing tone is the effect.",
    remedy: "Pluck again at this note.",
    cures: ["fingering", "tempo"],
    sources: ["common practice, no source"],
    unit: "notes",
    parameters: {
      ...RING_PARAMETERS,
      byCount: {
        default: [0, 0.2, 0.6],
        unit: "spare moves",
        doc: "the first, second and third note without a pluck",
        evidence: "common practice",
      },
      most: { default: 3, unit: "notes", doc: "more cannot be heard on one pluck", evidence: "common practice" },
      widest: {
        default: WIDEST_SLIDE_SEMITONES,
        unit: "semitones",
        doc: "the widest slide: a fifth",
        evidence: "common practice",
      },
      tooWide: { default: 1, unit: "spare moves", doc: "a wider slide", evidence: "our judgement" },
      shortest: { default: 0.12, unit: "s", doc: "a slide needs this long", evidence: "our judgement" },
      tooQuick: { default: 2, unit: "spare moves", doc: "a quicker slide", evidence: "our judgement" },
      tooLate: {
        default: 0.6,
        unit: "spare moves",
        doc: "a slide after the pluck has faded, so that its note is not heard",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "two notes slid after one pluck",
        kind: "passes",
        melody: "(D2 F2 G2)",
        fingering: ["ming 13.1 gou 1", "shang 10", "shang 9"],
        finds: [],
      },
      {
        shows: "four notes slid after one pluck",
        kind: "breaks",
        melody: "D2 F2 G2 F2 D2",
        tempo: 120,
        fingering: ["ming 13.1 gou 1", "shang 10", "shang 9", "xia 10", "xia 13.1"],
        finds: [
          [4, "caution", "With xia 10, 3 notes hang on one pluck; 3 are the most."],
          [5, "blocker", "With xia 13.1, 4 notes hang on one pluck; 3 are the most."],
        ],
      },
      {
        shows: "a slide over an octave, long after the pluck",
        kind: "breaks",
        melody: "D2:4 D3",
        fingering: ["ming 13.1 gou 1", "shang 6.4"],
        finds: [
          [2, "problem", "The slide to D3, shang 6.4, is wider than 7 semitones and comes when its pluck has faded."],
        ],
      },
      {
        shows: "a slide within a fifth, but later than the ring finger's tone lasts",
        kind: "breaks",
        melody: "F2:3 G2",
        fingering: ["ming 10 gou 1", "shang 9"],
        finds: [[2, "caution", "The slide to G2, shang 9, comes when its pluck has faded."]],
      },
      {
        shows: "a long tone pulled off to the open string: that sounds by itself",
        kind: "exception",
        melody: "(F2:4 C2)",
        fingering: ["ming 10 gou 1", "dai qi"],
        finds: [],
      },
    ],
  },
  (values) => {
    const tooWide = (from: Left, to: Left): boolean =>
      from.first !== null && to.first !== null && Math.abs(to.first.semitones - from.first.semitones) > values.widest;
    const tooLate = (from: Left, gap: HandGap): boolean =>
      from.first !== null && gap.sincePluckSeconds > ringSeconds(from.first, values);

    /** What is wrong with the slide itself, told back from the charge. */
    const faults = (notes: number, charge: number, seconds: number): string => {
      const extra = charge - (values.byCount[notes - 1] ?? 0) + 1e-6;
      const quick = seconds < values.shortest && extra >= values.tooQuick;
      const beside = extra - (quick ? values.tooQuick : 0);
      const wide = beside >= values.tooWide;
      const late = beside - (wide ? values.tooWide : 0) >= values.tooLate;
      const names = [
        wide ? `is wider than ${values.widest} semitones` : "",
        quick ? `is quicker than ${values.shortest} s` : "",
        late ? "comes when its pluck has faded" : "",
      ];
      return names.filter((name) => name !== "").join(" and ");
    };

    return {
      reach: "hand-move",
      limit: null,
      breaks: "above",
      measure: (_from, to) => (to.chain === 0 ? Number.NaN : to.chain),
      blocks: (measured) => measured > values.most,
      charge: (measured, from, to, gap) => {
        let charge = values.byCount[measured - 1] ?? 0;
        if (to.arrival !== "slid") return charge;
        if (tooWide(from, to)) charge += values.tooWide;
        if (gap.seconds < values.shortest && !gap.ornament) charge += values.tooQuick;
        if (tooLate(from, gap)) charge += values.tooLate;
        return charge;
      },
      message: (sight) => {
        const fault = faults(sight.measured, sight.charge, sight.seconds);
        const slide = `The slide to ${sight.note}, ${sight.spoken}, ${fault}.`;
        const count = `With ${sight.spoken}, ${plain(sight.measured)} notes hang on one pluck; ${values.most} are the most.`;
        if (fault === "") return count;
        return sight.measured > values.most ? `${count} ${slide}` : slide;
      },
    };
  },
);
