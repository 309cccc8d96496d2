// SPDX-License-Identifier: AGPL-3.0-or-later
// The note-position table with this melody's places marked, and the few numbers of the summary.
import { NUT_POSITION } from "../model/board.js";
import { flatsFor, gongAt } from "../model/melody-gong.js";
import type { MomentNote } from "../model/moments.js";
import { DEGREES, degreeAbove, isCore, pitchClassName, placesOnString } from "../model/note-table.js";
import { pitchName } from "../model/pitch.js";
import type { Left, Placed } from "../model/playing.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import type { KeyFigure, PositionTable } from "../report.js";
import type { Played } from "../search/charges.js";
import { phrase, type Said } from "../words.js";

/** Every placed note of a line with the note that it sounds. */
function placedNotes(played: Played): readonly { readonly placed: Placed; readonly note: MomentNote }[] {
  return played.moments.flatMap((moment, at) =>
    (played.lefts[at] as Left).placed.map((placed) => ({ placed, note: moment.notes[placed.note] as MomentNote })),
  );
}

/** The note-position table of the tuning and mode, the melody's own places counted. */
export function positionTable(score: Score, setting: Setting, played: Played): PositionTable {
  const gong = gongAt(score, setting);
  const flats = flatsFor(gong);
  const sounded = placedNotes(played);
  const uses = new Map<string, number>();
  const used = new Set<number>();
  for (const { placed, note } of sounded) {
    used.add(degreeAbove(note.semitone, gong));
    if (placed.sound === "harmonic" || placed.mismatch) continue;
    const key = `${note.semitone % 12} ${placed.string} ${placed.position ?? NUT_POSITION}`;
    uses.set(key, (uses.get(key) ?? 0) + 1);
  }
  const rows = DEGREES.filter((degree) => degree.name !== "" || used.has(degree.semitones))
    .filter((degree) => degree.name !== "rùn" || used.has(degree.semitones))
    .map((degree) => {
      const pitchClass = (gong + degree.semitones) % 12;
      const cells = [1, 2, 3, 4, 5, 6, 7].map((string) => ({
        places: withHigher(placesOnString(pitchClass, string, { ...setting, gong }), pitchClass, string, uses).map(
          (position) => ({
            position,
            uses: uses.get(`${pitchClass} ${string} ${position}`) ?? 0,
          }),
        ),
      }));
      return {
        degree: degree.degree,
        name: degree.name,
        pitchClass: pitchClassName(pitchClass, flats),
        core: degree.core,
        cells,
      };
    });
  return { gong: pitchClassName(gong, flats), rows, harmonics: harmonicUses(sounded) };
}

/** The usual places, and those above hui 4 that the melody uses all the same. */
function withHigher(
  places: readonly number[],
  pitchClass: number,
  string: number,
  uses: ReadonlyMap<string, number>,
): readonly number[] {
  const own = [...uses.keys()]
    .map((key) => key.split(" ").map(Number))
    .filter(([pc, s]) => pc === pitchClass && s === string);
  return [...new Set([...places, ...own.map((parts) => parts[2] as number)])].sort((a, b) => b - a);
}

function harmonicUses(sounded: ReturnType<typeof placedNotes>): PositionTable["harmonics"] {
  const found = new Map<string, { string: number; hui: number; pitch: string; uses: number }>();
  for (const { placed, note } of sounded) {
    if (placed.sound !== "harmonic") continue;
    const hui = placed.position as number;
    const key = `${placed.string} ${hui}`;
    const uses = (found.get(key)?.uses ?? 0) + 1;
    found.set(key, { string: placed.string, hui, pitch: pitchName(note.sounding), uses });
  }
  return [...found.values()].sort((a, b) => a.string - b.string || a.hui - b.hui);
}

/** How a line lies, in numbers. */
export interface LineFigures {
  readonly notes: number;
  readonly open: number;
  readonly harmonics: number;
  /** stopped right at a hui */
  readonly onHui: number;
  /** stopped outside the five-tone scale of the key */
  readonly offPattern: number;
  /** name of that scale's tone 1 */
  readonly gong: string;
  readonly lowest: MomentNote;
  readonly highest: MomentNote;
}

/** Counts how a line lies. */
export function lineFigures(score: Score, setting: Setting, played: Played): LineFigures {
  const sounded = placedNotes(played);
  const gong = gongAt(score, setting);
  const all = played.moments.flatMap((moment) => moment.notes);
  const stopped = sounded.filter(({ placed }) => placed.sound === "stopped");
  const withSound = (sound: Placed["sound"]): number => sounded.filter(({ placed }) => placed.sound === sound).length;
  return {
    notes: all.length,
    open: withSound("open"),
    harmonics: withSound("harmonic"),
    onHui: stopped.filter(({ placed }) => Number.isInteger(placed.position)).length,
    offPattern: stopped.filter(({ note }) => !isCore(note.semitone, gong)).length,
    gong: pitchClassName(gong, flatsFor(gong)),
    lowest: all.reduce((a, b) => (b.semitone < a.semitone ? b : a)),
    highest: all.reduce((a, b) => (b.semitone > a.semitone ? b : a)),
  };
}

/** The outermost notes that sound; of all notes where none can. */
function soundingRange(played: Played): Pick<LineFigures, "lowest" | "highest"> {
  const placed = placedNotes(played).map(({ note }) => note);
  const all = placed.length > 0 ? placed : played.moments.flatMap((moment) => moment.notes);
  return {
    lowest: all.reduce((a, b) => (b.semitone < a.semitone ? b : a)),
    highest: all.reduce((a, b) => (b.semitone > a.semitone ? b : a)),
  };
}

/** The numbers behind the verdict, in the order they are to be read. */
export function keyFigures(score: Score, setting: Setting, played: Played): readonly KeyFigure[] {
  const { notes, open, harmonics, onHui, offPattern, gong } = lineFigures(score, setting, played);
  const { lowest, highest } = soundingRange(played);
  const [bottom, top] = [pitchName(lowest.sounding), pitchName(highest.sounding)];
  const figure = (n: number, label: Said): KeyFigure => ({ value: String(n), label });
  return [
    { value: String(notes), label: phrase(notes === 1 ? "note" : "notes", "个音") },
    figure(open, phrase("on open strings", "个散音")),
    figure(onHui, phrase("stopped right at a stud (hui)", "个按音正在徽上")),
    ...(harmonics > 0 ? [figure(harmonics, phrase("in harmonics", "个泛音"))] : []),
    figure(offPattern, phrase(`stopped outside the five-tone scale on ${gong}`, `个按音在以${gong}为宫的五声音阶之外`)),
    {
      value: phrase(`${bottom} to ${top}`, `${bottom}至${top}`),
      label: phrase("range as it sounds", "实际音域"),
    },
  ];
}
