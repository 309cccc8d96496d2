// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";

export default defineRule(
  {
    id: "harmonic-off-pitch",
    kind: "intonation",
    title: phrase("A harmonic beside the melody's pitch", "泛音与旋律音高不合"),
    principle: phrase(
      "A harmonic sounds a whole-number part of its string and cannot be corrected. At hui 3, 6, 8 and 11 it is a pure third, about a seventh of a semitone lower than on the piano.",
      "泛音取弦的整数等分，音高没法修正。三、六、八、十一徽上是纯律三度，比钢琴上的低约七分之一个半音。",
    ),
    why: phrase(
      "Next to stopped or open notes of the same name it sounds out of tune.",
      "旁边若有同名的按音或散音，它听来就不准。",
    ),
    whenRight: phrase(
      "In a passage of harmonics that holds to pure thirds throughout.",
      "整段泛音从头到尾都用纯律三度。",
    ),
    remedy: phrase(
      "Take a harmonic at hui 7, 9 or 10 (or 5, 4) of another string, or stop the note.",
      "改用另一根弦的七、九、十徽（或五、四徽）泛音，或改为按音。",
    ),
    cures: ["fingering", "octave"],
    sources: [
      phrase(
        "the fifth partial avoided in pieces shaped in the Qing: J. Thompson, silkqin.com, Qin tunings, some theoretical concepts",
        "清代定型的曲子回避第五分音：J. Thompson，silkqin.com，《Qin tunings, some theoretical concepts》",
      ),
      phrase("the limits in cents: our judgement", "音分界限：我们的判断"),
    ],
    unit: "cents",
    parameters: {
      inTune: {
        default: 10,
        unit: "cents",
        doc: phrase("beyond it a caution, and never proposed", "超过即为“听得出来”，编配时也不采用"),
        evidence: "our judgement",
      },
      apart: {
        default: 20,
        unit: "cents",
        doc: phrase("beyond it a problem", "超过即为“演奏者会追问”"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("hui 9: a fifth above the octave", "九徽：八度再加五度"),
        kind: "passes",
        melody: "A3^",
        fingering: ["fan 9 tiao 7"],
        finds: [],
      },
      {
        shows: phrase(
          "hui 11 of string 3 as A4, a comma under the Pythagorean third",
          "三弦十一徽当A4用，比五度相生的三度低一个音差",
        ),
        kind: "breaks",
        melody: "A4^",
        fingering: ["fan 11 gou 3"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "The harmonic fan 11 gou 3 differs by 21.5 cents from A4 of the melody's temperament (limit 10 cents).",
              "泛音“泛十一勾三”与旋律所用律制的A4相差21.5音分（界限10音分）。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same in equal temperament", "换成十二平均律"),
        kind: "breaks",
        melody: "A4^",
        temperament: "equal",
        fingering: ["fan 11 gou 3"],
        finds: [
          [
            1,
            "caution",
            phrase(
              "The harmonic fan 11 gou 3 differs by 13.7 cents from A4 of the melody's temperament (limit 10 cents).",
              "泛音“泛十一勾三”与旋律所用律制的A4相差13.7音分（界限10音分）。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same where the melody itself has pure thirds", "旋律本身就用纯律三度"),
        kind: "exception",
        melody: "A4^",
        temperament: "just",
        fingering: ["fan 11 gou 3"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: values.inTune,
    breaks: "above",
    severities: [
      [values.inTune, "caution"],
      [values.apart, "problem"],
    ],
    measure: (placed) =>
      placed !== null && placed.sound === "harmonic" && !placed.mismatch ? Math.abs(placed.offCents) : Number.NaN,
    charge: () => 0,
    withholds: (placed) => placed.sound === "harmonic" && Math.abs(placed.offCents) > values.inTune,
    message: (sight) =>
      phrase(
        `The harmonic ${sight.spoken} differs by ${plain(sight.measured)} cents from ${sight.note} of the melody's temperament (limit ${plain(values.inTune)} cents).`,
        `泛音“${inCharacters(sight.spoken)}”与旋律所用律制的${sight.note}相差${plain(sight.measured)}音分（界限${plain(values.inTune)}音分）。`,
      ),
  }),
);
