// SPDX-License-Identifier: AGPL-3.0-or-later
// What the signs of a score mean: only those that it uses, each with an example from it.

import { PINCHES } from "../src/model/fingering.js";
import { intervalBetween, transpositionWords } from "../src/model/transposition-words.js";
import type { NoteJson } from "../src/report.js";
import { phrase, phraseOf, type Said } from "../src/words.js";
import { OwnMarkup } from "./template.js";
import { spokenWords } from "./words.js";

/** An example cell with its reading and what its sign means. */
export interface SignView {
  readonly cell: OwnMarkup;
  readonly spoken: Said;
  /** empty where the text beside the legend says it */
  readonly meaning: Said;
}

interface Sign {
  readonly meaning: Said;
  shows(note: NoteJson): boolean;
}

const isPinch = ({ compound }: NoteJson): boolean => PINCHES.some((pinch) => pinch === compound);

/** The three kinds of sound, explained in the text of the legend. */
export const SOUNDS: readonly Sign[] = [
  { meaning: "", shows: ({ sound, arrival }) => sound === "open" && arrival === "plucked" },
  { meaning: "", shows: ({ sound, arrival }) => sound === "stopped" && arrival === "plucked" },
  { meaning: "", shows: ({ sound }) => sound === "harmonic" },
];

/** Signs beyond the three kinds of sound. */
export const SIGNS: readonly Sign[] = [
  {
    meaning: phrase(
      "slide: the finger moves up or down the string while it still sounds. No stroke and no string are written: the right hand does nothing, and the string stays.",
      "走音：余音未断时，手指沿弦上移或下移。右手不弹，弦也不变，所以不写弹法与弦数。",
    ),
    shows: ({ arrival }) => arrival === "slid",
  },
  {
    meaning: phrase(
      "pull-off: a finger of the left hand plucks the string as it lifts. The right hand does nothing.",
      "带起、抓起：左指离弦时把弦带响，右手不动。",
    ),
    shows: ({ arrival }) => arrival === "pulled-off",
  },
  {
    meaning: phrase(
      "hammer-on: a finger of the left hand comes down so firmly that the string sounds. The right hand does nothing.",
      "罨：左指击弦而发声，右手不动。",
    ),
    shows: ({ arrival }) => arrival === "hammered",
  },
  {
    meaning: phrase(
      "pinch: two glyphs, one above the other, are struck at once; the sign of the pinch stands left of each stroke.",
      "撮：上下两字同时弹出，撮的记号写在弹法左边。",
    ),
    shows: isPinch,
  },
  {
    meaning: phrase(
      "compound stroke: several movements of the right hand under one name, explained below.",
      "组合指法：一个名称下的几个右手动作，见下文解释。",
    ),
    shows: (note) => note.compound !== null && !isPinch(note),
  },
  {
    meaning: phrase(
      "a smaller glyph: a grace note, played just before the note that follows.",
      "较小的字：装饰音，紧接在后一音之前。",
    ),
    shows: ({ grace }) => grace,
  },
  {
    meaning: phrase(
      "a note that cannot be played on this instrument as set up here. It is left out; the line goes on without it.",
      "照眼下的设置，琴上弹不出的音：略去，旋律接着往下。",
    ),
    shows: ({ sound }) => sound === null,
  },
];

/**
 * An example of each sign that the notes show.
 *
 * @param cells the symbol of each note's cell, by note id
 */
export function viewSigns(
  signs: readonly Sign[],
  notes: readonly NoteJson[],
  cells: ReadonlyMap<string, string>,
): readonly SignView[] {
  return signs.flatMap(({ meaning, shows }) => {
    const note = notes.find(shows);
    if (note === undefined) return [];
    const use = `<svg class="cell" viewBox="0 0 1000 1250" width="52" height="65" aria-hidden="true"><use href="#${cells.get(note.id)}"/></svg>`;
    return [{ cell: new OwnMarkup(use), spoken: spokenWords(note), meaning }];
  });
}

/** How the notes on the staff and what sounds differ; empty where they do not. */
export function soundingWords(notes: readonly NoteJson[]): Said {
  const shifts = notes.map(({ written, sounding }) => intervalBetween(written, sounding));
  const [first] = shifts;
  if (first === undefined || shifts.every(({ semitones }) => semitones === 0)) return "";
  const moved = transpositionWords(first);
  if (shifts.every(({ semitones }) => semitones === first.semitones))
    return phraseOf({
      en: (say) => `The staff shows the notes as they are printed in the score; on the guqin they sound ${say(moved)}.`,
      zh: (say) => `五线谱照原谱所印；在琴上实际发声${say(moved)}。`,
    });
  return phrase(
    "The staff shows the notes as they are printed in the score; some sound in another octave or key, and the table note by note then names both pitches.",
    "五线谱照原谱所印；有些音实际在别的八度或调上发声，逐音表会同时列出两个音高。",
  );
}
