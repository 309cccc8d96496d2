// SPDX-License-Identifier: AGPL-3.0-or-later
// The handbook's tables as sections of words and cells, from which page and Markdown are both made.
import { comparisonSection, keySection } from "./comparison-tables.js";
import { groundsWords } from "./evidence.js";
import type { HandbookJson } from "./json.js";
import { positionSection } from "./position-tables.js";
import { rangeSection } from "./range-table.js";
import { type Section, text } from "./table.js";
import { tuningSection } from "./tuning-tables.js";

/** All sections in order. */
export function handbookSections(handbook: HandbookJson): readonly Section[] {
  return [
    positionSection(handbook),
    tuningSection(handbook),
    keySection(handbook),
    comparisonSection(handbook),
    rangeSection(handbook),
    rightHandSection(handbook),
    leftHandSection(handbook),
    cautionSection(handbook),
  ];
}

function rightHandSection({ strokes, compounds }: HandbookJson): Section {
  return {
    id: "right-hand",
    title: "The right hand",
    words: [
      "Strokes that close the hand prepare those that open it, and the other way round. The little finger is not used, nor any pick.",
    ],
    parts: [
      {
        id: "strokes",
        title: "The eight strokes",
        words: [],
        tables: [
          {
            caption: "The eight strokes",
            layout: "wide",
            head: ["Stroke", "Pinyin", "Finger and direction", "Hand", "Usual strings", "Tone", "Where from"],
            rows: strokes.map((one) => ({
              head: { ...text(one.name), characters: one.characters },
              cells: [
                text(one.pinyin),
                text(`${one.finger}, ${one.direction}`),
                text(one.hand),
                text(one.strings),
                text(one.tone),
                text(groundsWords(one)),
              ],
              strong: true,
            })),
          },
        ],
      },
      {
        id: "compounds",
        title: "Compound strokes",
        words: ["An attack is a separate onset; two strings in one pinch are one."],
        tables: [
          {
            caption: "Compound strokes",
            layout: "wide",
            head: ["Stroke", "Pinyin", "What sounds", "Strings", "Attacks", "Where from"],
            rows: compounds.map((one) => ({
              head: { ...text(one.name), characters: one.characters },
              cells: [one.pinyin, one.sounds, one.strings, one.attacks, groundsWords(one)].map(text),
              strong: true,
            })),
          },
        ],
      },
    ],
  };
}

function leftHandSection({ fingers, signs }: HandbookJson): Section {
  return {
    id: "left-hand",
    title: "The left hand",
    words: [],
    parts: [
      {
        id: "fingers",
        title: "Fingers and what touches the string",
        words: [],
        tables: [
          {
            caption: "Fingers and what touches the string",
            layout: "wide",
            head: ["Said", "Finger and part", "Used for", "Where from"],
            rows: fingers.map((one) => ({
              head: { ...text(one.name ?? "not said"), characters: one.characters },
              cells: [one.part, one.use, groundsWords(one)].map(text),
              strong: true,
            })),
          },
        ],
      },
      {
        id: "signs",
        title: "Signs of the left hand",
        words: [
          "Extra notes are further pitches that are clearly heard without a new stroke of the right hand. Each later one is weaker: after an ordinary pluck no more than three, by our judgement.",
        ],
        tables: [
          {
            caption: "Signs of the left hand",
            layout: "wide",
            head: ["Sign", "Pinyin", "What the hand does", "Extra notes", "Where from"],
            rows: signs.map((one) => ({
              head: { ...text(one.name), characters: one.characters },
              cells: [one.pinyin, one.action, one.extraNotes, groundsWords(one)].map(text),
              strong: true,
            })),
          },
        ],
      },
    ],
  };
}

function cautionSection({ cautions }: HandbookJson): Section {
  return {
    id: "cautions",
    title: "Cautions",
    words: [],
    parts: [
      {
        id: null,
        title: null,
        words: [],
        tables: [
          {
            caption: "Cautions",
            layout: "wide",
            head: ["About", "What to keep in mind", "Where from"],
            rows: cautions.map((one) => ({
              head: text(one.about),
              cells: [text(one.text), text(groundsWords(one))],
              strong: true,
            })),
          },
        ],
      },
    ],
  };
}
