// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters, placeInCharacters } from "../../src/model/characters.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";

export default defineRule(
  {
    id: "thin-register",
    kind: "range",
    title: phrase("Stopped high on the string", "按音太高"),
    topic: phrase("stops high on the string", "靠近岳山的高处按音"),
    principle: phrase(
      "The tone is full as far up as hui 5. From there to hui 4 it thins out, above hui 4 it is short and tight; a thick string is dull from hui 7 upward already.",
      "从下准往上，到五徽为止音色都是饱满的；五徽到四徽渐薄，四徽以上又短又紧；粗弦过了七徽就已发闷。",
    ),
    why: phrase(
      "Little string is left to sound, so the note is short and dry, and a semitone is hardly wider than a fingertip.",
      "能振动的弦只剩一小段，音又短又干；一个半音也比指头宽不了多少。",
    ),
    whenRight: phrase(
      "At a climax, for a single high note, or where the dry sound is the point.",
      "在高潮处，或只是偶尔一个高音，或要的正是这种干涩的声音。",
    ),
    remedy: phrase(
      "Take the phrase an octave lower, take the note on a thinner string, or play it as a harmonic if one sounds it.",
      "把这一句移低八度，改用较细的弦，或者用泛音弹（若有这个泛音）。",
    ),
    cures: ["fingering", "octave"],
    sources: [
      phrase(
        "high stopped notes short, low ones sonorous: note on Waltham, Lan and Koster in Physics Today (doi 10.1063/PT.3.3187)",
        "按音高则短、低则厚：Physics Today对Waltham、Lan、Koster研究的介绍（doi 10.1063/PT.3.3187）",
      ),
      phrase(
        "the limits at hui 5, 4 and 3: common practice, no source",
        "五徽、四徽、三徽这几道界线：通行做法（无出处）",
      ),
    ],
    unit: "hui",
    parameters: {
      fullBelow: {
        default: 5,
        unit: "hui",
        doc: phrase("up to here the tone is full: above it a note", "到此为止音色饱满，再往上算“值得一知”"),
        evidence: "our judgement",
      },
      thinAbove: {
        default: 4,
        unit: "hui",
        doc: phrase("above it a caution", "再往上算“听得出来”"),
        evidence: "common practice",
      },
      tightAbove: {
        default: 3,
        unit: "hui",
        doc: phrase("above it a problem", "再往上算“演奏者会追问”"),
        evidence: "our judgement",
      },
      thinCharge: {
        default: [0.15, 0.25],
        unit: "spare moves, spare moves per hui",
        doc: phrase(
          "between the first two limits: at once, and for each hui",
          "前两道界线之间：起步多少，每徽再加多少",
        ),
        evidence: "common practice",
      },
      tightCharge: {
        default: [0.4, 1.2],
        unit: "spare moves, spare moves per hui",
        doc: phrase("above the second limit: at once, and for each hui", "过了第二道界线：起步多少，每徽再加多少"),
        evidence: "common practice",
      },
      thickAbove: {
        default: 6.9,
        unit: "hui",
        doc: phrase("above it thick strings sound dull", "再往上，粗弦发闷"),
        evidence: "our judgement",
      },
      thickString: {
        default: [0.4, 0.35, 0.25, 0.15, 0.05, 0, 0],
        unit: "spare moves",
        doc: phrase("added above that place, by string 1 to 7", "在此以上另加多少，依次为一至七弦"),
        evidence: "our judgement",
      },
      thickNote: {
        default: 0.3,
        unit: "spare moves",
        doc: phrase(
          "strings with at least this much added are a note above that place already",
          "另加到这个数的弦，过了那一处就算“值得一知”",
        ),
        evidence: "our judgement",
      },
      grain: {
        default: 1000,
        unit: "parts of a hui",
        doc: phrase(
          "places are compared to a thousandth, so that a stop exactly at a hui is not above it",
          "徽位比到千分之一，好让正按在徽上的音不算在徽以上",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("hui 5 of string 7 still sounds full", "七弦五徽，音还饱满"),
        kind: "passes",
        melody: "A4",
        fingering: ["da 5 tiao 7"],
        finds: [],
      },
      {
        shows: phrase("above hui 5, at 4, above 4, above 3", "五徽以上、四徽、四徽以上、三徽以上"),
        kind: "breaks",
        melody: "B4 D5 E5 G5",
        fingering: ["da 4.6 tiao 7", "da 4 tiao 7", "da 3.4 tiao 7", "da 2.6 tiao 7"],
        finds: [
          [
            1,
            "note",
            phrase(
              "B4 (da 4.6 tiao 7) is stopped at hui 4.6, above hui 5: the tone is thin and short there.",
              "B4（“大四六挑七”）按在四徽六分，已在五徽以上：那里音色又薄又短。",
            ),
          ],
          [
            2,
            "note",
            phrase(
              "D5 (da 4 tiao 7) is stopped at hui 4, above hui 5: the tone is thin and short there.",
              "D5（“大四挑七”）按在四徽，已在五徽以上：那里音色又薄又短。",
            ),
          ],
          [
            3,
            "caution",
            phrase(
              "E5 (da 3.4 tiao 7) is stopped at hui 3.4, above hui 5: the tone is thin and short there.",
              "E5（“大三四挑七”）按在三徽四分，已在五徽以上：那里音色又薄又短。",
            ),
          ],
          [
            4,
            "problem",
            phrase(
              "G5 (da 2.6 tiao 7) is stopped at hui 2.6, above hui 5: the tone is thin and short there.",
              "G5（“大二六挑七”）按在二徽六分，已在五徽以上：那里音色又薄又短。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a thick string stopped above hui 7", "粗弦按到七徽以上"),
        kind: "breaks",
        melody: "D3",
        fingering: ["da 6.4 gou 1"],
        finds: [
          [
            1,
            "note",
            phrase(
              "D3 (da 6.4 gou 1) is stopped at hui 6.4, above hui 6.9: a string this thick sounds dull there.",
              "D3（“大六四勾一”）按在六徽四分，已在六徽九分以上：这么粗的弦在那里声音发闷。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a thick string above hui 5", "粗弦按到五徽以上"),
        kind: "breaks",
        melody: "B3",
        fingering: ["da 4.6 gou 2"],
        finds: [
          [
            1,
            "note",
            phrase(
              "B3 (da 4.6 gou 2) is stopped at hui 4.6, above hui 5: the tone is thin and short there.",
              "B3（“大四六勾二”）按在四徽六分，已在五徽以上：那里音色又薄又短。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a harmonic as high stays clear", "同样高的泛音依然清亮"),
        kind: "exception",
        melody: "D5^",
        fingering: ["fan 4 tiao 7"],
        finds: [],
      },
    ],
  },
  (values) => {
    const row = (cells: readonly number[], hui: number): number => (cells[0] as number) + (cells[1] as number) * hui;
    const dull = (string: number): number => values.thickString[string - 1] as number;
    return {
      reach: "place",
      limit: values.fullBelow,
      limitAt: (placed) => (dull(placed.string) >= values.thickNote ? values.thickAbove : values.fullBelow),
      breaks: "below",
      severities: [
        [values.thickAbove, "note"],
        [values.thinAbove, "caution"],
        [values.tightAbove, "problem"],
      ],
      measure: (placed) => {
        if (placed === null || placed.sound !== "stopped") return Number.NaN;
        return Math.round(placed.exact * values.grain) / values.grain;
      },
      charge: (hui, placed) => {
        const thick = placed !== null && hui < values.thickAbove ? dull(placed.string) : 0;
        if (hui < values.thinAbove) return thick + row(values.tightCharge, values.thinAbove - hui);
        return hui < values.fullBelow ? thick + row(values.thinCharge, values.fullBelow - hui) : thick;
      },
      message: (sight) => {
        const [above, sound] =
          sight.measured >= values.fullBelow
            ? [values.thickAbove, phrase("a string this thick sounds dull", "这么粗的弦在那里声音发闷")]
            : [values.fullBelow, phrase("the tone is thin and short", "那里音色又薄又短")];
        return phrase(
          `${sight.note} (${sight.spoken}) is stopped at hui ${plain(sight.measured)}, above hui ${plain(above)}: ${sound.en} there.`,
          `${sight.note}（“${inCharacters(sight.spoken)}”）按在${placeInCharacters(Number(plain(sight.measured)))}，已在${placeInCharacters(above)}以上：${sound.zh}。`,
        );
      },
    };
  },
);
