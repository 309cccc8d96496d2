// SPDX-License-Identifier: AGPL-3.0-or-later
import { type Pitch, parsePitch, pitchName } from "../../src/model/pitch.js";
import { defineRule, plain } from "../../src/rule/define.js";
import { phrase } from "../../src/words.js";

/** Octaves from an open string up to its stop and its harmonic at hui 1, an eighth of the string. */
const OCTAVES_TO_HUI_1 = 3;

export default defineRule(
  {
    id: "above-the-board",
    kind: "range",
    title: phrase("Higher than the highest sound", "高过最高音"),
    topic: phrase("notes above the board", "超出上限的音"),
    principle: phrase(
      "At hui 1, an eighth of the string, stops and harmonics end: three octaves above the open string, and no string reaches higher than the highest one.",
      "一徽在弦长的八分之一处，按音与泛音到此为止，比散音高三个八度；哪根弦都高不过定音最高的那根。",
    ),
    why: phrase("The note cannot be played in this tuning at all.", "在这个定弦下，这个音根本弹不出来。"),
    whenRight: phrase(
      "Never as written; a tuning with a higher seventh string may hold the note.",
      "照原样写，总归弹不出；换一个七弦更高的定弦，也许就有这个音。",
    ),
    remedy: phrase(
      "Take the phrase an octave lower, or transpose the whole melody down.",
      "把这一句移低八度，或把整首旋律移低。",
    ),
    cures: ["fingering", "octave", "setting"],
    sources: [
      phrase(
        "hui 1 at an eighth of the string: Zhu Fengjie, Yuguzhai qinpu (1855), section v29",
        "一徽在弦长八分之一处：祝凤喈《与古斋琴谱》（1855年），v29节",
      ),
      phrase(
        "range of the instrument, C2 to D6 in the standard tuning: University of British Columbia, Physics 341 wiki, Qin",
        "正调音域C2至D6：不列颠哥伦比亚大学物理341课程网页“Qin”",
      ),
    ],
    unit: "semitones",
    parameters: {
      reach: {
        default: 0,
        unit: "semitones",
        doc: phrase("how far above hui 1 of the highest string a note may lie", "音最多可以比最高弦的一徽高多少"),
        evidence: "published",
      },
    },
    examples: [
      {
        shows: phrase("D6, the harmonic at hui 1 of string 7", "D6：七弦一徽的泛音"),
        kind: "passes",
        melody: "D6^",
        fingering: ["fan 1 tiao 7"],
        finds: [],
      },
      {
        shows: phrase("F6 in the standard tuning", "正调下的F6"),
        kind: "breaks",
        melody: "D3 F6",
        fingering: [],
        finds: [
          [
            2,
            "blocker",
            phrase(
              "F6 lies 3 semitones above D6, the highest sound of this tuning (hui 1, an eighth of the highest string).",
              "F6比这个定弦下的最高音D6（最高弦的一徽，弦长八分之一处）还高3个半音。",
            ),
          ],
        ],
      },
      {
        shows: phrase("Eb6 where the tuning has raised string 7 to Eb3", "七弦紧到Eb3的定弦下，Eb6就有了"),
        kind: "exception",
        melody: "Eb6^",
        tuning: "qingdiao",
        fingering: ["fan 1 tiao 7"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const { semitones, strings } = setting.tuning;
    const open = parsePitch(strings[semitones.indexOf(Math.max(...semitones))] as string) as Pitch;
    const highest = pitchName({ ...open, octave: open.octave + OCTAVES_TO_HUI_1 });
    return {
      reach: "place",
      limit: values.reach,
      breaks: "above",
      measure: (placed, missing) => {
        if (placed !== null) return 0;
        return missing?.cause === "above" ? missing.amount : Number.NaN;
      },
      charge: () => 0,
      blocks: (measured) => measured > values.reach,
      message: (sight) =>
        phrase(
          `${sight.note} lies ${plain(sight.measured)} ${sight.measured === 1 ? "semitone" : "semitones"} above ${highest}, the highest sound of this tuning (hui 1, an eighth of the highest string).`,
          `${sight.note}比这个定弦下的最高音${highest}（最高弦的一徽，弦长八分之一处）还高${plain(sight.measured)}个半音。`,
        ),
    };
  },
);
