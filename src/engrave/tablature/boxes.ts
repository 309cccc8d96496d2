// SPDX-License-Identifier: AGPL-3.0-or-later
// The small language in which a glyph's layout is said: boxes that are cut into rows and columns. Edges lie on a grid of
// ten, so that the same component comes out in few sizes and is drawn once for many glyphs.
import type { ComponentName } from "./components.js";
import type { Box, Part } from "./part.js";

const GRID = 10;
const snapped = (value: number): number => Math.round(value / GRID) * GRID;

/** A box with its edges on the grid. */
export function box(x: number, y: number, width: number, height: number): Box {
  return { x: snapped(x), y: snapped(y), width: snapped(width), height: snapped(height) };
}

/** Cuts a box into rows from top to bottom. @param shares heights in proportion to each other */
export function rows(whole: Box, gap: number, shares: readonly number[]): readonly Box[] {
  return cut(whole.height, gap, shares).map(({ from, size }) => box(whole.x, whole.y + from, whole.width, size));
}

/** Cuts a box into columns from left to right. */
export function columns(whole: Box, gap: number, shares: readonly number[]): readonly Box[] {
  return cut(whole.width, gap, shares).map(({ from, size }) => box(whole.x + from, whole.y, size, whole.height));
}

function cut(size: number, gap: number, shares: readonly number[]): readonly { from: number; size: number }[] {
  const sum = shares.reduce((total, share) => total + share, 0);
  const unit = (size - gap * (shares.length - 1)) / sum;
  let from = 0;
  return shares.map((share) => {
    const piece = { from, size: share * unit };
    from += piece.size + gap;
    return piece;
  });
}

/** The middle of a box, no larger than given. */
export function middle(whole: Box, width: number, height: number): Box {
  const size = { width: Math.min(width, whole.width), height: Math.min(height, whole.height) };
  return box(
    whole.x + (whole.width - size.width) / 2,
    whole.y + (whole.height - size.height) / 2,
    size.width,
    size.height,
  );
}

/** A box without a margin all round. */
export function shrunk(whole: Box, margin: number): Box {
  return box(whole.x + margin, whole.y + margin, whole.width - 2 * margin, whole.height - 2 * margin);
}

/** The part of a box that a share of it takes, its edges given from 0 to 1. */
export function inside(
  whole: Box,
  { left, top, right, bottom }: { left: number; top: number; right: number; bottom: number },
): Box {
  return box(
    whole.x + left * whole.width,
    whole.y + top * whole.height,
    (right - left) * whole.width,
    (bottom - top) * whole.height,
  );
}

/** Components beside each other, a column each. */
export function beside(whole: Box, gap: number, components: readonly ComponentName[]): readonly Part[] {
  const cells = columns(
    whole,
    gap,
    components.map(() => 1),
  );
  return components.map((component, i) => ({ component, box: cells[i] as Box }));
}
