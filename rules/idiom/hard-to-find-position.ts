// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";
import { perSecond } from "../pace.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "hard-to-find-position",
    kind: "idiom",
    title: phrase("A place that is hard to find at speed", "快弹时难找准的音位"),
    topic: phrase("places that are hard to find", "难找准的音位"),
    principle: phrase(
      "The board has no frets: a player finds the hui and a few familiar places between them at once, and the others only by listening.",
      "琴面无品：徽位和徽间几处熟悉的音位一按就准，其余的要靠耳朵找。",
    ),
    why: phrase(
      "A stop away from the hui and from familiar places needs a moment to be set right by ear; in quick notes there is none, and it sounds out of tune.",
      "不在徽上、又不熟悉的按音，要片刻靠耳朵校正；音一快就来不及，听来便不准。",
    ),
    whenRight: phrase(
      "Where the note is approached by a slide from a sure place, where its roughness is the point, or where a good player has time to practise this one spot.",
      "从稳妥的音位走过来；有意要那一点粗糙；或好手肯专练这一处。",
    ),
    remedy: phrase(
      "Take the same pitch on another string, where it lies at a hui or at a familiar place.",
      "把同一个音换到另一根弦上，使它落在徽上或熟悉的音位上。",
    ),
    cures: ["fingering", "tempo"],
    sources: [COMMON_PRACTICE],
    unit: "notes/s",
    parameters: {
      limit: {
        default: 2,
        unit: "notes/s",
        doc: phrase("up to this pace the ear has time to correct the finger", "不超过这个速度，耳朵来得及校正手指"),
        evidence: "our judgement",
      },
      bySemitones: {
        default: [
          0, 0.5, 0.15, 0.15, 0.05, 0, 0.5, 0, 0.1, 0.05, 0.05, 0.5, 0, 0.5, 0.1, 0.1, 0.2, 0.1, 0.5, 0.05, 0.3, 0.2,
          0.2, 0.5, 0.05,
        ],
        unit: "spare moves",
        doc: phrase("a stop 0 to 24 semitones above its open string", "比散音高0至24个半音的按音"),
        evidence: "our judgement",
      },
      beyond: {
        default: 0.5,
        unit: "spare moves",
        doc: phrase("a stop more than two octaves above its open string", "比散音高出两个八度以上的按音"),
        evidence: "our judgement",
      },
      harmonicByHui: {
        default: [0.5, 0.5, 1, 0.15, 0.1, 1, 0, 1, 0.05, 0.1, 1, 0.35, 0.35],
        unit: "spare moves",
        doc: phrase("a harmonic at hui 1 to 13", "一徽至十三徽的泛音"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase(
          "the fourth and the fifth above the open string lie on hui 10 and 9",
          "散音上方的四度和五度，落在十徽和九徽上",
        ),
        kind: "passes",
        melody: "F2 G2",
        tempo: 240,
        fingering: ["ming 10 gou 1", "ming 9 gou 1"],
        finds: [],
      },
      {
        shows: phrase("a major seventh above the open string, four notes a second", "散音上方的大七度，每秒四个音"),
        kind: "breaks",
        melody: "A2 B2",
        tempo: 240,
        fingering: ["da 7.9 gou 1", "da 7.3 tiao 1"],
        finds: [
          [
            2,
            "note",
            phrase(
              "B2 as da 7.3 tiao 1 lies away from the places that a hand finds at once, and comes at 4 notes a second; up to 2 there is time to listen.",
              "B2弹作“大七三挑一”，不在一按就准的音位上，却快到每秒4个音；每秒2个以内才来得及用耳朵校正。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same place with time to listen", "同样的音位，有时间听"),
        kind: "exception",
        melody: "A2 B2",
        fingering: ["da 7.9 gou 1", "da 7.3 tiao 1"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.limit,
    breaks: "above",
    measure: (placed, _missing, _note, moment) => {
      if (placed === null || placed.sound === "open" || placed.mismatch) return Number.NaN;
      return perSecond(Math.min(moment.gapSeconds, moment.toNextSeconds));
    },
    charge: (_measured, placed) => {
      if (placed === null || placed.sound === "open") return 0;
      if (placed.sound === "harmonic") return values.harmonicByHui[(placed.position as number) - 1] as number;
      return values.bySemitones[placed.semitones] ?? values.beyond;
    },
    message: ({ note, spoken, measured, placed }) => {
      const [pace, limit] = [plain(measured), plain(values.limit)];
      const what = `${note}弹作“${inCharacters(spoken)}”`;
      return placed?.sound === "harmonic"
        ? phrase(
            `${note} as ${spoken} sounds only where the finger touches exactly, and comes at ${pace} notes a second; up to ${limit} there is time to find the spot.`,
            `${what}，要点得极准才出声，却快到每秒${pace}个音；每秒${limit}个以内才来得及找准。`,
          )
        : phrase(
            `${note} as ${spoken} lies away from the places that a hand finds at once, and comes at ${pace} notes a second; up to ${limit} there is time to listen.`,
            `${what}，不在一按就准的音位上，却快到每秒${pace}个音；每秒${limit}个以内才来得及用耳朵校正。`,
          );
    },
  }),
);
