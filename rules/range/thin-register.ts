// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule, plain } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "thin-register",
    kind: "range",
    title: "Stopped high on the string",
    topic: "stops high on the string",
    principle:
      "The tone is full as far up as hui 5. From there to hui 4 it thins out, above hui 4 it is short and tight; a thick string is dull from hui 7 upward already.",
    why: "Little string is left to sound, so the note is short and dry, and a semitone is hardly wider than a fingertip.",
    whenRight: "At a climax, for a single high note, or where the dry sound is the point.",
    remedy:
      "Take the phrase an octave lower, take the note on a thinner string, or play it as a harmonic if one sounds it.",
    cures: ["fingering", "octave"],
    sources: [
      "high stopped notes short, low ones sonorous: note on Waltham, Lan and Koster in Physics Today (doi 10.1063/PT.3.3187)",
      "the limits at hui 5, 4 and 3: common practice, no source",
    ],
    unit: "hui",
    parameters: {
      fullBelow: {
        default: 5,
        unit: "hui",
        doc: "up to here the tone is full: above it a note",
        evidence: "our judgement",
      },
      thinAbove: { default: 4, unit: "hui", doc: "above it a caution", evidence: "common practice" },
      tightAbove: { default: 3, unit: "hui", doc: "above it a problem", evidence: "our judgement" },
      thinCharge: {
        default: [0.15, 0.25],
        unit: "spare moves, spare moves per hui",
        doc: "between the first two limits: at once, and for each hui",
        evidence: "common practice",
      },
      tightCharge: {
        default: [0.4, 1.2],
        unit: "spare moves, spare moves per hui",
        doc: "above the second limit: at once, and for each hui",
        evidence: "common practice",
      },
      thickAbove: { default: 6.9, unit: "hui", doc: "above it thick strings sound dull", evidence: "our judgement" },
      thickString: {
        default: [0.4, 0.35, 0.25, 0.15, 0.05, 0, 0],
        unit: "spare moves",
        doc: "added above that place, by string 1 to 7",
        evidence: "our judgement",
      },
      thickNote: {
        default: 0.3,
        unit: "spare moves",
        doc: "strings with at least this much added are a note above that place already",
        evidence: "our judgement",
      },
      grain: {
        default: 1000,
        unit: "parts of a hui",
        doc: "places are compared to a thousandth, so that a stop exactly at a hui is not above it",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "hui 5 of string 7 still sounds full",
        kind: "passes",
        melody: "A4",
        fingering: ["da 5 tiao 7"],
        finds: [],
      },
      {
        shows: "above hui 5, at 4, above 4, above 3",
        kind: "breaks",
        melody: "B4 D5 E5 G5",
        fingering: ["da 4.6 tiao 7", "da 4 tiao 7", "da 3.4 tiao 7", "da 2.6 tiao 7"],
        finds: [
          [1, "note", "B4 (da 4.6 tiao 7) is stopped at hui 4.6, above hui 5: the tone is thin and short there."],
          [2, "note", "D5 (da 4 tiao 7) is stopped at hui 4, above hui 5: the tone is thin and short there."],
          [3, "caution", "E5 (da 3.4 tiao 7) is stopped at hui 3.4, above hui 5: the tone is thin and short there."],
          [4, "problem", "G5 (da 2.6 tiao 7) is stopped at hui 2.6, above hui 5: the tone is thin and short there."],
        ],
      },
      {
        shows: "a thick string stopped above hui 7",
        kind: "breaks",
        melody: "D3",
        fingering: ["da 6.4 gou 1"],
        finds: [
          [1, "note", "D3 (da 6.4 gou 1) is stopped at hui 6.4, above hui 6.9: a string this thick sounds dull there."],
        ],
      },
      {
        shows: "a thick string above hui 5",
        kind: "breaks",
        melody: "B3",
        fingering: ["da 4.6 gou 2"],
        finds: [[1, "note", "B3 (da 4.6 gou 2) is stopped at hui 4.6, above hui 5: the tone is thin and short there."]],
      },
      {
        shows: "a harmonic as high stays clear",
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
            ? [values.thickAbove, "a string this thick sounds dull"]
            : [values.fullBelow, "the tone is thin and short"];
        return `${sight.note} (${sight.spoken}) is stopped at hui ${plain(sight.measured)}, above hui ${plain(above)}: ${sound} there.`;
      },
    };
  },
);
