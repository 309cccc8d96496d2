// SPDX-License-Identifier: AGPL-3.0-or-later
// Fingerings of the whole line that really differ.
import type { CheckJson, WayJson } from "../src/report.js";
import { type Phrase, phrase, phraseOf, type Said } from "../src/words.js";
import { type PlaceView, viewPlace } from "./check-better.js";
import { number, spareMoves } from "./words.js";

/** What the page prints about other ways. */
export interface WaysView {
  readonly shown: boolean;
  readonly lines: readonly {
    readonly title: Said;
    readonly traits: Said;
    readonly places: readonly PlaceView[];
  }[];
}

/** Builds the view; nothing is shown where none were asked for. */
export function viewWays(json: CheckJson): WaysView {
  const [first, ...others] = json.fingering.ways ?? [];
  if (first === undefined) return { shown: false, lines: [] };
  return {
    shown: others.length > 0,
    lines: others.map((way) => ({
      title: wayTitle(way, first),
      traits: wayTraits(way),
      places: way.places.map((place) => viewPlace(place, way.changes)),
    })),
  };
}

/** "0.614 spare moves more, 45 % of the notes elsewhere". */
export function wayTitle(way: WayJson, first: WayJson): Phrase {
  const blocked = way.total.blocked - first.total.blocked;
  const more = Math.round(1000 * (way.total.effort - first.total.effort)) / 1000;
  const effort = spareMoves(number(more), more);
  const cost =
    blocked > 0
      ? phrase(`${blocked} more left out`, `多略去${blocked}个音`)
      : phrase(`${effort.en} more`, `多费${effort.zh}`);
  const share = Math.round(100 * way.elsewhere);
  return phrase(`${cost.en}, ${share} % of the notes elsewhere`, `${cost.zh}，${share}%的音换了音位`);
}

/** What sets a way apart, as a sentence; empty where nothing but the places does. */
export function wayTraits({ traits }: WayJson): Said {
  if (traits.length === 0) return "";
  return phraseOf({
    en: (say) =>
      `${traits
        .map(say)
        .join(", ")
        .replace(/^./, (letter) => letter.toUpperCase())}.`,
    zh: (say) => `${traits.map(say).join("，")}。`,
  });
}
