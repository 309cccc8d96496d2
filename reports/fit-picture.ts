// SPDX-License-Identifier: AGPL-3.0-or-later
// The strings of a setting against the melody's range, as lines and points for a template.
import type { FitEntry } from "../src/report/fit.js";
import { phrase, type Said } from "../src/words.js";

/** Pitch runs to the right; all pictures of a page share one scale. */
export interface PictureView {
  readonly width: number;
  readonly height: number;
  /** what it shows, for those who do not see it */
  readonly title: Said;
  readonly description: Said;
  readonly id: string;
  readonly band: { readonly x: number; readonly width: number };
  readonly strings: readonly {
    readonly y: number;
    readonly open: number;
    readonly hui4: number;
    readonly retuned: boolean;
  }[];
  readonly octaves: readonly { readonly x: number; readonly name: string }[];
}

/** The pitches that a page's pictures span, as MIDI note numbers. */
export interface Span {
  readonly low: number;
  readonly high: number;
}

const WIDTH = 320;
const SIDE = 12;
const TOP = 16;
const STRING_HEIGHT = 9;
const BOTTOM = 6;
const HUI_4_SEMITONES = 24;

/** The span that holds every picture. */
export function spanOf(entries: readonly FitEntry[]): Span {
  const opens = entries.flatMap(({ tuning }) => tuning.semitones);
  return {
    low: Math.min(...opens, ...entries.map(({ lowest }) => lowest)),
    high: Math.max(...opens.map((open) => open + HUI_4_SEMITONES), ...entries.map(({ highest }) => highest)),
  };
}

/** Draws one setting. @param id unique on the page */
export function pictureOf(entry: FitEntry, id: string, { low, high }: Span): PictureView {
  const { tuning, json, lowest, highest } = entry;
  const step = (WIDTH - 2 * SIDE) / (high - low + 1);
  const x = (semitone: number): number => Math.round(10 * (SIDE + (semitone - low + 0.5) * step)) / 10;
  const edge = (semitone: number): number => Math.round(10 * (SIDE + (semitone - low) * step)) / 10;
  const retuned = new Set(json.retune.map(({ string }) => string));
  const everyC = Array.from({ length: 9 }, (_, octave) => ({ semitone: 12 * (octave + 1), name: `C${octave}` }));
  return {
    width: WIDTH,
    height: TOP + 7 * STRING_HEIGHT + BOTTOM,
    title: phrase("The strings and the melody's range", "七弦与旋律的音域"),
    description: phrase(
      `Seven strings, ${json.strings.join(" ")} from below, each drawn from its open pitch two octaves up to hui 4; the shaded band is the melody, ${json.lowest} to ${json.highest}.`,
      `七根弦由下而上为${json.strings.join(" ")}，每根从散音画到高两个八度的四徽；底色带是旋律，从${json.lowest}到${json.highest}。`,
    ),
    id,
    band: { x: edge(lowest), width: Math.round(10 * (edge(highest + 1) - edge(lowest))) / 10 },
    strings: tuning.semitones.map((open, i) => ({
      y: TOP + (6.5 - i) * STRING_HEIGHT,
      open: x(open),
      hui4: x(open + HUI_4_SEMITONES),
      retuned: retuned.has(i + 1),
    })),
    octaves: everyC
      .filter(({ semitone }) => semitone >= low && semitone <= high)
      .map(({ semitone, name }) => ({ x: x(semitone), name })),
  };
}
