// SPDX-License-Identifier: AGPL-3.0-or-later
// Words that the page and the terminal share when two fingerings are compared.

import type { CompareJson } from "../src/report/compare.js";
import type { CostJson } from "../src/report.js";
import { type Phrase, phrase, type Said } from "../src/words.js";
import { count, moves, number } from "./words.js";

const SOURCES = {
  submitted: phrase("as the score gives it", "照乐谱所给"),
  completed: phrase("given in part, the rest found", "部分给出，其余搜索补全"),
  searched: phrase("found by search", "搜索得出"),
} as const;

/** What a side is: "evening.musicxml, as its score gives it". */
export function sideWords(json: CompareJson, side: "a" | "b"): Phrase {
  const { file, source } = json[side];
  if (file === null) return phrase("The best fingering that was found", "找到的最佳指法");
  return phrase(`${file}, ${SOURCES[source].en}`, `${file}，${SOURCES[source].zh}`);
}

/** A total: "7.14 spare moves", "7.14 spare moves and 2 places that cannot be played". */
export function costWords({ blocked, effort }: CostJson): Phrase {
  const own = moves(effort);
  return blocked === 0
    ? own
    : phrase(`${own.en} and ${count(blocked, "place")} that cannot be played`, `${own.zh}，另有${blocked}处不能弹`);
}

/** A cost within a table: "0.3"; what cannot be played stands before it. */
export function amountWords({ blocked, effort }: CostJson): Said {
  const own = number(effort);
  if (blocked === 0) return own;
  return phrase(blocked === 1 ? `stops, ${own}` : `${blocked} stops, ${own}`, `${blocked}处不能弹，${own}`);
}

/** A difference within a table: "+0.3", "−2.1"; what cannot be played stands before it. */
export function differenceWords({ blocked, effort }: CostJson): Said {
  const own = signed(effort);
  return blocked === 0 ? own : phrase(`${signed(blocked)} stop, ${own}`, `${signed(blocked)}处不能弹，${own}`);
}

/** A number with its sign: "+0.3", "−2.1", "0". */
export function signed(value: number): string {
  const text = number(Math.abs(value));
  if (text === "0") return "0";
  return value < 0 ? `−${text}` : `+${text}`;
}
