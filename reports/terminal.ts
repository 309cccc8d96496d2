// SPDX-License-Identifier: AGPL-3.0-or-later
// Text in columns for a terminal, where Chinese characters are two columns wide, and lines that several summaries share.

import { type Phrase, phrase } from "../src/words.js";

/**
 * Characters of two columns: those that Unicode's East Asian Width (UAX #11, EastAsianWidth.txt) counts as wide or
 * full-width and that texts of a score or of ours are written with.
 */
const WIDE =
  /[\u1100-\u115F\u2E80-\u303E\u3041-\u33FF\u3400-\u4DBF\u4E00-\u9FFF\uA000-\uA4CF\uAC00-\uD7A3\uF900-\uFAFF\uFE30-\uFE6F\uFF01-\uFF60\uFFE0-\uFFE6\u{20000}-\u{3FFFD}]/gu;

/** Columns that a text takes. @example columnsOf("定弦 A") // 6 */
export function columnsOf(text: string): number {
  const marks = text.match(/\p{Mn}/gu)?.length ?? 0;
  return [...text].length - marks + (text.match(WIDE)?.length ?? 0);
}

/** A cell with blanks behind it, or before it, up to a number of columns. */
export function padded(cell: string, columns: number, side: "start" | "end"): string {
  const blanks = " ".repeat(Math.max(0, columns - columnsOf(cell)));
  return side === "start" ? blanks + cell : cell + blanks;
}

/** Where the outputs went, one line each; what went to standard output is not named. */
export function writtenLines(written: {
  readonly report: string | null;
  readonly json: string | null;
}): readonly Phrase[] {
  const named = [
    [phrase("Page", "页面"), written.report],
    [phrase("JSON", "JSON"), written.json],
  ] as const;
  return named.flatMap(([name, path]) =>
    path === null || path === "-" ? [] : [phrase(`${name.en}: ${path}`, `${name.zh}：${path}`)],
  );
}

/** A line of at most so many columns: a longer one is cut between words, Chinese behind a punctuation mark. */
export function cut(line: string, most: number): string {
  if (columnsOf(line) <= most) return line;
  const room = most - columnsOf(CUT);
  let [end, fits] = [0, 0];
  for (let at = 0, columns = 0; columns <= room; at++) {
    const one = line.charAt(at);
    fits = at;
    if (one === " ") end = at;
    columns += columnsOf(one);
    if (STOPS.includes(one) && columns <= room) end = at + 1;
  }
  return line.slice(0, end === 0 ? fits : end).replace(/[,;:，；：、]$/, "") + CUT;
}

/** What marks a line that is cut. */
const CUT = " …";
/** Behind these a Chinese line may be cut. */
const STOPS = "，。；：、）”";
