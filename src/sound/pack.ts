// SPDX-License-Identifier: AGPL-3.0-or-later
// A sound line as short JSON, for the page: rows without names, what is usual left out at the end of a row.
import { ATTACKS, BENDS, type Bent, type LineNote, type Slide, type SoundLine, TOUCHES, type Tone } from "./line.js";

type Row = readonly (number | null | readonly (readonly number[])[])[];

/** A packed line: plain JSON. */
export interface PackedLine {
  readonly strings: readonly number[];
  /** at, string, touch, attack, Hz, until, after, slides, bends: the last ones left out where they are null, 0 or empty */
  readonly tones: readonly Row[];
  /** id, bar, beat, at, lasts */
  readonly notes: readonly (readonly [string, number, string, number, number])[];
  /** label, at */
  readonly bars: readonly (readonly [string, number])[];
  readonly tempo: number | null;
  readonly seconds: number;
}

/** Packs a line. */
export function packLine(line: SoundLine): PackedLine {
  return {
    strings: line.strings,
    tones: line.tones.map(packTone),
    notes: line.notes.map(({ id, bar, beat, at, lasts }) => [id, bar, beat, at, lasts]),
    bars: line.bars.map(({ label, at }) => [label, at]),
    tempo: line.quartersPerMinute,
    seconds: line.seconds,
  };
}

function packTone({ at, after, until, string, touch, attack, hz, slides, bends }: Tone): Row {
  const row = [
    at,
    string,
    TOUCHES.indexOf(touch),
    ATTACKS.indexOf(attack),
    hz,
    until,
    after,
    slides.map((slide) => [slide.at, slide.hz]),
    bends.map((bent) => [bent.at, bent.until, BENDS.indexOf(bent.bend)]),
  ];
  while (isUsual(row.at(-1) ?? null)) row.pop();
  return row;
}

const isUsual = (value: Row[number]): boolean =>
  value === null || value === 0 || (typeof value === "object" && value.length === 0);

/** The line that was packed. */
export function unpackLine({ strings, tones, notes, bars, tempo, seconds }: PackedLine): SoundLine {
  return {
    strings,
    tones: tones.map(unpackTone),
    notes: notes.map(([id, bar, beat, at, lasts]): LineNote => ({ id, bar, beat, at, lasts })),
    bars: bars.map(([label, at]) => ({ label, at })),
    quartersPerMinute: tempo,
    seconds,
  };
}

function unpackTone([at, string, touch, attack, hz, until, after, slides, bends]: Row): Tone {
  return {
    at: number(at),
    after: number(after),
    until: until === undefined || until === null ? null : number(until),
    string: number(string),
    touch: TOUCHES[number(touch)] ?? "open",
    attack: ATTACKS[number(attack)] ?? "tiao",
    hz: number(hz),
    slides: rows(slides).map(([from, to]): Slide => ({ at: number(from), hz: number(to) })),
    bends: rows(bends).map(
      ([from, to, bend]): Bent => ({ at: number(from), until: number(to), bend: BENDS[number(bend)] ?? "yin" }),
    ),
  };
}

const number = (value: Row[number] | undefined): number => (typeof value === "number" ? value : 0);
const rows = (value: Row[number] | undefined): readonly (readonly number[])[] =>
  typeof value === "object" && value !== null ? value : [];
