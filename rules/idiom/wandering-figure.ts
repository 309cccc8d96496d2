// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Left } from "../../src/model/playing.js";
import { printedPosition } from "../../src/model/written-place.js";
import { defineRule } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { barsOf, idsOf, pitchesAt, placeWords, type Run } from "../shared/runs.js";

/** A figure that came before. */
interface Return extends Run {
  /** how many moments earlier it stood */
  readonly back: number;
}

export default defineRule(
  {
    id: "wandering-figure",
    kind: "idiom",
    title: "A figure returns in other places",
    principle:
      "A figure that returns on the same pitches keeps its places: the hand knows it, and the ear its colours.",
    why: "Each new way must be learned, and the same words spoken in another voice sound like other words.",
    whenRight: "Where the return is meant as an echo or an answer in another colour, or where it leads elsewhere.",
    remedy: "Play it as the first time, or the first time as now.",
    cures: ["first-way"],
    sources: ["common practice, no source"],
    unit: "notes",
    parameters: {
      fewest: { default: 4, unit: "notes", doc: "a figure has at least so many", evidence: "our judgement" },
      pitches: { default: 3, unit: "pitches", doc: "and so many different ones", evidence: "our judgement" },
      differs: {
        default: 1,
        unit: "notes",
        doc: "so many notes elsewhere are the way in or out",
        evidence: "our judgement",
      },
      named: { default: 3, unit: "notes", doc: "so many are named in the report", evidence: "our judgement" },
    },
    examples: [
      {
        shows: "the figure returns where it was",
        kind: "passes",
        melody: "D3 F3 G3 A3 D3 F3 G3 A3",
        fingering: [
          ...["san tiao 7", "da 8.5 tiao 5", "da 9 tiao 6", "da 7.9 tiao 6"],
          ...["san tiao 7", "da 8.5 tiao 5", "da 9 tiao 6", "da 7.9 tiao 6"],
        ],
        finds: [],
      },
      {
        shows: "two of its notes on other strings",
        kind: "breaks",
        melody: "D3 F3 G3 A3 D3 F3 G3 A3",
        fingering: [
          ...["san tiao 7", "da 8.5 tiao 5", "da 9 tiao 6", "da 7.9 tiao 6"],
          ...["san tiao 7", "da 10 tiao 6", "da 10 tiao 7", "da 7.9 tiao 6"],
        ],
        finds: [
          [
            8,
            "note",
            "The 4 notes from bar 1 return here with 2 of them played elsewhere: F3 was string 5 at 8.5 and is string 6 at 10; G3 was string 6 at 9 and is string 7 at 10.",
          ],
        ],
      },
      {
        shows: "the same figure an octave higher lies elsewhere by itself",
        kind: "exception",
        melody: "D3 F3 G3 A3 D4 F4 G4 A4",
        fingering: [
          ...["san tiao 7", "da 8.5 tiao 5", "da 9 tiao 6", "da 7.9 tiao 6"],
          ...["da 7 tiao 7", "da 6.2 tiao 7", "da 5.6 tiao 7", "da 5 tiao 7"],
        ],
        finds: [],
      },
    ],
  },
  (values) => {
    /** What a moment sounds and for how long: the same for the notes of a figure that returns. */
    const sounds = (line: Line): readonly string[] =>
      line.moments.map(({ notes }) => notes.map((n) => `${n.semitone} ${n.source.duration.toFraction()}`).join("+"));

    const beatAt = ({ moments }: Line, at: number): string => moments[at]?.notes[0]?.source.beat ?? "";

    /** Figures that came before on the same beats, as long as they go; each is compared to its first time. */
    const returnsOf = (line: Line): readonly Return[] => {
      const words = sounds(line);
      const first = new Map<string, number>();
      const found: Return[] = [];
      const alike = (a: number, b: number, inside: boolean): boolean =>
        words[a] === words[b] && (!inside || line.moments[a]?.silent === line.moments[b]?.silent);
      for (let at = 0; at + values.fewest <= words.length; at++) {
        const key = [beatAt(line, at), ...words.slice(at, at + values.fewest)].join(" ");
        const earlier = first.get(key);
        if (earlier === undefined || earlier + values.fewest > at) {
          if (earlier === undefined) first.set(key, at);
          continue;
        }
        let to = at;
        while (to < words.length && earlier + (to - at) < at && alike(earlier + (to - at), to, to > at)) to += 1;
        if (to - at < values.fewest) continue;
        found.push({ from: at, to: to - 1, back: at - earlier });
        at = to - 1;
      }
      return found;
    };

    const placesIn = ({ placed }: Left): string => placed.map(placeWords).join(" and ");

    /** The same as their writer wrote them. */
    const writtenAt = ({ moments, lefts }: Line, at: number): string =>
      (lefts[at] as Left).placed
        .map((placed) => {
          const given = moments[at]?.notes[placed.note]?.given.position ?? null;
          return placeWords({ ...placed, position: printedPosition(placed, given) });
        })
        .join(" and ");

    /** Moments of a figure that are placed otherwise than the first time. */
    const elsewhere = ({ lefts }: Line, { from, to, back }: Return): readonly number[] =>
      lefts.flatMap((left, at) =>
        at >= from && at <= to && placesIn(left) !== placesIn(lefts[at - back] as Left) ? [at] : [],
      );

    const finding = (line: Line, figure: Return, changed: readonly number[]): PassageFinding => {
      const earlier = { from: figure.from - figure.back, to: figure.to - figure.back };
      const told = changed.map((at) => {
        return `${pitchesAt(line, at)} was ${writtenAt(line, at - figure.back)} and is ${writtenAt(line, at)}`;
      });
      const different = [...new Set(told)];
      const named = different.slice(0, values.named).join("; ");
      const more = different.length > values.named ? "; and more" : "";
      return {
        notes: idsOf(line, figure),
        severity: "note",
        measured: changed.length,
        limit: values.differs,
        message: `The ${figure.to - figure.from + 1} notes from ${barsOf(line, { from: earlier.from, to: earlier.from })} return here with ${changed.length} of them played elsewhere: ${named}${more}.`,
      };
    };

    return {
      reach: "passage",
      look: (line) => {
        const figures = returnsOf(line).filter(
          ({ from, to }) =>
            new Set(line.moments.slice(from, to + 1).map(({ notes }) => notes[0]?.semitone)).size >= values.pitches,
        );
        const findings = figures.flatMap((figure) => {
          const changed = elsewhere(line, figure);
          return changed.length > values.differs ? [finding(line, figure, changed)] : [];
        });
        return { looked: figures.length, findings };
      },
    };
  },
);
