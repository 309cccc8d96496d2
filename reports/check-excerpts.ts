// SPDX-License-Identifier: AGPL-3.0-or-later
// The bars of a finding as they stand in the score: parts of its lines of music, shown again with the notes marked.
import type { EngravedMusic } from "../src/engrave/music.js";
import type { EngravedSystem } from "../src/engrave/staff.js";
import type { FindingJson, NoteJson, Report } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import { joined, phrase, phraseOf, type Said } from "../src/words.js";
import { spokenWords } from "./words.js";

/** A longer finding is shown by its last bars. */
const MOST_BARS = 3;
/** What is shown is somewhat smaller than in the score. */
const SCALE = 0.8;
/** From a cell to the frame around it, in the engraver's units. */
const FRAME_UNITS = 30;
/** From a cell to the end of the picture: room for the stroke of the frame. */
const EDGE_UNITS = 55;
/** Side of the shape above the last note. */
const SHAPE_UNITS = 520;
/** From the baseline of a bar's number to the top of the staff: clear of a treble clef. */
const NUMBER_UNITS = 280;

/** A part of a line of music in its units, and where it stands in the picture. */
interface WindowView {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly viewBox: string;
  /** the line of music */
  readonly line: string;
}

/** One bar of a finding. */
export interface ExcerptView {
  readonly label: Said;
  /** in px */
  readonly wide: number;
  readonly viewBox: string;
  readonly windows: readonly WindowView[];
  /** the printed number of the bar, and the height at which it stands */
  readonly number: string;
  readonly numberAt: number;
  /** frames around the cells of the finding's notes; empty for none */
  readonly frames: string;
  /** the shape of its severity above its last note; none in other bars */
  readonly shapes: readonly {
    readonly severity: Severity;
    readonly x: number;
    readonly y: number;
    readonly size: number;
  }[];
}

/** The pictures of a finding, bar by bar; none for the whole line, or where nothing was drawn. */
export type ExcerptsOf = (finding: FindingJson) => readonly ExcerptView[];

interface PlacedBar {
  readonly system: EngravedSystem;
  readonly from: number;
  readonly to: number;
}

/** Makes the pictures of findings out of the lines of music that the page shows. */
export function excerptsFrom(report: Report, music: EngravedMusic): ExcerptsOf {
  const bars = new Map<number, PlacedBar>();
  for (const system of music.systems) for (const { bar, from, to } of system.bars) bars.set(bar, { system, from, to });
  const barOf = new Map(report.score.notes.map(({ id, bar }) => [id, bar]));
  const notesIn = new Map<number, NoteJson[]>();
  for (const note of report.json.fingering.notes) {
    const bar = barOf.get(note.id) ?? 0;
    notesIn.set(bar, [...(notesIn.get(bar) ?? []), note]);
  }
  return (finding) =>
    barsOf(finding, barOf).flatMap((bar, i, all) => {
      const place = bars.get(bar);
      if (place === undefined || place.system.units.id === null) return [];
      const follows = i > 0 && bars.get(all[i - 1] as number)?.system === place.system;
      const notes = notesIn.get(bar) ?? [];
      const printed = report.score.bars[bar]?.label ?? "";
      const words = { bar: printed, label: labelOf(printed, notes, finding), notes: notes.map(({ id }) => id) };
      return [viewExcerpt(finding, place, words, !follows && place.from > 0)];
    });
}

/** Indices of the bars from the first to the last note of a finding. */
function barsOf({ notes }: FindingJson, barOf: ReadonlyMap<string, number>): readonly number[] {
  const own = notes.flatMap((note) => barOf.get(note) ?? []);
  if (own.length === 0) return [];
  const last = Math.max(...own);
  const first = Math.max(Math.min(...own), last - MOST_BARS + 1);
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}

function viewExcerpt(finding: FindingJson, bar: PlacedBar, words: BarWords, withClef: boolean): ExcerptView {
  const { system, from, to } = bar;
  const { box, clefWidth, cells, id } = system.units;
  const own = words.notes.flatMap((note) => cells.get(note) ?? []);
  const [left, right] = [Math.round(from * box.width), Math.round(to * box.width)];
  // Cells are wider than notes: the first one of a bar begins before its bar line, and the last one may end behind the next.
  const [rowLeft, rowRight] = [
    Math.min(right, ...own.map(({ x }) => x - EDGE_UNITS)),
    Math.max(left, ...own.map(({ x, width }) => x + width + EDGE_UNITS)),
  ].map(Math.round) as [number, number];
  const [first, last] = [Math.min(left, rowLeft), Math.max(right, rowRight)];
  const clef = withClef ? Math.max(0, clefWidth - (left - first)) : 0;
  const shift = clef - first;
  // What is drawn below the cells holds for other bars, too.
  const boxes = [...cells.values()];
  const rowTop = Math.round(Math.min(box.y + box.height, ...boxes.map(({ y }) => y)) - EDGE_UNITS);
  const bottom = Math.round(Math.max(rowTop, ...boxes.map((cell) => cell.y + cell.height)) + EDGE_UNITS);
  const window = (x: number, y: number, width: number, height: number, at = x + shift): WindowView => ({
    ...{ x: at, y: y - box.y, width, height },
    viewBox: `${x} ${y} ${width} ${height}`,
    line: `#${id}`,
  });
  const above = rowTop - box.y;
  const width = clef + last - first;
  const px = (system.widthPx / box.width) * SCALE;
  return {
    label: words.label,
    wide: Math.round(width * px),
    viewBox: `0 0 ${width} ${bottom - box.y}`,
    windows: [
      ...(withClef ? [window(0, box.y, clefWidth, above, 0)] : []),
      window(left, box.y, right - left, above),
      ...(own.length === 0 ? [] : [window(rowLeft, rowTop, rowRight - rowLeft, bottom - rowTop)]),
    ],
    number: words.bar,
    numberAt: Math.max(280, Math.round((system.staffTopPx * box.width) / system.widthPx) - NUMBER_UNITS),
    frames: finding.notes
      .filter((note) => words.notes.includes(note))
      .flatMap((note) => cells.get(note) ?? [])
      .map(({ x, y, ...size }) => {
        const [w, h] = [size.width + 2 * FRAME_UNITS, size.height + 2 * FRAME_UNITS].map(Math.round);
        return `M${Math.round(x + shift - FRAME_UNITS)} ${Math.round(y - box.y - FRAME_UNITS)}h${w}v${h}h-${w}z`;
      })
      .join(""),
    shapes: system.marks
      .filter(({ notes, x }) => notes.includes(finding.notes.at(-1) ?? "") && x >= from && x <= to)
      .map(({ x, y }) => ({
        severity: finding.severity,
        x: Math.round(x * box.width + shift - SHAPE_UNITS / 2),
        y: Math.round(y * box.height - SHAPE_UNITS / 2),
        size: SHAPE_UNITS,
      })),
  };
}

/** What is said of a bar. */
interface BarWords {
  readonly bar: string;
  readonly label: Said;
  /** ids of its notes */
  readonly notes: readonly string[];
}

/** The readings of the bar, and which of them are marked. */
function labelOf(bar: string, notes: readonly NoteJson[], finding: FindingJson): Said {
  const own = new Set(finding.notes);
  const readings = joined(notes.map(spokenWords), phrase(", ", "，"));
  const beats = [...new Set(notes.filter(({ id }) => own.has(id)).map(({ beat }) => beat))];
  const marked =
    beats.length === 0
      ? ""
      : phrase(
          ` Marked: ${beats.map((beat) => `beat ${beat}`).join(", ")}.`,
          `标出：${beats.map((beat) => `第${beat}拍`).join("、")}。`,
        );
  return phraseOf({
    en: (say) => `Bar ${bar}: ${say(readings)}.${say(marked)}`,
    zh: (say) => `第${bar}小节：${say(readings)}。${say(marked)}`,
  });
}
