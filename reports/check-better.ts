// SPDX-License-Identifier: AGPL-3.0-or-later
// A written fingering beside better ones.
import type { CheckJson, CostJson } from "../src/report.js";
import { anchor } from "./anchors.js";
import { count, moves } from "./words.js";

/** What the page prints about better lines. */
export interface BetterView {
  readonly shown: boolean;
  readonly sentence: string;
  readonly lines: readonly {
    readonly title: string;
    readonly open: boolean;
    readonly changes: readonly {
      readonly where: string;
      readonly href: string;
      readonly from: string;
      readonly to: string;
    }[];
  }[];
}

/** Builds the view; nothing is shown where nothing was written. */
export function viewBetter(json: CheckJson): BetterView {
  const { better, total } = json.fingering;
  if (better === null) return { shown: false, sentence: "", lines: [] };
  const lines = better.map((line, i) => ({
    title: `${i === better.length - 1 ? "The best that was found" : "A few changes"}: ${costWords(line.total)}, ${count(line.changes.length, "moment")} played another way`,
    open: i === 0,
    changes: line.changes.map(({ note, bar, beat, from, to }) => ({
      where: `Bar ${bar}, beat ${beat}:`,
      href: `#${anchor("note", note)}`,
      from: from || "nothing",
      to: to || "nothing",
    })),
  }));
  const sentence =
    better.length === 0
      ? "No fingering costs less than the written one."
      : `As written the line costs ${costWords(total)}. Each line below costs less; the first changes least.`;
  return { shown: true, sentence, lines };
}

function costWords(cost: CostJson): string {
  if (cost.blocked === 0) return moves(cost.effort);
  return `${moves(cost.effort)} and ${count(cost.blocked, "note")} left out`;
}
