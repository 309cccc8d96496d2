// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { thumbToRingCm } from "../../src/model/hand-distance.js";
import type { Left, Placed } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Sight } from "../../src/rule/types.js";
import { joined, type Phrase, phrase, phraseOf } from "../../src/words.js";
import { forHand } from "../shared/hand-words.js";

export default defineRule(
  {
    id: "crossed-hand",
    kind: "efficiency",
    title: phrase("Thumb and ring finger cross or stretch", "大指与名指交叉或张得太开"),
    topic: phrase("the stretch of the hand", "手的伸张"),
    principle: phrase(
      "The thumb lies toward the bridge, the ring finger toward the nut, 4 to 10 cm apart; a stretch beyond that tires the hand, and the two never change sides.",
      "大指靠岳山一侧，名指靠龙龈一侧，相距4到10厘米；张得再开，手就累；两指的左右次序从不对调。",
    ),
    why: phrase(
      "A crossed or widely stretched hand has no strength left to press, and every note after it starts from a bad place.",
      "手交叉了或张得太开，就没有力气按实，后面的每个音都从别扭的手形开始。",
    ),
    whenRight: phrase(
      "A single wide reach before a long note or a rest; large hands reach farther.",
      "长音或休止之前偶尔伸张一次；手大的人也够得远些。",
    ),
    remedy: phrase(
      "Let the other finger take one of the two notes, or take one of them on another string.",
      "两个音中让另一指去按一个，或把其中一个移到别的弦上。",
    ),
    sources: [
      phrase(
        "common practice, no source; the everyday pairs ring 10 with thumb 9 and ring 9 with thumb 7.9 are common practice",
        "通行做法（无出处）；名指十徽配大指九徽、名指九徽配大指七徽九分，是日常的搭配，属通行做法",
      ),
    ],
    movement: true,
    unit: "cm",
    parameters: {
      stretch: {
        default: 0.5,
        unit: "spare moves",
        doc: phrase(
          "rising from nothing at the free reach to this at the limit",
          "从不费力的距离起由零渐增，到极限时为此数",
        ),
        evidence: "our judgement",
      },
      crossing: {
        default: 1.5,
        unit: "spare moves",
        doc: phrase("the ring finger on the bridge side of the thumb, in turn", "先后按时，名指到了大指的岳山一侧"),
        evidence: "common practice",
      },
      moved: {
        default: 0.15,
        unit: "spare moves",
        doc: phrase(
          "what is left of the stretch where the whole hand moves instead, in turn: hand-shift charges the rest",
          "先后按而整只手移过去时，伸张只剩这么多：其余由换把一条计算",
        ),
        evidence: "our judgement",
      },
      outerThumb: {
        default: 0.1,
        unit: "spare moves per string",
        doc: phrase(
          "the thumb on an outer string than the ring finger, in turn",
          "先后按时，大指所在的弦比名指的更靠外",
        ),
        evidence: "our judgement",
      },
      outerThumbHeld: {
        default: 0.4,
        unit: "spare moves per string",
        doc: phrase("the same while both must hold", "同上，但两指须同时按住"),
        evidence: "our judgement",
      },
      crossingNote: {
        default: -1,
        unit: "cm",
        doc: phrase("fingers may touch: crossing counts from here on", "两指可以相挨：从这里起才算交叉"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("ring 10 and thumb 9, the everyday pair", "名指十徽、大指九徽，日常的搭配"),
        kind: "passes",
        melody: "C3 D3",
        fingering: ["ming 10 gou 4", "da 9 tiao 4"],
        finds: [],
      },
      {
        shows: phrase("the ring finger passes the thumb", "名指越过了大指"),
        kind: "breaks",
        melody: "C3 D3",
        fingering: ["da 10 gou 4", "ming 9 tiao 4"],
        finds: [
          [
            2,
            "problem",
            phrase(
              "The ring finger's place lies 9.2 cm on the bridge side of the thumb's, so the fingers cross: da 10 gou 4, then ming 9 tiao 4. This holds for the medium hand.",
              "名指越到大指的岳山一侧，两处相距9.2厘米，两指交叉：先“大十勾四”，再“名九挑四”。以上以中等大小的手为准。",
            ),
          ],
        ],
      },
      {
        shows: phrase(
          "two places too far apart for one hand: it moves, which is a shift and no stretch",
          "两处太远，一手够不着：手移过去，算换把，不算伸张",
        ),
        kind: "exception",
        melody: "A2 G3",
        fingering: ["ming 13.1 gou 4", "da 7 tiao 4"],
        finds: [],
      },
      {
        shows: phrase("the thumb reaches out over four strings beyond the ring finger", "大指越过名指，向外伸出四根弦"),
        kind: "breaks",
        melody: "E3 Ab2",
        fingering: ["ming 9 tiao 5", "da 8.5 gou 1"],
        finds: [
          [
            2,
            "note",
            phrase(
              "The thumb lies on a string farther out than the ring finger: ming 9 tiao 5, then da 8.5 gou 1. This holds for the medium hand.",
              "大指所在的弦比名指的更靠外：先“名九挑五”，再“大八五勾一”。以上以中等大小的手为准。",
            ),
          ],
        ],
      },
      {
        shows: phrase("an open string beside the thumb's is nobody's reach", "大指旁的散音不用左手去够"),
        kind: "passes",
        melody: "C3 D3+D3",
        fingering: ["ming 10 gou 4", "da 9 gou 4", "san tiao 7"],
        finds: [],
      },
      {
        shows: phrase("after a rest the hand is free", "休止之后，手是自由的"),
        kind: "exception",
        melody: "C3 r D3",
        fingering: ["da 10 gou 4", "ming 9 tiao 4"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const { hand } = setting;

    const held = (to: Left): number => thumbToRingCm(to.first, to.second);

    /** Strings by which the thumb lies farther out than the ring finger. */
    const outward = (a: Placed, b: Placed): number =>
      Math.max(0, a.finger === "thumb" ? b.string - a.string : a.string - b.string);

    /** In turn, and farther than a hand spans: the fingers neither cross nor stretch, the hand goes there. */
    const isShift = (cm: number): boolean => cm < -hand.spanLimitCm || cm > hand.spanLimitCm + hand.freeShiftCm;

    const reach = (cm: number): number => {
      if (cm < values.crossingNote) return values.crossing;
      const part = (cm - hand.frameFarCm) / (hand.spanLimitCm - hand.frameFarCm);
      return values.stretch * Math.min(1, Math.max(0, part));
    };

    /** What is wrong with the distance from the thumb to the ring finger. */
    const distance = (cm: number): Phrase => {
      const [ease, limit] = [plain(hand.comfortableSpanCm), plain(hand.spanLimitCm)];
      if (cm < values.crossingNote)
        return phrase(
          `The ring finger's place lies ${plain(-cm)} cm on the bridge side of the thumb's, so the fingers cross`,
          `名指越到大指的岳山一侧，两处相距${plain(-cm)}厘米，两指交叉`,
        );
      if (cm > hand.spanLimitCm)
        return phrase(
          `Thumb and ring finger have places ${plain(cm)} cm apart, more than the ${limit} cm that they reach`,
          `大指与名指的徽位相距${plain(cm)}厘米，超过两指够得着的${limit}厘米`,
        );
      return phrase(
        `Thumb and ring finger stretch ${plain(cm)} cm (comfortable up to ${ease}, limit ${limit})`,
        `大指与名指伸张${plain(cm)}厘米（从容到${ease}，极限${limit}）`,
      );
    };

    /** @param alone it begins the sentence */
    const outerThumb = (alone: boolean): Phrase =>
      phrase(
        `${alone ? "The" : "the"} thumb lies on a string farther out than the ring finger`,
        "大指所在的弦比名指的更靠外",
      );

    /** The distance is worth a word when it is uncomfortable, or when nothing else is wrong. */
    const isReach = (sight: Sight): boolean => {
      const cost = reach(sight.measured);
      return cost > 0 && (sight.measured < 0 || sight.measured > hand.comfortableSpanCm || sight.charge - cost <= 1e-6);
    };

    const pairOf = ({ spoken, spokenBefore }: Sight): Phrase =>
      spokenBefore === ""
        ? phrase(spoken, `“${inCharacters(spoken)}”`)
        : phrase(`${spokenBefore}, then ${spoken}`, `先“${inCharacters(spokenBefore)}”，再“${inCharacters(spoken)}”`);

    return {
      reach: "hand-move",
      limit: null,
      breaks: "above",
      measure: (from, to, gap) => {
        const both = held(to);
        if (!Number.isNaN(both)) return both;
        if (gap.rested || from.second !== null) return Number.NaN;
        return thumbToRingCm(from.first, to.first);
      },
      charge: (cm, from, to) => {
        // Beside an open string the thumb or the ring finger holds alone, and the hand before counts.
        const hold = !Number.isNaN(held(to));
        const a = hold ? to.first : from.first;
        const b = hold ? to.second : to.first;
        if (a === null || b === null) return 0;
        // Worth no word here, since hand-shift says it.
        if (!hold && isShift(cm)) return cm > 0 ? values.moved : 0;
        return reach(cm) + (hold ? values.outerThumbHeld : values.outerThumb) * outward(a, b);
      },
      message: (sight) => {
        const alone = !isReach(sight);
        const outer = sight.charge - reach(sight.measured) > 1e-6;
        const faults = [...(alone ? [] : [distance(sight.measured)]), ...(outer ? [outerThumb(alone)] : [])];
        const between = phrase(", and ", "，而且");
        return phraseOf({
          en: (say) => `${say(joined(faults, between))}: ${say(pairOf(sight))}. ${say(forHand(hand.name))}.`,
          zh: (say) => `${say(joined(faults, between))}：${say(pairOf(sight))}。${say(forHand(hand.name))}。`,
        });
      },
    };
  },
);
