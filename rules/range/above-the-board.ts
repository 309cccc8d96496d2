// SPDX-License-Identifier: AGPL-3.0-or-later
import { type Pitch, parsePitch, pitchName } from "../../src/model/pitch.js";
import { defineRule, plain } from "../../src/rule/define.js";

/** Octaves from an open string up to its stop and its harmonic at hui 1, an eighth of the string. */
const OCTAVES_TO_HUI_1 = 3;

export default defineRule(
  {
    id: "above-the-board",
    kind: "range",
    title: "Higher than the highest sound",
    topic: "notes above the board",
    principle:
      "At hui 1, an eighth of the string, stops and harmonics end: three octaves above the open string, and no string reaches higher than the highest one.",
    why: "The note cannot be played in this tuning at all.",
    whenRight: "Never as written; a tuning with a higher seventh string may hold the note.",
    remedy: "Take the phrase an octave lower, or transpose the whole melody down.",
    cures: ["fingering", "octave", "setting"],
    sources: [
      "hui 1 at an eighth of the string: Zhu Fengjie, Yuguzhai qinpu (1855), section v29",
      "range of the instrument, C2 to D6 in the standard tuning: University of British Columbia, Physics 341 wiki, Qin",
    ],
    unit: "semitones",
    parameters: {
      reach: {
        default: 0,
        unit: "semitones",
        doc: "how far above hui 1 of the highest string a note may lie",
        evidence: "published",
      },
    },
    examples: [
      {
        shows: "D6, the harmonic at hui 1 of string 7",
        kind: "passes",
        melody: "D6^",
        fingering: ["fan 1 tiao 7"],
        finds: [],
      },
      {
        shows: "F6 in the standard tuning",
        kind: "breaks",
        melody: "D3 F6",
        fingering: [],
        finds: [
          [
            2,
            "blocker",
            "F6 lies 3 semitones above D6, the highest sound of this tuning (hui 1, an eighth of the highest string).",
          ],
        ],
      },
      {
        shows: "Eb6 where the tuning has raised string 7 to Eb3",
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
        `${sight.note} lies ${plain(sight.measured)} ${sight.measured === 1 ? "semitone" : "semitones"} above ${highest}, the highest sound of this tuning (hui 1, an eighth of the highest string).`,
    };
  },
);
