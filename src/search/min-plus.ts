// SPDX-License-Identifier: AGPL-3.0-or-later
// The inner loops of the search, two for each pass: nearly all additions happen here.

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

/** out[j * width + p] = min of itself and table[base + p] + values[at + j] + own: the moves that lead into one hand. */
export function leadInto(
  table: Float64Array,
  base: number,
  width: number,
  values: Float64Array,
  at: number,
  count: number,
  own: number,
  out: Float64Array,
): void {
  for (let j = 0; j < count; j++) {
    const start = j * width;
    const value = (values[at + j] as number) + own;
    for (let p = 0; p < width; p++) {
      const sum = (table[base + p] as number) + value;
      if (sum < (out[start + p] as number)) out[start + p] = sum;
    }
  }
}

/** For each state at `at`: the cheapest stroke that follows it, kept where it improves the state's value. */
export function strikeOn(
  row: Float64Array,
  group: number,
  groups: number,
  block: Float64Array,
  count: number,
  out: Float64Array,
  at: number,
  width: number,
): void {
  for (let j = 0; j < count; j++) {
    const start = j * width;
    const ahead = row[j * groups + group] as number;
    for (let q = 0; q < width; q++) {
      const value = (block[start + q] as number) + ahead;
      if (value < (out[at + q] as number)) out[at + q] = value;
    }
  }
}
