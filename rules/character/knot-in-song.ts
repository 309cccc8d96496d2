// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase, phraseOf } from "../../src/words.js";
import { characterOf, KNOT_PARAMETERS, knotsOf } from "../shared/awkward-moves.js";
import { barsOf, idsOf } from "../shared/runs.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "knot-in-song",
    kind: "character",
    title: phrase("Awkward moves crowd together where the music sings", "该流畅的地方，别扭的动作挤成一团"),
    principle: phrase(
      "Where the brief says that a passage flows, a knot of awkward moves is a fault worth changing.",
      "编配说明里写明流畅的段落，别扭的动作若挤成一团，就是该改的毛病。",
    ),
    why: phrase(
      "The listener hears the hands struggle where the line should sing.",
      "本该歌唱的句子，听到的却是手在挣扎。",
    ),
    whenRight: phrase(
      "Where the passage does not flow after all: then the brief should say so.",
      "这一段其实并不要流畅：那就在编配说明里写清。",
    ),
    remedy: phrase(
      "Take the smoothest fingering of the passage, or thin the melody out at the knot.",
      "这一段改用最顺的指法，或在挤成一团的地方减少旋律的音。",
    ),
    cures: ["fingering"],
    sources: [COMMON_PRACTICE],
    unit: "spare moves",
    parameters: KNOT_PARAMETERS,
    examples: [
      {
        shows: phrase("a smooth passage, marked flowing", "顺畅的一段，注明流畅"),
        kind: "passes",
        melody: "G2 C2 G2 C2",
        tempo: 120,
        flowing: true,
        fingering: ["san tiao 4", "san gou 1", "san tiao 4", "san gou 1"],
        finds: [],
      },
      {
        shows: phrase("gou against its way, marked flowing", "勾逆着走，注明流畅"),
        kind: "breaks",
        melody: "G2 C2 G2 C2",
        tempo: 120,
        flowing: true,
        fingering: ["san gou 4", "san gou 1", "san gou 4", "san gou 1"],
        finds: [
          [
            4,
            "problem",
            phrase(
              "This passage is to flow, but awkward moves crowd together in bar 1: 3.9 spare moves within 4 plucks.",
              "这一段要流畅，第1小节里别扭的动作却挤成一团：4次弹弦费3.9空动。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same without a stated character is only asked about", "同样的一段，没说性格，就只是问一声"),
        kind: "exception",
        melody: "G2 C2 G2 C2",
        tempo: 120,
        fingering: ["san gou 4", "san gou 1", "san gou 4", "san gou 1"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "passage",
    look: (line) => {
      const flowing = line.brief.passages.some((passage) => passage.character === "flowing");
      const knots = knotsOf(line, values).filter((knot) => characterOf(line, knot) === "flowing");
      return {
        looked: flowing ? line.moments.length : 0,
        findings: knots.map((knot) => ({
          notes: idsOf(line, knot),
          severity: "problem",
          measured: knot.effort,
          limit: values.effort,
          message: phraseOf({
            en: (say) =>
              `This passage is to flow, but awkward moves crowd together in ${say(barsOf(line, knot))}: ${plain(knot.effort)} spare moves within ${values.plucks} plucks.`,
            zh: (say) =>
              `这一段要流畅，${say(barsOf(line, knot))}里别扭的动作却挤成一团：${values.plucks}次弹弦费${plain(knot.effort)}空动。`,
          }),
        })),
      };
    },
  }),
);
