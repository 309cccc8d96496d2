// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { WIDEST_SLIDE_SEMITONES } from "../../src/model/moments.js";
import type { HandGap, Left } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { joined, type Phrase, phrase, phraseOf } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";
import { RING_PARAMETERS, ringSeconds } from "./ring-time.js";

export default defineRule(
  {
    id: "overloaded-pluck",
    kind: "idiom",
    title: phrase("Too much hangs on one pluck", "一弹带得太多"),
    topic: phrase("what hangs on one pluck", "一弹所带的音"),
    principle: phrase(
      "One pluck carries one or two further notes of the left hand, three at most; a slide stays within a fifth, takes its time, and comes while the string still sounds.",
      "一弹之后，左手再带一两个音，至多三个；走音不超过五度，走得从容，并趁弦还在响。",
    ),
    why: phrase(
      "Every slid note is weaker than the one before. A long, late or hurried slide is heard as a scrape.",
      "走音走出来的音，一个比一个弱。太长、太迟、太急，听到的只是擦弦声。",
    ),
    whenRight: phrase(
      "In slow music with a strong low pluck, or where a vanishing tone is the effect.",
      "慢曲中低音弹得结实；或就要余音渐渐消失的效果。",
    ),
    remedy: phrase("Pluck again at this note.", "到这个音再弹一次。"),
    cures: ["fingering", "tempo"],
    sources: [COMMON_PRACTICE],
    unit: "notes",
    parameters: {
      ...RING_PARAMETERS,
      byCount: {
        default: [0, 0.2, 0.6],
        unit: "spare moves",
        doc: phrase("the first, second and third note without a pluck", "一弹之后第一、二、三个不弹的音"),
        evidence: "common practice",
      },
      most: {
        default: 3,
        unit: "notes",
        doc: phrase("more cannot be heard on one pluck", "再多，一弹的余音就不够了"),
        evidence: "common practice",
      },
      widest: {
        default: WIDEST_SLIDE_SEMITONES,
        unit: "semitones",
        doc: phrase("the widest slide: a fifth", "最宽的走音：五度"),
        evidence: "common practice",
      },
      tooWide: {
        default: 1,
        unit: "spare moves",
        doc: phrase("a wider slide", "更宽的走音"),
        evidence: "our judgement",
      },
      shortest: {
        default: 0.12,
        unit: "s",
        doc: phrase("a slide needs this long", "走音至少要这么长时间"),
        evidence: "our judgement",
      },
      tooQuick: {
        default: 2,
        unit: "spare moves",
        doc: phrase("a quicker slide", "更急的走音"),
        evidence: "our judgement",
      },
      tooLate: {
        default: 0.6,
        unit: "spare moves",
        doc: phrase(
          "a slide after the pluck has faded, so that its note is not heard",
          "余音已尽才走音，走到的音听不见",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("two notes slid after one pluck", "一弹之后走两个音"),
        kind: "passes",
        melody: "(D2 F2 G2)",
        fingering: ["ming 13.1 gou 1", "shang 10", "shang 9"],
        finds: [],
      },
      {
        shows: phrase("four notes slid after one pluck", "一弹之后走四个音"),
        kind: "breaks",
        melody: "D2 F2 G2 F2 D2",
        tempo: 120,
        fingering: ["ming 13.1 gou 1", "shang 10", "shang 9", "xia 10", "xia 13.1"],
        finds: [
          [
            4,
            "caution",
            phrase("With xia 10, 3 notes hang on one pluck; 3 are the most.", "到“下十”，一弹已带了3个音；至多带3个。"),
          ],
          [
            5,
            "blocker",
            phrase(
              "With xia 13.1, 4 notes hang on one pluck; 3 are the most.",
              "到“下外”，一弹已带了4个音；至多带3个。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a slide over an octave, long after the pluck", "弹后很久才走，而且走一个八度"),
        kind: "breaks",
        melody: "D2:4 D3",
        fingering: ["ming 13.1 gou 1", "shang 6.4"],
        finds: [
          [
            2,
            "problem",
            phrase(
              "The slide to D3, shang 6.4, is wider than 7 semitones and comes when its pluck has faded.",
              "走到D3的“上六四”，跨度超过7个半音，走时余音已尽。",
            ),
          ],
        ],
      },
      {
        shows: phrase(
          "a slide within a fifth, but later than the ring finger's tone lasts",
          "走音在五度以内，但名指按音的余音已尽",
        ),
        kind: "breaks",
        melody: "F2:3 G2",
        fingering: ["ming 10 gou 1", "shang 9"],
        finds: [
          [
            2,
            "caution",
            phrase("The slide to G2, shang 9, comes when its pluck has faded.", "走到G2的“上九”，走时余音已尽。"),
          ],
        ],
      },
      {
        shows: phrase(
          "a long tone pulled off to the open string: that sounds by itself",
          "长音之后带起散音：散音自己会响",
        ),
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
    const faults = (notes: number, charge: number, seconds: number): readonly Phrase[] => {
      const extra = charge - (values.byCount[notes - 1] ?? 0) + 1e-6;
      const quick = seconds < values.shortest && extra >= values.tooQuick;
      const beside = extra - (quick ? values.tooQuick : 0);
      const wide = beside >= values.tooWide;
      const late = beside - (wide ? values.tooWide : 0) >= values.tooLate;
      const { widest, shortest } = values;
      return [
        ...(wide ? [phrase(`is wider than ${widest} semitones`, `跨度超过${widest}个半音`)] : []),
        ...(quick ? [phrase(`is quicker than ${shortest} s`, `用时不到${shortest}秒`)] : []),
        ...(late ? [phrase("comes when its pluck has faded", "走时余音已尽")] : []),
      ];
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
      message: ({ measured, charge, seconds, note, spoken }) => {
        const found = faults(measured, charge, seconds);
        const fault = joined(found, phrase(" and ", "，"));
        const characters = inCharacters(spoken);
        const slide = phraseOf({
          en: (say) => `The slide to ${note}, ${spoken}, ${say(fault)}.`,
          zh: (say) => `走到${note}的“${characters}”，${say(fault)}。`,
        });
        const count = phrase(
          `With ${spoken}, ${plain(measured)} notes hang on one pluck; ${values.most} are the most.`,
          `到“${characters}”，一弹已带了${plain(measured)}个音；至多带${values.most}个。`,
        );
        if (found.length === 0) return count;
        return measured > values.most ? joined([count, slide], phrase(" ", "")) : slide;
      },
    };
  },
);
