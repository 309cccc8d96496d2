// SPDX-License-Identifier: AGPL-3.0-or-later
// The melody alone as an MEI 5 document, with a placeholder below every note (and above marked ones) that reserves
// the room of its fingering cell: the engraver spaces the notes, own drawings replace the placeholders afterwards.
import type { Bar, Score } from "../model/score.js";
import { layerOf, type PartsOfNotes } from "./layer.js";
import { cutAtBars, type Piece } from "./pieces.js";
import { CELL_UNITS, MARK_UNITS } from "./room.js";

/** Room asked for: the engraver may press a full line together by a twentieth. */
const ROOM_UNITS = 1.04 * CELL_UNITS;

/** The placeholder is an "M" of the engraver's text font, 0.889 em wide; 100 % are 405 units. */
const PERCENT_PER_UNIT = 100 / 0.889 / 405;

/** What stands below and above the notes. */
export interface Rows {
  /** ids of the notes that have a cell */
  readonly cells: ReadonlySet<string>;
  /** ids of the notes that have a finding mark */
  readonly marked: ReadonlySet<string>;
}

/** Placeholders of one chord: the notes whose cells are stacked there, the grace notes that stand before them. */
export interface CellGroup {
  /** id of the placeholder in the document */
  readonly placeholder: string;
  /** indexes into the score's notes, highest first */
  readonly notes: readonly number[];
  /** grace notes in order of time, each highest first */
  readonly graces: readonly (readonly number[])[];
}

/** The document and what its placeholders stand for. */
export interface MeiScore {
  readonly xml: string;
  readonly groups: readonly CellGroup[];
  /** ids of the marked notes by placeholder */
  readonly marks: ReadonlyMap<string, readonly string[]>;
  /** most cells in one bar, graces counted: a lower limit for the page's width */
  readonly mostCells: number;
}

/** Writes the melody as MEI. */
export function writeMei(score: Score, rows: Rows): MeiScore {
  const pieces = cutAtBars(score);
  const parts: PartsOfNotes = [];
  const layers = score.bars.map((bar, i) => layerOf(score, bar, pieces[i] as readonly Piece[], parts));
  const groups: CellGroup[] = [];
  const marks = new Map<string, readonly string[]>();
  const controls = score.bars.map((_, i) =>
    (pieces[i] as readonly Piece[]).map((piece) => rowControls(score, piece, rows, groups, marks)).join(""),
  );
  addLines(score, parts, controls);
  addTempos(score, controls);
  const sizes = pieces.map((bar) =>
    bar.reduce((sum, piece) => sum + (piece.notes.length > 0 ? 1 + 2 * piece.graces.length : 0), 0),
  );
  return { xml: document(score, measures(score, layers, controls)), groups, marks, mostCells: Math.max(1, ...sizes) };
}

function rowControls(
  score: Score,
  piece: Piece,
  rows: Rows,
  groups: CellGroup[],
  marks: Map<string, readonly string[]>,
): string {
  if (piece.notes.length === 0 || piece.continued) return "";
  const ids = [...piece.notes, ...piece.graces.flat()].map((i) => score.notes[i]?.id ?? "");
  const lead = piece.notes[0] as number;
  let xml = "";
  if (ids.some((id) => rows.cells.has(id))) {
    const placeholder = `cell-${groups.length}`;
    groups.push({
      placeholder,
      notes: [...piece.notes].reverse(),
      graces: piece.graces.map((chord) => [...chord].reverse()),
    });
    xml += room(placeholder, "below", lead, ROOM_UNITS, "M".repeat(1 + 2 * piece.graces.length));
  }
  const marked = ids.filter((id) => rows.marked.has(id));
  if (marked.length > 0) {
    marks.set(`mark-${lead}`, marked);
    xml += room(`mark-${lead}`, "above", lead, MARK_UNITS, "M");
  }
  if (score.notes[lead]?.marks.fermata) xml += `<fermata staff="1" place="above" startid="#n${lead}"/>`;
  return xml;
}

function room(id: string, place: "above" | "below", note: number, units: number, text: string): string {
  const percent = Math.ceil(units * PERCENT_PER_UNIT);
  // Two rows with one number would be pushed apart from each other across the staff.
  const row = place === "below" ? 1 : 2;
  return `<harm xml:id="${id}" n="${row}" place="${place}" staff="1" startid="#n${note}"><rend fontsize="${percent}%">${text}</rend></harm>`;
}

/** Ties and slurs, each in the bar where it begins. */
function addLines(score: Score, parts: PartsOfNotes, controls: string[]): void {
  const add = (bar: number, xml: string): void => {
    controls[bar] = (controls[bar] ?? "") + xml;
  };
  for (const own of parts) {
    own?.forEach((part, i) => {
      const next = own[i + 1];
      if (next !== undefined) add(part.bar, `<tie startid="#${part.id}" endid="#${next.id}"/>`);
    });
  }
  const partsOf = new Map(score.notes.map((note, i) => [note.id, parts[i]]));
  for (const slur of score.slurs) {
    const from = partsOf.get(slur.from)?.[0];
    const to = partsOf.get(slur.to)?.at(-1);
    if (from !== undefined && to !== undefined) add(from.bar, `<slur startid="#${from.id}" endid="#${to.id}"/>`);
  }
}

function addTempos(score: Score, controls: string[]): void {
  for (const tempo of score.tempos) {
    const bar = score.bars.findLast((b) => b.onset.compare(tempo.onset) <= 0);
    if (bar === undefined) continue;
    const beat = tempo.onset
      .sub(bar.onset)
      .mul(bar.meter?.beatType ?? 4)
      .div(4)
      .add(1)
      .valueOf();
    const speed = Math.round(tempo.quartersPerMinute * 10) / 10;
    controls[bar.index] += `<tempo place="above" staff="1" tstamp="${beat.toFixed(3)}">♩ = ${speed}</tempo>`;
  }
}

function measures(score: Score, layers: readonly string[], controls: readonly string[]): string {
  return score.bars
    .map((bar, i) => {
      const [before, after] = [score.bars[i - 1], score.bars[i + 1]];
      const volta = bar.endings.join(", ");
      const opens = volta !== "" && volta !== before?.endings.join(", ");
      const closes = volta !== "" && volta !== after?.endings.join(", ");
      const left = bar.repeatStart ? ' left="rptstart"' : "";
      const right = bar.repeatTimes !== null ? ' right="rptend"' : after === undefined ? ' right="end"' : "";
      const partial = bar.firstBeat.compare(1) > 0 ? ' metcon="false"' : "";
      return `${before === undefined ? "" : changes(before, bar)}${opens ? `<ending n="${volta}" label="${volta}.">` : ""}<measure xml:id="bar-${i}" n="${escapeXml(bar.label)}"${left}${right}${partial}><staff n="1"><layer n="1">${layers[i]}</layer></staff>${controls[i]}</measure>${closes ? "</ending>" : ""}`;
    })
    .join("");
}

function changes(before: Bar, bar: Bar): string {
  const key = before.key.fifths === bar.key.fifths ? "" : ` keysig="${keySignature(bar.key.fifths)}"`;
  const same = before.meter?.beats === bar.meter?.beats && before.meter?.beatType === bar.meter?.beatType;
  const meter = same ? "" : meterAttributes(bar);
  return key + meter === "" ? "" : `<scoreDef${key}${meter}/>`;
}

function meterAttributes(bar: Bar): string {
  return bar.meter === null ? "" : ` meter.count="${bar.meter.beats}" meter.unit="${bar.meter.beatType}"`;
}

function keySignature(fifths: number): string {
  return fifths === 0 ? "0" : `${Math.abs(fifths)}${fifths > 0 ? "s" : "f"}`;
}

function document(score: Score, section: string): string {
  const first = score.bars[0];
  const key = first === undefined ? "" : ` keysig="${keySignature(first.key.fifths)}"${meterAttributes(first)}`;
  return `<?xml version="1.0" encoding="UTF-8"?><mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt><title/></titleStmt><pubStmt/></fileDesc></meiHead><music><body><mdiv><score><scoreDef><staffGrp><staffDef n="1" lines="5"${clefFor(score)}${key}/></staffGrp></scoreDef><section>${section}</section></score></mdiv></body></music></mei>`;
}

/** A clef, with the diatonic steps (C0 = 0) of its lowest and highest staff line. */
const CLEFS = [
  { attributes: ' clef.shape="G" clef.line="2"', bottom: 30, top: 38, dislike: 0 },
  { attributes: ' clef.shape="F" clef.line="4"', bottom: 18, top: 26, dislike: 0 },
  {
    attributes: ' clef.shape="G" clef.line="2" clef.dis="8" clef.dis.place="below"',
    bottom: 23,
    top: 31,
    dislike: 0.2,
  },
] as const;

/** The clef with the fewest ledger lines on average; a transposing one must gain something to be taken. */
function clefFor(score: Score): string {
  const steps = score.notes.map((note) => 7 * note.written.octave + "CDEFGAB".indexOf(note.written.step));
  const cost = ({ bottom, top, dislike }: (typeof CLEFS)[number]): number =>
    dislike +
    steps.reduce((sum, step) => sum + Math.max(0, bottom - 1 - step, step - top - 1) / 2, 0) /
      Math.max(1, steps.length);
  return CLEFS.reduce((best, clef) => (cost(clef) < cost(best) ? clef : best)).attributes;
}

function escapeXml(text: string): string {
  return text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`).replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD]/g, "");
}
