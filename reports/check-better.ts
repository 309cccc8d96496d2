// SPDX-License-Identifier: AGPL-3.0-or-later
// A written fingering beside better ones.
import type { ChangeJson } from "../src/report/change-json.js";
import type { BetterJson, CheckJson, CostJson } from "../src/report.js";
import { joined, type Phrase, phrase, type Said } from "../src/words.js";
import { anchor } from "./anchors.js";
import { COLON, changedWords, count, moves, placeWords } from "./words.js";

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
  readonly where: Said;
  readonly href: string;
  readonly words: Said;
  readonly readings: readonly {
    readonly where: Said;
    readonly href: string;
    readonly from: Said;
    readonly to: Said;
  }[];
}

const BEST = phrase("The best that was found", "找到的最佳");
const FEWER = phrase("A few changes", "少改几处");

/** Builds the view; nothing is shown where nothing was written. */
export function viewBetter(json: CheckJson): BetterView {
  const { better, total } = json.fingering;
  if (better === null) return { shown: false, sentence: "", lines: [] };
  const lines = better.map((line, i) => {
    const cost = costWords(line.total);
    const moments = line.changes.length;
    const name = i === better.length - 1 ? BEST : FEWER;
    return {
      title: phrase(
        `${name.en}: ${cost.en}, ${count(moments, "moment")} played another way`,
        `${name.zh}：${cost.zh}，${moments}处换了弹法`,
      ),
      open: i === 0,
      places: line.places.map((place) => viewPlace(place, line.changes)),
    };
  });
  const own = costWords(total);
  const sentence =
    better.length === 0
      ? phrase("No fingering costs less than the written one.", "没有比所写更省力的指法。")
      : phrase(
          `As written the line costs ${own.en}. Each line below costs less; the first changes least. What a place saves and costs is counted in spare moves.`,
          `照所写，全曲费${own.zh}。下面每一种都更省，第一种改动最少。每处省多少、费多少，都以空动计。`,
        );
  return { shown: true, sentence, lines };
}

/** The sentence of a place says so many readings by itself. */
const SAID = 2;

/** A place where a line parts from the one on the page. */
export function viewPlace({ place, rest, notes, ...span }: ChangeJson, changes: BetterJson["changes"]): PlaceView {
  const own = changes.filter(({ note }) => notes.includes(note));
  const first = own[0]?.note ?? [...span.saves, ...span.costs][0]?.notes[0] ?? "";
  return {
    where: joined([place, COLON]),
    href: first === "" ? "" : `#${anchor("note", first)}`,
    words: rest,
    readings:
      own.length <= SAID
        ? []
        : own.map(({ note, bar, beat, from, to }) => ({
            where: joined([placeWords(bar, beat), COLON]),
            href: `#${anchor("note", note)}`,
            from: changedWords(from),
            to: changedWords(to),
          })),
  };
}

function costWords(cost: CostJson): Phrase {
  const effort = moves(cost.effort);
  if (cost.blocked === 0) return effort;
  return phrase(`${effort.en} and ${count(cost.blocked, "note")} left out`, `${effort.zh}，另略去${cost.blocked}个音`);
}
