// SPDX-License-Identifier: AGPL-3.0-or-later
// What the sample report draws: from its notes by the written places, every kind of rule charged somewhere.
import { cmFromBridge } from "../../src/model/board.js";
import type { Score } from "../../src/model/score.js";
import { STANDARD } from "../../src/model/tuning.js";
import { directionOf, type PictureMoment, type Pictures, pictureZones } from "../../src/report/pictures.js";
import type { NoteJson, RuleKind } from "../../src/report.js";

const SCALE_LENGTH_CM = 110;
const KINDS: readonly RuleKind[] = ["efficiency", "idiom", "range", "intonation", "character", "notation"];

const cmOf = ({ sound, position }: NoteJson): number =>
  sound === "open" || position === null
    ? SCALE_LENGTH_CM
    : Math.round(10 * cmFromBridge(position, SCALE_LENGTH_CM)) / 10;

/** The notes of each moment: chords together. */
function moments(json: readonly NoteJson[]): readonly (readonly [NoteJson, ...NoteJson[]])[] {
  const groups: [NoteJson, ...NoteJson[]][] = [];
  for (const note of json) {
    const last = groups.at(-1);
    if (note.chord !== null && last?.[0].chord === note.chord) last.push(note);
    else groups.push([note]);
  }
  return groups;
}

/** The pictures of a score and its fingering. */
export function samplePictures(score: Score, json: readonly NoteJson[]): Pictures {
  const sources = new Map(score.notes.map((note) => [note.id, note]));
  let hand: number | null = null;
  let before: string | null = null;
  const drawn = moments(json).map((notes): PictureMoment => {
    const [first] = notes;
    const source = sources.get(first.id);
    const bar = source?.bar ?? 0;
    const touched = notes.find(({ sound }) => sound === "stopped" || sound === "harmonic");
    const cm = touched === undefined ? null : cmOf(touched);
    const travelCm = cm === null || hand === null ? 0 : Math.round(10 * Math.abs(cm - hand)) / 10;
    hand = cm ?? hand;
    const strokes = notes.flatMap(({ stroke }) => stroke ?? []);
    const direction = directionOf(strokes);
    const breakEffort = strokes.length > 0 && before === direction ? 0.9 : 0;
    before = strokes.length > 0 ? direction : before;
    return {
      notes: notes.map(({ id }) => id),
      bar,
      onset: source?.onset.sub(score.bars[bar]?.onset ?? source.onset).valueOf() ?? 0,
      grace: first.grace,
      places: notes.flatMap((note) => {
        const { string, sound, position, finger } = note;
        return string === null || sound === null ? [] : [{ string, sound, position, cm: cmOf(note), finger }];
      }),
      travelCm,
      stroke: strokes.length === 0 ? null : { strokes, compound: first.compound, direction, breakEffort },
      planted: first.planted,
    };
  });
  return {
    scaleLengthCm: SCALE_LENGTH_CM,
    spanCm: 11,
    zones: pictureZones({ tuning: STANDARD, gong: 5, temperament: "pythagorean" }),
    moments: drawn,
    bars: score.bars.map(({ index }) => barEffort(json.filter(({ id }) => sources.get(id)?.bar === index))),
  };
}

function barEffort(notes: readonly NoteJson[]): Pictures["bars"][number] {
  const thousandths = notes.map(({ effort }) => Math.round(1000 * effort));
  const kinds = KINDS.map((kind, k) => ({
    kind,
    effort: thousandths.filter((_, i) => (i * i) % KINDS.length === k).reduce((sum, effort) => sum + effort, 0) / 1000,
  })).filter(({ effort }) => effort > 0);
  return {
    blocked: notes.reduce((sum, { blocked }) => sum + blocked, 0),
    effort: thousandths.reduce((sum, effort) => sum + effort, 0) / 1000,
    kinds,
  };
}
