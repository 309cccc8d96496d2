// SPDX-License-Identifier: AGPL-3.0-or-later
// The range of the standard strings as a chart: lines and points for a template, every number also in the range table.
import { HUI_PARTIAL } from "../../src/model/board.js";
import { type Pitch, parsePitch, semitoneOf } from "../../src/model/pitch.js";

/** A string of the chart; all lengths in its own units. */
export interface ChartString {
  readonly label: string;
  readonly y: number;
  /** base line of the label */
  readonly base: number;
  /** the open string */
  readonly open: number;
  /** ordinary stops run from the whole tone (13.1) to hui 4, the others on to hui 1 */
  readonly from: number;
  readonly hui4: number;
  readonly hui1: number;
  readonly harmonics: readonly { readonly x: number; readonly top: number; readonly bottom: number }[];
}

/** The chart, low notes at the left, string 7 on top. */
export interface RangeChart {
  readonly width: number;
  readonly height: number;
  readonly octaves: readonly {
    readonly name: string;
    readonly x: number;
    readonly top: number;
    readonly bottom: number;
  }[];
  readonly strings: readonly ChartString[];
}

const LEFT = 64;
const RIGHT = 24;
const TOP = 30;
const SEMITONE_WIDTH = 12;
const STRING_HEIGHT = 26;
const TICK = 6;

/** Places a tuning's strings on the chart. @param strings open strings in scientific pitch, string 1 first */
export function rangeChart(strings: readonly string[]): RangeChart {
  const open = strings.map((name) => semitoneOf(parsePitch(name) as Pitch));
  const lowest = Math.min(...open);
  const highest = Math.max(...open) + 36;
  const x = (semitone: number): number => LEFT + (semitone - lowest) * SEMITONE_WIDTH;
  const partials = [...new Set(HUI_PARTIAL.slice(1))].map((partial) => Math.round(12 * Math.log2(partial)));
  const bottom = TOP + strings.length * STRING_HEIGHT;
  const everyC = Array.from({ length: 9 }, (_, octave) => ({ name: `C${octave}`, semitone: 12 * (octave + 1) }));
  return {
    width: x(highest) + RIGHT,
    height: bottom + 4,
    octaves: everyC
      .filter(({ semitone }) => semitone >= lowest && semitone <= highest)
      .map(({ name, semitone }) => ({ name, x: x(semitone), top: TOP, bottom })),
    strings: open.map((semitone, i) => {
      const y = TOP + (strings.length - i - 0.5) * STRING_HEIGHT;
      return {
        label: `${i + 1} ${strings[i]}`,
        ...{ y, base: y + 4, open: x(semitone) },
        ...{ from: x(semitone + 2), hui4: x(semitone + 24), hui1: x(semitone + 36) },
        harmonics: partials.map((above) => ({ x: x(semitone + above), top: y - TICK, bottom: y + TICK })),
      };
    }),
  };
}
