// SPDX-License-Identifier: AGPL-3.0-or-later

import { flatsFor } from "../../src/model/melody-gong.js";
import { isCore, pitchClassName, placesOnString } from "../../src/model/note-table.js";
import { pitchName } from "../../src/model/pitch.js";
import { printedPosition } from "../../src/model/written-place.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { type Stretch, straysFrom, stretchesOf, type Tone, tonesOf } from "../shared/modes.js";
import { times } from "../shared/runs.js";

/** All tones on one gong. */
type OnGong = Pick<Stretch, "gong" | "tones">;

export default defineRule(
  {
    id: "stray-position",
    kind: "idiom",
    title: "A place off the pattern of the mode",
    principle:
      "In a tuning and mode each string has its places for the five tones, learned by heart; a stop beside them is heard as a tone from another mode, and several in a row announce that mode.",
    why: "The hand goes to the places that it knows. In standard tuning on F, the place next below hui 7 is 7.9 on strings 1, 3 and 6 and 7.6 on the others: 7.9 on string 4 is E, and tells a player that the mode has changed.",
    whenRight: "As a passing tone that a slide touches, or where the mode does change and the change is marked.",
    remedy: "Mark the change of mode where one is meant, or take the tone of the scale beside it.",
    cures: ["setting"],
    sources: [
      "common practice, no source; the places are computed for the tuning and the mode",
      "the shares and counts: our judgement",
    ],
    unit: "share",
    parameters: {
      announces: {
        default: 3,
        unit: "places",
        doc: "strays that announce a mode in which they all have a place",
        evidence: "our judgement",
      },
      within: { default: 8, unit: "notes", doc: "so near together", evidence: "our judgement" },
      tones: {
        default: 3,
        unit: "tones",
        doc: "different tones among those notes, all of the new mode",
        evidence: "our judgement",
      },
      limit: {
        default: 0.15,
        unit: "share",
        doc: "strays among all notes: beyond it the tune is one of seven tones or more, and is told so once",
        evidence: "our judgement",
      },
      few: {
        default: 3,
        unit: "places",
        doc: "so many are told one by one, however short the line",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "7.6 on string 4 and 7.9 on string 6, where F-gong has them",
        kind: "passes",
        melody: "F3 A3 G3",
        fingering: ["da 7.6 tiao 4", "da 7.9 tiao 6", "da 7.6 tiao 5"],
        finds: [],
      },
      {
        shows: "7.9 on string 4",
        kind: "breaks",
        melody: "F3 E3 F3 G3",
        fingering: ["da 7.6 tiao 4", "da 7.9 tiao 4", "da 7.6 tiao 4", "da 7.6 tiao 5"],
        finds: [[2, "note", "7.9 on string 4 is E3, outside the five tones of F-gong, which has 7.6 (F) there."]],
      },
      {
        shows: "E in place of F, again and again: the places of C-gong",
        kind: "breaks",
        melody: "F3 G3 A3 F3 E3 G3 E3 D3 C3 E3",
        fingering: [
          ...["da 7.6 tiao 4", "da 7.6 tiao 5", "da 7.9 tiao 6", "da 7.6 tiao 4"],
          ...["da 7.9 tiao 4", "da 7.6 tiao 5", "da 7.9 tiao 4", "san tiao 7", "san tiao 6", "ming 9 gou 5"],
        ],
        finds: [
          [
            10,
            "note",
            "From bar 2 the places are those of C-gong, where the key is that of F-gong: 7.9 on string 4 (E3), 9 on string 5 (E3).",
          ],
        ],
      },
      {
        shows: "E as a passing tone that a slide touches",
        kind: "exception",
        melody: "(D3 E3) D3 C3",
        fingering: ["ming 10 gou 5", "shang 9", "san tiao 7", "san tiao 6"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const nameOf = (gong: number): string => `${pitchClassName(gong, flatsFor(gong))}-gong`;
    const bar = (line: Line, tone: Tone): string => line.score.bars[tone.note.source.bar]?.label ?? "";

    /** The places of the mode next to a stray on its string, in words; empty above hui 4. */
    const besides = ({ placed, note }: Tone, gong: number): string => {
      const beside = [-1, 1].flatMap((step) => {
        const pitchClass = (note.semitone + step + 12) % 12;
        if (!isCore(pitchClass, gong)) return [];
        const places = placesOnString(pitchClass, placed.string, setting);
        const far = (place: number): number => Math.abs(place - placed.exact);
        const place = places.reduce((a, b) => (far(b) < far(a) ? b : a), Number.POSITIVE_INFINITY);
        return far(place) > 1
          ? []
          : [`${place === 14 ? "the open string" : place} (${pitchClassName(pitchClass, flatsFor(gong))})`];
      });
      return beside.length === 0 ? "" : `, which has ${beside.join(" and ")} there`;
    };

    /** One place that strays, however often it comes. */
    const strayFinding = (gong: number, tones: readonly Tone[]): PassageFinding => {
      const { placed, note } = tones[0] as Tone;
      const often = tones.length === 1 ? "" : ` It comes ${times(tones.length)}.`;
      return {
        notes: tones.map((tone) => tone.note.source.id),
        severity: "note",
        measured: null,
        limit: null,
        message: `${printedPosition(placed, note.given.position)} on string ${placed.string} is ${pitchName(note.sounding)}, outside the five tones of ${nameOf(gong)}${besides(tones[0] as Tone, gong)}.${often}`,
      };
    };

    /** A tune that is not of five tones: told once. */
    const manyFinding = ({ gong, tones }: OnGong, off: readonly Tone[]): PassageFinding => {
      const counts = [...byKey(off, ({ note }) => pitchName(note.sounding).replace(/-?\d+$/, ""))]
        .sort(([, a], [, b]) => b.length - a.length)
        .map(([name, { length }]) => `${name} ${times(length)}`);
      const share = off.length / tones.length;
      return {
        notes: off.map((tone) => tone.note.source.id),
        severity: "note",
        measured: share,
        limit: values.limit,
        message: `${off.length} of ${tones.length} notes (${plain(100 * share)} %, limit ${plain(100 * values.limit)} %) are stopped off the pattern of ${nameOf(gong)}: ${counts.join(", ")}. A player reads the tune as one of more than five tones and looks for each of these places.`,
      };
    };

    const straysOn = (one: OnGong): readonly PassageFinding[] => {
      const off = one.tones.filter((tone) => straysFrom(tone, one.gong));
      if (off.length > values.few && off.length / one.tones.length > values.limit) return [manyFinding(one, off)];
      const places = byKey(off, ({ placed }) => `${placed.string} ${placed.position}`);
      return [...places.values()].map((tones) => strayFinding(one.gong, tones));
    };

    /** A stretch in another mode than the key says. */
    const changeFinding = (line: Line, stretch: Stretch, next: Stretch | undefined): PassageFinding => {
      const off = stretch.tones.filter((tone) => straysFrom(tone, stretch.home));
      const places = [...byKey(off, ({ placed }) => `${placed.position} on string ${placed.string}`)].map(
        ([, [tone]]) => placeAndNote(tone as Tone),
      );
      const back =
        next?.gong === next?.home && next !== undefined
          ? ` From bar ${bar(line, next.tones[0] as Tone)} they are those of ${nameOf(next.gong)} again.`
          : "";
      return {
        notes: off.map((tone) => tone.note.source.id),
        severity: "note",
        measured: null,
        limit: null,
        message: `From bar ${bar(line, stretch.tones[0] as Tone)} the places are those of ${nameOf(stretch.gong)}, where the key is that of ${nameOf(stretch.home)}: ${places.join(", ")}.${back}`,
      };
    };

    return {
      reach: "passage",
      look: (line) => {
        const tones = tonesOf(line);
        const stretches = stretchesOf(line, tones, values);
        const changes = stretches.flatMap((stretch, i) =>
          stretch.gong === stretch.home ? [] : [changeFinding(line, stretch, stretches[i + 1])],
        );
        const byGong = [...byKey(stretches, ({ gong }) => gong)].map(([gong, ones]) => ({
          gong,
          tones: ones.flatMap((one) => one.tones),
        }));
        return { looked: tones.filter(({ stop }) => stop).length, findings: [...changes, ...byGong.flatMap(straysOn)] };
      },
    };
  },
);

/** "7.9 on string 4 (E3)", the place as it is written. */
function placeAndNote({ placed, note }: Tone): string {
  return `${printedPosition(placed, note.given.position)} on string ${placed.string} (${pitchName(note.sounding)})`;
}

/** Groups in order of their first member. */
function byKey<T, K>(all: readonly T[], keyOf: (one: T) => K): ReadonlyMap<K, readonly T[]> {
  const groups = new Map<K, T[]>();
  for (const one of all) {
    const group = groups.get(keyOf(one));
    if (group === undefined) groups.set(keyOf(one), [one]);
    else group.push(one);
  }
  return groups;
}
