// SPDX-License-Identifier: AGPL-3.0-or-later
// One bar of the melody as the content of an MEI layer: notes, rests, beams, tuplets, accidentals.
import type { Pitch } from "../model/pitch.js";
import type { Bar, Key, Meter, Score } from "../model/score.js";
import { type Quarters, quarters } from "../model/time.js";
import type { Piece } from "./pieces.js";
import { CELL_UNITS, GRACE_STEP_UNITS } from "./room.js";
import { findTuplets, type NoteValue, noteValues, restValues, type TupletRatio } from "./values.js";

/** Where the printed parts of each note stand: for ties and slurs. Index = index into the score's notes. */
export type PartsOfNotes = { readonly id: string; readonly bar: number }[][];

interface Event {
  readonly value: NoteValue;
  readonly piece: Piece;
  /** 0 for the first printed part of the piece in this bar */
  readonly part: number;
  readonly at: Quarters;
  readonly tuplet: number | null;
}

/**
 * The content of the layer of one bar.
 *
 * @param parts takes up the ids of the printed parts of every note
 */
export function layerOf(score: Score, bar: Bar, pieces: readonly Piece[], parts: PartsOfNotes): string {
  if (pieces.every((piece) => piece.notes.length === 0) && isFull(bar)) return "<mRest/>";
  const ratios: (TupletRatio | null)[] = [];
  const events: Event[] = [];
  for (const group of findTuplets(pieces.map((piece) => piece.length))) {
    const tuplet = group.ratio === null ? null : ratios.push(group.ratio) - 1;
    for (const piece of pieces.slice(group.first, group.first + group.count)) {
      events.push(...eventsOf(piece, bar, tuplet, group.ratio));
    }
  }
  return writeEvents(score, bar, events, ratios, parts);
}

function eventsOf(piece: Piece, bar: Bar, tuplet: number | null, ratio: TupletRatio | null): readonly Event[] {
  const printed = ratio === null ? piece.length : piece.length.mul(ratio.num).div(ratio.base);
  const start = pickupOffset(bar).add(piece.from);
  const isPlainRest = piece.notes.length === 0 && ratio === null;
  const values = isPlainRest ? restValues(start, printed, dottedBeat(bar.meter)) : noteValues(printed);
  let at = start;
  return values.map((value, part) => {
    const event = { value, piece, part, at, tuplet };
    at = at.add(value.length);
    return event;
  });
}

/** A rest for the whole bar lasts as long as the meter says, so it suits full bars only. */
function isFull(bar: Bar): boolean {
  return bar.meter !== null && bar.length.equals(quarters(4 * bar.meter.beats, bar.meter.beatType));
}

/** Time of the meter that a pickup bar leaves out at its start. */
function pickupOffset(bar: Bar): Quarters {
  return bar.firstBeat
    .sub(1)
    .mul(4)
    .div(bar.meter?.beatType ?? 4);
}

function dottedBeat(meter: Meter | null): Quarters | null {
  return meter !== null && meter.beatType >= 8 && meter.beats % 3 === 0 ? quarters(12, meter.beatType) : null;
}

function writeEvents(
  score: Score,
  bar: Bar,
  events: readonly Event[],
  ratios: readonly (TupletRatio | null)[],
  parts: PartsOfNotes,
): string {
  const beams = beamKeys(events, bar.meter);
  const accidentals = new Accidentals(bar.key);
  // The first piece with a cell: a tied note has none.
  const opening = events.find(({ piece }) => piece.notes.length > 0 && !piece.continued)?.piece;
  let xml = "";
  events.forEach((event, i) => {
    const [before, after] = [events[i - 1], events[i + 1]];
    const [beam, beamBefore, beamAfter] = [beams[i], beams[i - 1], beams[i + 1]];
    const ratio = event.tuplet === null ? null : ratios[event.tuplet];
    // Before the beam: a beam that begins with a grace note takes it for one of its own.
    if (event.part === 0 && event.piece === opening) xml += graceRoom(event.piece.graces.length);
    if (event.part === 0) xml += writeGraces(score, bar, event.piece, accidentals, parts);
    if (ratio && before?.tuplet !== event.tuplet) xml += `<tuplet num="${ratio.num}" numbase="${ratio.base}">`;
    if (beam && beamBefore !== beam) xml += "<beam>";
    xml += writeEvent(score, bar, event, accidentals, parts);
    if (beam && beamAfter !== beam) xml += "</beam>";
    if (ratio && after?.tuplet !== event.tuplet) xml += "</tuplet>";
  });
  return xml;
}

/** Which beam every event belongs to; null without one. A beam joins two or more neighbours within a beat. */
function beamKeys(events: readonly Event[], meter: Meter | null): readonly (string | null)[] {
  const halfBar = meter?.beatType === 4 && meter.beats % 2 === 0 ? quarters(2) : null;
  const beat = dottedBeat(meter) ?? quarters(1);
  const beatOf = (event: Event, size: Quarters): string => event.at.div(size).floor().toString();
  const wide = new Set(
    halfBar === null
      ? []
      : events
          .filter((e) => e.value.dur !== "8" || e.tuplet !== null || e.value.dots > 0)
          .map((e) => beatOf(e, halfBar)),
  );
  const keys = events.map((event) => {
    if (event.piece.notes.length === 0 || event.value.length.compare(quarters(1)) >= 0 || Number(event.value.dur) < 8)
      return null;
    if (event.tuplet !== null) return `t${event.tuplet}`;
    if (halfBar !== null && !wide.has(beatOf(event, halfBar))) return `h${beatOf(event, halfBar)}`;
    return `b${beatOf(event, beat)}`;
  });
  return keys.map((key, i) => (key !== null && (keys[i - 1] === key || keys[i + 1] === key) ? key : null));
}

function writeEvent(score: Score, bar: Bar, event: Event, accidentals: Accidentals, parts: PartsOfNotes): string {
  const { piece, value } = event;
  const length = ` dur="${value.dur}"${value.dots > 0 ? ` dots="${value.dots}"` : ""}`;
  if (piece.notes.length === 0) return `<rest${length}/>`;
  const tied = piece.continued || event.part > 0;
  const staccato = score.notes[piece.notes[0] as number]?.marks.staccato === true && !tied ? ' artic="stacc"' : "";
  const write = (note: number, attributes: string): string =>
    writeNote(score, bar, note, attributes, tied ? null : accidentals, parts);
  if (piece.notes.length === 1) return write(piece.notes[0] as number, length + staccato);
  return `<chord${length}${staccato}>${piece.notes.map((note) => write(note, "")).join("")}</chord>`;
}

/** What the engraver leaves between a bar line and a note with a grace note, and gives an unseen one, in its inner units (measured). */
const OPENING_UNITS = 574;
const GRACE_UNITS = 314;

/**
 * Unseen grace notes that move the bar line to the left of the cells of the grace notes: placeholders keep cells apart
 * from each other, but bar lines do not heed them.
 */
function graceRoom(graces: number): string {
  if (graces === 0) return "";
  const missing = CELL_UNITS / 2 + graces * GRACE_STEP_UNITS - OPENING_UNITS;
  return '<note loc="4" dur="8" grace="unacc" visible="false"/>'.repeat(Math.ceil(missing / GRACE_UNITS));
}

function writeGraces(score: Score, bar: Bar, piece: Piece, accidentals: Accidentals, parts: PartsOfNotes): string {
  const dur = piece.graces.length === 1 ? ' dur="8" grace="unacc"' : ' dur="16" grace="acc"';
  const notes = piece.graces.map((chord) => {
    const write = (note: number, attributes: string): string =>
      writeNote(score, bar, note, attributes, accidentals, parts);
    if (chord.length === 1) return write(chord[0] as number, dur);
    return `<chord${dur}>${chord.map((note) => write(note, "")).join("")}</chord>`;
  });
  return notes.length > 1 ? `<graceGrp><beam>${notes.join("")}</beam></graceGrp>` : notes.join("");
}

function writeNote(
  score: Score,
  bar: Bar,
  index: number,
  attributes: string,
  accidentals: Accidentals | null,
  parts: PartsOfNotes,
): string {
  const { written } = score.notes[index] as Score["notes"][number];
  let own = parts[index];
  if (own === undefined) {
    own = [];
    parts[index] = own;
  }
  const id = own.length === 0 ? `n${index}` : `n${index}-${own.length}`;
  own.push({ id, bar: bar.index });
  const accid = accidentals?.print(written) ?? "";
  return `<note xml:id="${id}" pname="${written.step.toLowerCase()}" oct="${written.octave}"${attributes}${accid}/>`;
}

/** MEI's names of accidentals by quarter tones above the natural note. */
const ACCIDENTAL: Readonly<Record<string, string>> = {
  "-6": "tf",
  "-4": "ff",
  "-3": "3qf",
  "-2": "f",
  "-1": "1qf",
  "0": "n",
  "1": "1qs",
  "2": "s",
  "3": "3qs",
  "4": "x",
  "6": "ts",
};

/** Which accidentals must be printed in one bar. */
class Accidentals {
  private readonly inForce = new Map<string, number>();
  constructor(private readonly key: Key) {}

  /** The MEI attribute for a note that is struck anew; empty where key and bar already say it. */
  print(pitch: Pitch): string {
    const place = pitch.step + pitch.octave;
    const quarterTones = Math.round(pitch.alter * 2);
    const before = this.inForce.get(place) ?? 2 * alterInKey(pitch.step, this.key.fifths);
    this.inForce.set(place, quarterTones);
    const name = ACCIDENTAL[String(quarterTones)];
    return before === quarterTones || name === undefined ? "" : ` accid="${name}"`;
  }
}

function alterInKey(step: string, fifths: number): number {
  const sharps = "FCGDAEB".indexOf(step);
  if (fifths > sharps) return 1;
  return -fifths > 6 - sharps ? -1 : 0;
}
