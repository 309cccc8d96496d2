// SPDX-License-Identifier: AGPL-3.0-or-later
// Which line of a score was read, why, and which others there are.

/** What can speak for a line as the melody. */
export type MelodyTrait =
  /** it carries a guqin fingering */
  | "fingering"
  /** its part is named for the guqin */
  | "guqin"
  /** it is no percussion */
  | "pitched"
  /** it is printed, not only played back */
  | "printed"
  /** it stands in the score proper, not on an ossia or the like */
  | "proper"
  /** it is in staff notation, not tablature */
  | "notation"
  /** it carries words to sing */
  | "words"
  /** its part is named voice, solo, melody or the like */
  | "named"
  /** it sounds in many bars */
  | "presence"
  /** it has one note at a time */
  | "single"
  /** it lies high */
  | "height"
  /** it moves in small steps */
  | "steps"
  /** it is not in the bass clef */
  | "treble"
  /** its range can be sung */
  | "singable"
  /** its part is for an instrument that mostly plays melodies */
  | "leading"
  /** its part is not named for an accompaniment or an instrument of chords */
  | "melodic"
  /** its stems point up */
  | "stems";

/** How the line came to be read. */
export interface LineChoice {
  /** between so many */
  readonly lines: number;
  /** it looks like the melody, or it is the line that an annotated score keeps */
  readonly by: "looks" | "kept";
  /** what it has over the next best, what weighs most first; nothing where it stands first and nothing sets it apart */
  readonly because: readonly MelodyTrait[];
  /** no other line lies higher */
  readonly highest: boolean;
  /** a quarter of its moments or more are chords */
  readonly chords: boolean;
}

/** A line that was not read. */
export interface LeftOutLine {
  /** id and name, such as "P2 (Flute)" */
  readonly part: string;
  /** null where the part has one line only */
  readonly voice: string | null;
  readonly notes: number;
  /** the options that take it */
  readonly take: string;
}
