// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { joined, type Phrase, phrase, phraseOf } from "../../src/words.js";
import { characterOf, KNOT_PARAMETERS, type Knot, knotsOf, meantAlone, movesAt } from "../shared/awkward-moves.js";
import { barsOf, idsOf } from "../shared/runs.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

export default defineRule(
  {
    id: "knot",
    kind: "character",
    title: phrase("Awkward moves crowd together: is it meant?", "别扭的动作挤成一团：是有意的吗？"),
    principle: phrase(
      "A principle broken in a score can be meant: knotted fingering may carry hesitation or struggle. Where nothing says so, the report asks.",
      "谱中不合常理之处可能是有意的：别扭的指法能表现迟疑或挣扎。若没有说明，报告就会问。",
    ),
    why: phrase(
      "The hands tell the listener what the music is about; a knot beside a smooth passage reads as meant, inside one it does not.",
      "手怎么动，听的人就听出音乐在说什么；别扭与顺畅并列，像是有意；夹在顺畅当中，就不像。",
    ),
    whenRight: phrase(
      "Where the passage struggles: say so in the brief, with the reason, and the fingering is left alone.",
      "这一段本来就在挣扎：在编配说明里写明并说出理由，指法就保持原样。",
    ),
    remedy: phrase(
      "Mark the passage in the brief as flowing or as struggling; flowing makes the search look harder for a smooth way.",
      "在编配说明里把这一段标为流畅或挣扎；标为流畅，编配时会更用力找顺的弹法。",
    ),
    sources: [COMMON_PRACTICE],
    unit: "spare moves",
    parameters: {
      ...KNOT_PARAMETERS,
      smooth: {
        default: 0.5,
        unit: "spare moves",
        doc: phrase(
          "the bars before and after are smooth when their moves sum to less",
          "前后小节的动作合计低于此数，就算顺畅",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("strokes by turns over open strings", "散音上收张轮换"),
        kind: "passes",
        melody: "G2 C2 G2 C2",
        tempo: 120,
        fingering: ["san tiao 4", "san gou 1", "san tiao 4", "san gou 1"],
        finds: [],
      },
      {
        shows: phrase("gou against its way, again and again", "勾逆着走，一次又一次"),
        kind: "breaks",
        melody: "G2 C2 G2 C2",
        tempo: 120,
        fingering: ["san gou 4", "san gou 1", "san gou 4", "san gou 1"],
        finds: [
          [
            4,
            "caution",
            phrase(
              "Awkward moves crowd together in bar 1: 2.6 spare moves within 4 plucks. Is it meant? Nothing smooth stands around it to tell.",
              "第1小节里别扭的动作挤成一团：4次弹弦费2.6空动。是有意的吗？前后没有顺畅的地方，看不出来。",
            ),
          ],
        ],
      },
      {
        shows: phrase(
          "one bar of it between smooth bars: the knot is that bar alone",
          "前后都顺，只有一小节如此：别扭的就只是这一小节",
        ),
        kind: "breaks",
        melody: "G2 C2 G2 C2 G2 C2 G2 C2 G2 C2 G2 C2",
        tempo: 120,
        fingering: [
          ...["san tiao 4", "san gou 1", "san tiao 4", "san gou 1"],
          ...["san gou 4", "san gou 1", "san gou 4", "san gou 1"],
          ...["san tiao 4", "san gou 1", "san tiao 4", "san gou 1"],
        ],
        finds: [
          [
            8,
            "caution",
            phrase(
              "Awkward moves crowd together in bar 2: 3.2 spare moves within 4 plucks. Is it meant? It stands inside a smooth passage, where it reads as an accident.",
              "第2小节里别扭的动作挤成一团：4次弹弦费3.2空动。是有意的吗？前后都顺畅，夹在当中就像是无意的。",
            ),
          ],
        ],
      },
      {
        shows: phrase("one awkward move alone is no knot", "只有一处别扭，算不上挤成一团"),
        kind: "exception",
        melody: "G2 C2",
        tempo: 120,
        fingering: ["san gou 4", "san gou 1"],
        finds: [],
      },
    ],
  },
  (values) => {
    /** Whether the moves in a stretch of the line are smooth; a note or two are no passage. */
    const isSmooth = (line: Line, from: number, to: number): boolean => {
      const there = movesAt(line).slice(Math.max(0, from), to + 1);
      return there.length >= values.plucks && there.reduce((sum, effort) => sum + effort, 0) < values.smooth;
    };

    /** What stands around a knot, in words. */
    const reading = (line: Line, knot: Knot): Phrase => {
      const reach = 2 * values.plucks;
      const before = isSmooth(line, knot.from - reach, knot.from - 1);
      const after = isSmooth(line, knot.to + 1, knot.to + reach);
      const isShort = knot.to - knot.from < reach;
      if (before && after && isShort)
        return phrase(
          "It stands inside a smooth passage, where it reads as an accident.",
          "前后都顺畅，夹在当中就像是无意的。",
        );
      if (before || after)
        return phrase(
          "It stands beside a smooth passage, where it reads as meant.",
          "旁边是顺畅的一段，两相对照像是有意的。",
        );
      return phrase("Nothing smooth stands around it to tell.", "前后没有顺畅的地方，看不出来。");
    };

    return {
      reach: "passage",
      look: (line) => {
        const told = (knot: Knot, answer: Phrase): PassageFinding => ({
          notes: idsOf(line, knot),
          severity: "caution",
          measured: knot.effort,
          limit: values.effort,
          message: phraseOf({
            en: (say) =>
              `Awkward moves crowd together in ${say(barsOf(line, knot))}: ${plain(knot.effort)} spare moves within ${values.plucks} plucks. ${say(answer)}`,
            zh: (say) =>
              `${say(barsOf(line, knot))}里别扭的动作挤成一团：${values.plucks}次弹弦费${plain(knot.effort)}空动。${say(answer)}`,
          }),
        });
        const asked = knotsOf(line, values).filter((knot) => characterOf(line, knot) === null);
        const meant = knotsOf(meantAlone(line), values).filter((knot) => characterOf(line, knot) === "struggling");
        return {
          looked: line.moments.length,
          findings: [
            ...asked.map((knot) => told(knot, joined([phrase("Is it meant? ", "是有意的吗？"), reading(line, knot)]))),
            ...meant.map((knot) => told(knot, phrase("The brief says that it is meant.", "编配说明里说这是有意的。"))),
          ],
        };
      },
    };
  },
);
