// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Left } from "../../src/model/playing.js";
import { printedPosition } from "../../src/model/written-place.js";
import { defineRule } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { joined, type Phrase, phrase, phraseOf } from "../../src/words.js";
import { barsOf, idsOf, pitchesAt, placeKey, placeWords, type Run } from "../shared/runs.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** A figure that came before. */
interface Return extends Run {
  /** how many moments earlier it stood */
  readonly back: number;
}

export default defineRule(
  {
    id: "wandering-figure",
    kind: "idiom",
    title: phrase("A figure returns in other places", "音型再现，换了音位"),
    principle: phrase(
      "A figure that returns on the same pitches keeps its places: the hand knows it, and the ear its colours.",
      "音型在原来的音高上再现，音位就不变：手认得它，耳朵认得它的音色。",
    ),
    why: phrase(
      "Each new way must be learned, and the same words spoken in another voice sound like other words.",
      "每换一种弹法都要另学；同一句话换副嗓音说出来，就像另一句话。",
    ),
    whenRight: phrase(
      "Where the return is meant as an echo or an answer in another colour, or where it leads elsewhere.",
      "再现有意作回声，或以另一种音色应答；或由此引向别处。",
    ),
    remedy: phrase("Play it as the first time, or the first time as now.", "照第一次那样弹，或把第一次改成现在这样。"),
    cures: ["first-way"],
    sources: [COMMON_PRACTICE],
    unit: "notes",
    parameters: {
      fewest: {
        default: 4,
        unit: "notes",
        doc: phrase("a figure has at least so many", "一个音型至少有这么多个音"),
        evidence: "our judgement",
      },
      pitches: {
        default: 3,
        unit: "pitches",
        doc: phrase("and so many different ones", "其中至少有这么多个不同的音高"),
        evidence: "our judgement",
      },
      differs: {
        default: 1,
        unit: "notes",
        doc: phrase("so many notes elsewhere are the way in or out", "这么多个音换了音位，只算进出的衔接"),
        evidence: "our judgement",
      },
      named: {
        default: 3,
        unit: "notes",
        doc: phrase("so many are named in the report", "报告里举出这么多处"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("the figure returns where it was", "音型再现，音位不变"),
        kind: "passes",
        melody: "D3 F3 G3 A3 D3 F3 G3 A3",
        fingering: [
          ...["san tiao 7", "da 8.5 tiao 5", "da 9 tiao 6", "da 7.9 tiao 6"],
          ...["san tiao 7", "da 8.5 tiao 5", "da 9 tiao 6", "da 7.9 tiao 6"],
        ],
        finds: [],
      },
      {
        shows: phrase("two of its notes on other strings", "其中两个音换了弦"),
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
            phrase(
              "The 4 notes from bar 1 return here with 2 of them played elsewhere: F3 was string 5 at 8.5 and is string 6 at 10; G3 was string 6 at 9 and is string 7 at 10.",
              "第1小节的4个音在这里再现，其中2个换了音位：F3原在五弦八徽五分，现在六弦十徽；G3原在六弦九徽，现在七弦十徽。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same figure an octave higher lies elsewhere by itself", "同一音型高八度，音位自然不同"),
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

    const placesIn = ({ placed }: Left): string => placed.map(placeKey).join("+");

    /** The places of a moment as their writer wrote them. */
    const writtenAt = ({ moments, lefts }: Line, at: number): Phrase =>
      joined(
        (lefts[at] as Left).placed.map((placed) => {
          const given = moments[at]?.notes[placed.note]?.given.position ?? null;
          return placeWords({ ...placed, position: printedPosition(placed, given) });
        }),
        phrase(" and ", "和"),
      );

    /** Moments of a figure that are placed otherwise than the first time. */
    const elsewhere = ({ lefts }: Line, { from, to, back }: Return): readonly number[] =>
      lefts.flatMap((left, at) =>
        at >= from && at <= to && placesIn(left) !== placesIn(lefts[at - back] as Left) ? [at] : [],
      );

    const finding = (line: Line, figure: Return, changed: readonly number[]): PassageFinding => {
      const earlier = figure.from - figure.back;
      const told = changed.map((at) => {
        const [was, is] = [writtenAt(line, at - figure.back), writtenAt(line, at)];
        return phraseOf({
          en: (say) => `${pitchesAt(line, at)} was ${say(was)} and is ${say(is)}`,
          zh: (say) => `${pitchesAt(line, at)}原在${say(was)}，现在${say(is)}`,
        });
      });
      const different = [...new Map(told.map((one) => [one.en, one])).values()];
      const named = joined(different.slice(0, values.named), phrase("; ", "；"));
      const more = different.length > values.named ? phrase("; and more", "；等等") : "";
      const first = barsOf(line, { from: earlier, to: earlier });
      const count = figure.to - figure.from + 1;
      return {
        notes: idsOf(line, figure),
        severity: "note",
        measured: changed.length,
        limit: values.differs,
        message: phraseOf({
          en: (say) =>
            `The ${count} notes from ${say(first)} return here with ${changed.length} of them played elsewhere: ${say(named)}${say(more)}.`,
          zh: (say) =>
            `${say(first)}的${count}个音在这里再现，其中${changed.length}个换了音位：${say(named)}${say(more)}。`,
        }),
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
