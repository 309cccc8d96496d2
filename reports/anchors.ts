// SPDX-License-Identifier: AGPL-3.0-or-later
// Names of places in a page: `#bar-7`, `#note-p1b3n2`, `#f-...`. The same score gives the same names every time.
import type { Score } from "../src/model/score.js";

/** An id that is safe in markup and links, whatever the score calls the thing. */
export function anchor(kind: "bar" | "note" | "f" | "rule", name: string): string {
  return `${kind}-${name.replace(/[^A-Za-z0-9_.-]/gu, (c) => `_${(c.codePointAt(0) as number).toString(16)}`)}`;
}

/** The anchor of every bar, by index; a label that comes again gets a number, since an id may stand only once. */
export function barAnchors(score: Score): readonly string[] {
  const seen = new Map<string, number>();
  return score.bars.map((bar) => {
    const times = (seen.get(bar.label) ?? 0) + 1;
    seen.set(bar.label, times);
    return anchor("bar", times === 1 ? bar.label : `${bar.label}.${times}`);
  });
}
