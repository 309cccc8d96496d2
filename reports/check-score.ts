// SPDX-License-Identifier: AGPL-3.0-or-later
// The score part of the page: lines of music, the reading of every bar, marks that lead to the findings.
import type { EngravedMusic } from "../src/engrave/music.js";
import type { EngravedSystem } from "../src/engrave/staff.js";
import type { NoteJson, Report } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import { barAnchors } from "./anchors.js";
import { OwnMarkup } from "./template.js";
import { WORST_FIRST } from "./words.js";

/** A mark above a note: the shape of its worst finding, and the number of that finding's entry. */
export interface NoteMark {
  readonly severity: Severity;
  readonly entry: number;
  /** how many more entries the note has */
  readonly more: number;
  readonly href: string;
  readonly label: string;
}

/** One bar's line of spoken readings. */
interface BarView {
  readonly id: string;
  readonly label: string;
  readonly readings: readonly string[];
}

interface SystemView {
  readonly svg: OwnMarkup;
  readonly label: string;
  readonly style: string;
  readonly columns: string;
  readonly bars: readonly BarView[];
  readonly marks: readonly (NoteMark & { readonly style: string })[];
}

/** What the score template prints. */
export interface ScoreView {
  /** empty when the staff was drawn; else the sentence that says it was not */
  readonly trouble: string;
  readonly systems: readonly SystemView[];
  /** all bars, for a page without the staff; empty when it was drawn */
  readonly bars: readonly BarView[];
  /** glyphs and cells that the lines of music refer to */
  readonly symbols: OwnMarkup;
  /** one example cell for each way of playing that the melody uses */
  readonly legend: readonly { readonly cell: OwnMarkup; readonly spoken: string }[];
}

/**
 * Puts readings and marks beside the engraved music.
 *
 * @param marks by note id
 */
export function viewScore(report: Report, music: EngravedMusic, marks: ReadonlyMap<string, NoteMark>): ScoreView {
  const bars = viewBars(report);
  return {
    trouble:
      music.trouble === null
        ? ""
        : `The staff could not be drawn (${music.trouble}). The reading bar by bar and the table below say the same in words.`,
    systems: viewSystems(music.systems, bars, marks),
    bars: music.trouble === null ? [] : bars,
    symbols: new OwnMarkup(music.symbols),
    legend: viewLegend(report.json.fingering.notes, music.cells),
  };
}

function viewBars(report: Report): readonly BarView[] {
  const anchors = barAnchors(report.score);
  const byId = new Map(report.json.fingering.notes.map((note) => [note.id, note]));
  const readings: string[][] = report.score.bars.map(() => []);
  let chord: string | null = null;
  for (const note of report.score.notes) {
    const said = readingOf(byId.get(note.id));
    const bar = readings[note.bar] ?? [];
    if (note.chord !== null && note.chord === chord) bar.push(`${bar.pop()} +`, said);
    else bar.push(note.grace ? `(grace) ${said}` : said);
    chord = note.chord;
  }
  return report.score.bars.map((bar, i) => ({
    id: anchors[i] as string,
    label: bar.label,
    readings: withCommas(readings[i] as string[]),
  }));
}

/** The commas belong to the words before them, so that a line never begins with one. */
function withCommas(readings: readonly string[]): readonly string[] {
  return readings.map((reading, i) => (i < readings.length - 1 && !reading.endsWith("+") ? `${reading},` : reading));
}

function readingOf(note: NoteJson | undefined): string {
  return note?.spoken ?? "no place";
}

function viewSystems(
  systems: readonly EngravedSystem[],
  bars: readonly BarView[],
  marks: ReadonlyMap<string, NoteMark>,
): readonly SystemView[] {
  const lowestTop = Math.max(...systems.map((system) => system.staffTopPx));
  return systems.map((system) => {
    const inside = system.bars.map((place) => bars[place.bar] as BarView);
    const [first, last] = [inside[0]?.label ?? "", inside.at(-1)?.label ?? ""];
    return {
      svg: new OwnMarkup(system.svg),
      label: `Staff and fingering of ${first === last ? `bar ${first}` : `bars ${first} to ${last}`}; the reading follows in words`,
      style: `--width: ${system.widthPx}px; --lower: ${Math.round(lowestTop - system.staffTopPx)}px`,
      columns: `grid-template-columns: ${columnsOf(system)}`,
      bars: inside,
      marks: system.marks.flatMap((place) => {
        const here = place.notes.flatMap((note) => marks.get(note) ?? []);
        const [mark] = here.sort((a, b) => WORST_FIRST.indexOf(a.severity) - WORST_FIRST.indexOf(b.severity));
        if (mark === undefined) return [];
        const more = mark.more + here.length - 1;
        return [{ ...mark, more, style: `left: ${percent(place.x)}; top: ${percent(place.y)}` }];
      }),
    };
  });
}

/** Columns as wide as the bars above them; the last one may take what is left of a short line. */
function columnsOf(system: EngravedSystem): string {
  const widths = system.bars.map(({ from, to }) => percent(to - from));
  return [...widths.slice(0, -1), `minmax(${widths.at(-1)}, 1fr)`].join(" ");
}

function percent(share: number): string {
  return `${Math.round(share * 1e4) / 100}%`;
}

function viewLegend(notes: readonly NoteJson[], cells: ReadonlyMap<string, string>): ScoreView["legend"] {
  const kinds = [
    notes.find((note) => note.sound === "open" && note.arrival === "plucked"),
    notes.find((note) => note.sound === "stopped" && note.arrival === "plucked"),
    notes.find((note) => note.sound === "harmonic"),
    notes.find((note) => note.arrival === "slid"),
  ];
  return kinds.flatMap((note) => {
    if (note === undefined) return [];
    const use = `<svg class="cell" viewBox="0 0 40 50" width="52" height="65" aria-hidden="true"><use href="#${cells.get(note.id)}"/></svg>`;
    return [{ cell: new OwnMarkup(use), spoken: note.spoken ?? "" }];
  });
}
