// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Moment } from "../../src/model/moments.js";
import type { Left } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { PassageFinding } from "../../src/rule/types.js";
import { type Phrase, phrase, phraseOf } from "../../src/words.js";
import { forHand } from "../shared/hand-words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** A move that tires, with what it measures. */
interface Effort {
  /** index of its moment */
  readonly at: number;
  readonly onsetSeconds: number;
  readonly cm: number;
}

/** Cm between two different fingers, held at once or one after the other; 0 where there are none such. */
function spanCm(left: Left, before: Left | null, moment: Moment): number {
  const held = left.second !== null;
  const a = held ? left.first : moment.rested ? null : (before?.first ?? null);
  const b = held ? left.second : left.first;
  if (a?.sound !== "stopped" || b?.sound !== "stopped" || a.finger === b.finger) return 0;
  return Math.abs(a.cm - b.cm);
}

/** Stretches of time in which at least `count` efforts fall within any `seconds`, joined where they overlap. */
function crowded(efforts: readonly Effort[], count: number, seconds: number): readonly (readonly Effort[])[] {
  const runs: [from: number, to: number][] = [];
  for (const [from, first] of efforts.entries()) {
    const to = from + count - 1;
    const last = efforts[to];
    if (last === undefined || last.onsetSeconds - first.onsetSeconds >= seconds) continue;
    const run = runs.at(-1);
    if (run !== undefined && from <= run[1]) run[1] = to;
    else runs.push([from, to]);
  }
  return runs.map(([from, to]) => efforts.slice(from, to + 1));
}

const lasting = (run: readonly Effort[]): number => (run.at(-1)?.onsetSeconds ?? 0) - (run[0]?.onsetSeconds ?? 0);

/** Ring finger at 9 and the thumb by turns, seven notes. */
const byTurns = (thumb: string): readonly string[] =>
  Array.from({ length: 7 }, (_, i) => (i % 2 === 0 ? "ming 9 gou 4" : thumb));

export default defineRule(
  {
    id: "strained-hand",
    kind: "efficiency",
    title: phrase("The hand gets no rest", "手得不到休息"),
    principle: phrase(
      "One wide reach or one fast run is nothing; wide reaches one upon the other, or fast plucks that go on and on, tire a hand.",
      "伸张一次、快弹一阵都不要紧；一次接一次地伸张，或快弹得没完没了，手就累了。",
    ),
    why: phrase(
      "A tired hand loses its tone first, and can come to harm if it goes on.",
      "手累了，先坏的是音色；再撑下去，手可能会受伤。",
    ),
    whenRight: phrase("In a study that builds up slowly under a teacher's eye.", "在老师眼前循序渐进的练习。"),
    remedy: phrase(
      "Put a rest or a long open note inside, let other fingers share the work, or slow down.",
      "中间放一个休止或散音长音，让别的指头分担，或放慢。",
    ),
    cures: ["fingering", "tempo"],
    sources: [COMMON_PRACTICE],
    unit: "s",
    parameters: {
      reaches: {
        default: 6,
        unit: "moves",
        doc: phrase("wide reaches within the time below", "在下面的时间之内，大幅伸张的次数"),
        evidence: "our judgement",
      },
      reachesWithin: {
        default: 10,
        unit: "s",
        doc: phrase("time for so many wide reaches", "数伸张次数的时间"),
        evidence: "our judgement",
      },
      speedShare: {
        default: 0.8,
        unit: "share of the hand's comfortable plucks a second",
        doc: phrase("faster than this is fast: 4 a second for the medium hand", "快过此数算快：中等大小的手为每秒4次"),
        evidence: "our judgement",
      },
      speedOver: {
        default: 9,
        unit: "plucks",
        doc: phrase("speed is taken over so many plucks", "连续这么多次弹弦，算一次速度"),
        evidence: "our judgement",
      },
      speedLasting: {
        default: 10,
        unit: "s",
        doc: phrase("fast plucks going on for so long", "快弹持续的时间"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("ring 9 and thumb 7.9, a reach that any hand has", "名指九徽、大指七徽九分，谁的手都够得着"),
        kind: "passes",
        melody: "D3 F#3 D3 F#3 D3 F#3 D3",
        fingering: byTurns("da 7.9 tiao 5"),
        finds: [],
      },
      {
        shows: phrase("ring 9 and thumb 7.6 by turns without end", "名指九徽与大指七徽六分轮换，没完没了"),
        kind: "breaks",
        melody: "D3 G3 D3 G3 D3 G3 D3",
        fingering: byTurns("da 7.6 tiao 5"),
        finds: [
          [
            7,
            "caution",
            phrase(
              "For 5 s the left hand stretches 6 times beyond the comfortable 11 cm, up to 11.5 cm (limit 13.5 cm). This holds for the medium hand; pain is a reason to stop, and a teacher should judge the individual hand.",
              "连着5秒，左手6次张得超过从容的11厘米，最宽11.5厘米（极限13.5厘米）。以上以中等大小的手为准；疼痛就停下。各人的手不同，以看得见你手的老师的判断为准。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a large hand reaches as far at ease", "手大的人，这样的距离也从容"),
        kind: "exception",
        melody: "D3 G3 D3 G3 D3 G3 D3",
        hand: "large",
        fingering: byTurns("da 7.6 tiao 5"),
        finds: [],
      },
    ],
  },
  (values, { hand }) => {
    const fast = values.speedShare * hand.plucksPerSecond;
    const advice = phraseOf({
      en: (say) =>
        `${say(forHand(hand.name))}; pain is a reason to stop, and a teacher should judge the individual hand.`,
      zh: (say) => `${say(forHand(hand.name))}；疼痛就停下。各人的手不同，以看得见你手的老师的判断为准。`,
    });

    const found = (
      run: readonly Effort[],
      moments: readonly Moment[],
      limit: number | null,
      what: Phrase,
    ): PassageFinding => ({
      notes: run.flatMap(({ at }) => moments[at]?.notes.map((note) => note.source.id) ?? []),
      severity: "caution",
      measured: lasting(run),
      limit,
      message: phraseOf({
        en: (say) => `For ${plain(lasting(run))} s ${say(what)}. ${say(advice)}`,
        zh: (say) => `连着${plain(lasting(run))}秒，${say(what)}。${say(advice)}`,
      }),
    });

    const reaches = (lefts: readonly Left[], moments: readonly Moment[]): readonly PassageFinding[] => {
      const wide = moments.flatMap((moment, at): Effort[] => {
        const cm = spanCm(lefts[at] as Left, lefts[at - 1] ?? null, moment);
        const stretched = cm > hand.comfortableSpanCm && cm <= hand.spanLimitCm;
        return stretched ? [{ at, onsetSeconds: moment.onsetSeconds, cm }] : [];
      });
      return crowded(wide, values.reaches, values.reachesWithin).map((run) => {
        const widest = plain(Math.max(...run.map(({ cm }) => cm)));
        const [ease, limit] = [plain(hand.comfortableSpanCm), plain(hand.spanLimitCm)];
        const what = phrase(
          `the left hand stretches ${run.length} times beyond the comfortable ${ease} cm, up to ${widest} cm (limit ${limit} cm)`,
          `左手${run.length}次张得超过从容的${ease}厘米，最宽${widest}厘米（极限${limit}厘米）`,
        );
        return found(run, moments, null, what);
      });
    };

    const speeds = (plucks: readonly Effort[], moments: readonly Moment[]): readonly PassageFinding[] =>
      crowded(plucks, values.speedOver, (values.speedOver - 1) / fast)
        .filter((run) => lasting(run) >= values.speedLasting)
        .map((run) => {
          const rate = plain((run.length - 1) / lasting(run));
          const what = phrase(
            `the right hand plucks ${rate} times a second without a pause (up to ${plain(fast)} a second can go on)`,
            `右手不停地每秒弹${rate}次（每秒不超过${plain(fast)}次才能持久）`,
          );
          return found(run, moments, values.speedLasting, what);
        });

    return {
      reach: "passage",
      look: ({ moments, lefts, rights }) => {
        const plucks = moments.flatMap(({ onsetSeconds }, at): Effort[] =>
          lefts[at]?.chain === 0 && rights[at]?.stroke != null ? [{ at, onsetSeconds, cm: 0 }] : [],
        );
        return { looked: moments.length, findings: [...reaches(lefts, moments), ...speeds(plucks, moments)] };
      },
    };
  },
);
