// SPDX-License-Identifier: AGPL-3.0-or-later
// The two inner loops of the search: nearly all of its additions happen here.

/** out[at + j] = min over c of row[j * width + c] + table[base + c]. */
export function minPlus(
  row: Float64Array,
  table: Float64Array,
  base: number,
  width: number,
  count: number,
  out: Float64Array,
  at: number,
): void {
  for (let j = 0; j < count; j++) {
    const start = j * width;
    let least = Number.POSITIVE_INFINITY;
    for (let c = 0; c < width; c++) {
      const value = (row[start + c] as number) + (table[base + c] as number);
      if (value < least) least = value;
    }
    out[at + j] = least;
  }
}

/** For each stroke: the cheapest way to strike it from the states at `from`, kept where it improves the group's value. */
export function strikeFrom(
  best: Float64Array,
  from: number,
  width: number,
  block: Float64Array,
  count: number,
  out: Float64Array,
  group: number,
  groups: number,
): void {
  for (let j = 0; j < count; j++) {
    const start = j * width;
    let least = Number.POSITIVE_INFINITY;
    for (let q = 0; q < width; q++) {
      const value = (best[from + q] as number) + (block[start + q] as number);
      if (value < least) least = value;
    }
    const at = j * groups + group;
    if (least < (out[at] as number)) out[at] = least;
  }
}
