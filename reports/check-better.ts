// SPDX-License-Identifier: AGPL-3.0-or-later
// A written fingering beside better ones.
import type { ChangeJson } from "../src/report/change-json.js";
import type { BetterJson, CheckJson, CostJson } from "../src/report.js";
import type { Said } from "../src/words.js";
import { anchor } from "./anchors.js";
import { count, moves } from "./words.js";

/** What the page prints about better lines. */
export interface BetterView {
  readonly shown: boolean;
  readonly sentence: Said;
  readonly lines: readonly {
    readonly title: Said;
    readonly open: boolean;
    readonly places: readonly PlaceView[];
  }[];
}

/** A changed place; its readings one by one where the sentence only counts them. */
export interface PlaceView {
  readonly where: string;
  readonly href: string;
  readonly words: string;
  readonly readings: readonly {
    readonly where: string;
    readonly href: string;
    readonly from: string;
    readonly to: string;
  }[];
}

/** Builds the view; nothing is shown where nothing was written. */
export function viewBetter(json: CheckJson): BetterView {
  const { better, total } = json.fingering;
  if (better === null) return { shown: false, sentence: "", lines: [] };
  const lines = better.map((line, i) => ({
    title: `${i === better.length - 1 ? "The best that was found" : "A few changes"}: ${costWords(line.total)}, ${count(line.changes.length, "moment")} played another way`,
    open: i === 0,
    places: line.places.map((place) => viewPlace(place, line.changes)),
  }));
  const sentence =
    better.length === 0
      ? "No fingering costs less than the written one."
      : `As written the line costs ${costWords(total)}. Each line below costs less; the first changes least. What a place saves and costs is counted in spare moves.`;
  return { shown: true, sentence, lines };
}

/** The sentence of a place says so many readings by itself. */
const SAID = 2;

/** A place where a line parts from the one on the page. */
export function viewPlace({ place, sentence, notes, ...span }: ChangeJson, changes: BetterJson["changes"]): PlaceView {
  const own = changes.filter(({ note }) => notes.includes(note));
  const first = own[0]?.note ?? [...span.saves, ...span.costs][0]?.notes[0] ?? "";
  return {
    where: `${place}:`,
    href: first === "" ? "" : `#${anchor("note", first)}`,
    words: String(sentence).slice(`${place}: `.length),
    readings:
      own.length <= SAID
        ? []
        : own.map(({ note, bar, beat, from, to }) => ({
            where: `Bar ${bar}, beat ${beat}:`,
            href: `#${anchor("note", note)}`,
            from: from || "nothing",
            to: to || "nothing",
          })),
  };
}

function costWords(cost: CostJson): string {
  if (cost.blocked === 0) return moves(cost.effort);
  return `${moves(cost.effort)} and ${count(cost.blocked, "note")} left out`;
}
