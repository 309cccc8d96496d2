// SPDX-License-Identifier: AGPL-3.0-or-later
// The time axis that the pictures share: bars set into rows as in a score, every moment at its place.
import type { Score } from "../src/model/score.js";
import type { PictureMoment } from "../src/report/pictures.js";

/** Width of a row in units of the pictures. */
export const ROW_WIDTH = 720;
/** Left of it stand the names and axes of the lanes. */
export const ROW_LEFT = 92;
const ROW_RIGHT = 716;

/** No bar is narrower: its link is to be hit with a finger. */
const NARROWEST_BAR = 30;
const QUARTER_WIDTH = 13;
/** Room that one moment takes beside others. */
const MOMENT_WIDTH = 10.5;
/** From a bar line to the first moment. */
const INDENT = 8;
/** How far a grace note stands before what follows it. */
const GRACE_STEP = 6;
/** No row is drawn out farther than this: one of few bars stays short. */
const WIDEST_STRETCH = 1.6;
/** So many widths are tried until the rows are even. */
const EVEN_STEPS = 20;

/** A bar on its row. */
export interface AxisBar {
  readonly index: number;
  readonly x: number;
  readonly width: number;
}

/** A moment on its row. */
export interface AxisMoment {
  readonly moment: PictureMoment;
  readonly x: number;
}

/** One row of bars. */
export interface AxisRow {
  readonly bars: readonly AxisBar[];
  /** in order of time */
  readonly moments: readonly AxisMoment[];
}

interface Sized {
  readonly index: number;
  readonly length: number;
  readonly natural: number;
  readonly moments: readonly PictureMoment[];
}

/** The moments of each bar of a score. */
export function momentsByBar(score: Score, moments: readonly PictureMoment[]): readonly (readonly PictureMoment[])[] {
  const byBar = score.bars.map((): PictureMoment[] => []);
  for (const moment of moments) byBar[moment.bar]?.push(moment);
  return byBar;
}

/** Sets the bars of a score into rows. @param byBar the moments of each */
export function axisRows(score: Score, byBar: readonly (readonly PictureMoment[])[]): readonly AxisRow[] {
  const sized = score.bars.map(({ index, length }): Sized => {
    const own = byBar[index] ?? [];
    const room = own.length * MOMENT_WIDTH + INDENT;
    const quarters = length.valueOf();
    return { index, length: quarters, natural: Math.max(NARROWEST_BAR, quarters * QUARTER_WIDTH, room), moments: own };
  });
  return evenRows(sized).map(setRow);
}

/** As few rows as have room for all, as full as each other. */
function evenRows(bars: readonly Sized[]): readonly (readonly Sized[])[] {
  const full = ROW_RIGHT - ROW_LEFT;
  const rows = wrapped(bars, full);
  const total = bars.reduce((sum, { natural }) => sum + natural, 0);
  const widths = Array.from(
    { length: EVEN_STEPS },
    (_, k) => Math.min(full, total / rows.length) * (1 + k / EVEN_STEPS),
  );
  return widths.map((width) => wrapped(bars, Math.min(full, width))).find((one) => one.length === rows.length) ?? rows;
}

/** As many bars a row as have room. */
function wrapped(bars: readonly Sized[], width: number): readonly (readonly Sized[])[] {
  const rows: Sized[][] = [];
  let room = 0;
  for (const bar of bars) {
    room -= bar.natural;
    if (room < 0 || rows.length === 0) {
      rows.push([]);
      room = width - bar.natural;
    }
    rows.at(-1)?.push(bar);
  }
  return rows;
}

function setRow(row: readonly Sized[]): AxisRow {
  const natural = row.reduce((sum, bar) => sum + bar.natural, 0);
  const stretch = Math.min((ROW_RIGHT - ROW_LEFT) / natural, WIDEST_STRETCH);
  let x = ROW_LEFT;
  const bars = row.map(({ index, natural: width }): AxisBar => {
    const from = Math.round(x);
    x += width * stretch;
    return { index, x: from, width: Math.round(x) - from };
  });
  const moments = row.flatMap((sized, i) => momentsIn(sized, bars[i] as AxisBar));
  return { bars, moments };
}

function momentsIn({ moments, length }: Sized, { x, width }: AxisBar): readonly AxisMoment[] {
  return moments.map((moment, i) => {
    // Whole units: nobody sees less, and numbers stay short.
    const main = Math.round(x + INDENT + (length > 0 ? Math.min(1, moment.onset / length) : 0) * (width - INDENT));
    if (!moment.grace) return { moment, x: main };
    const steps = moments.slice(i).findIndex(({ grace }) => !grace);
    return { moment, x: main - GRACE_STEP * Math.max(1, steps) };
  });
}
