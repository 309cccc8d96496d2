// SPDX-License-Identifier: AGPL-3.0-or-later
// Words that the page and the terminal share when two fingerings are compared.
import type { CompareJson } from "../src/report/compare.js";
import type { CostJson } from "../src/report.js";
import { count, moves, number } from "./words.js";

/** What a side is: "evening.musicxml, as its score gives it". */
export function sideWords(json: CompareJson, side: "a" | "b"): string {
  const { file, source } = json[side];
  if (file === null) return "The best fingering that was found";
  return `${file}, ${{ submitted: "as the score gives it", completed: "given in part, the rest found", searched: "found by search" }[source]}`;
}

/** A total: "7.14 spare moves", "7.14 spare moves and 2 places that cannot be played". */
export function costWords({ blocked, effort }: CostJson): string {
  return blocked === 0 ? moves(effort) : `${moves(effort)} and ${count(blocked, "place")} that cannot be played`;
}

/** A cost within a table: "0.3"; what cannot be played stands before it. */
export function amountWords({ blocked, effort }: CostJson): string {
  if (blocked === 0) return number(effort);
  return blocked === 1 ? `stops, ${number(effort)}` : `${blocked} stops, ${number(effort)}`;
}

/** A number with its sign: "+0.3", "−2.1", "0". */
export function signed(value: number): string {
  const text = number(Math.abs(value));
  if (text === "0") return "0";
  return value < 0 ? `−${text}` : `+${text}`;
}
