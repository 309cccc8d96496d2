// SPDX-License-Identifier: AGPL-3.0-or-later
// The score part of the page: lines of music, the reading of every bar, marks that lead to the findings.
import type { EngravedMusic } from "../src/engrave/music.js";
import type { EngravedSystem } from "../src/engrave/staff.js";
import { readingByHands } from "../src/model/characters.js";
import type { Report } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import { joined, phrase, type Said } from "../src/words.js";
import { anchor, barAnchors } from "./anchors.js";
import { SIGNS, type SignView, SOUNDS, soundingWords, viewSigns } from "./check-signs.js";
import { OwnMarkup } from "./template.js";
import { SEVERITY_WORD, spokenWords, WORST_FIRST } from "./words.js";

/** A mark above a note: the shape of its worst finding, and the number of that finding's entry. */
export interface NoteMark {
  readonly severity: Severity;
  readonly entry: number;
  /** how many more entries the note has */
  readonly more: number;
  readonly href: string;
  readonly label: Said;
}

/** One note as a player says it: where links to the note lead. */
interface ReadingView {
  readonly id: string;
  readonly said: Said;
  /** what the left hand does, and the stroke: two lines where there is little room */
  readonly left: Said;
  readonly right: Said;
  /** what parts it from the next, where they stand in a row */
  readonly after: Said;
  /** it stands with the next one: a grace note, or struck together with it */
  readonly joins: boolean;
  /** where its cell stands; empty without a drawing */
  readonly style: string;
}

/** The notes whose cells stand at one place, with the room that their words have there. */
interface SayingView {
  readonly notes: readonly ReadingView[];
  readonly style: string;
}

/** One bar's line of spoken readings: where links to the bar lead. */
interface BarView {
  readonly id: string;
  readonly label: string;
  readonly readings: readonly ReadingView[];
  /** the readings where they stand in the drawing; none without one */
  readonly sayings: readonly SayingView[];
  /** where it stands in the drawing; empty without one */
  readonly style: string;
}

interface SystemView {
  readonly svg: OwnMarkup;
  readonly label: Said;
  readonly style: string;
  readonly columns: string;
  readonly bars: readonly BarView[];
  readonly marks: readonly (NoteMark & { readonly style: string })[];
}

/** What the score template prints. */
export interface ScoreView {
  /** empty when the staff was drawn; else the sentence that says it was not */
  readonly trouble: Said;
  readonly systems: readonly SystemView[];
  /** all bars, for a page without the staff; empty when it was drawn */
  readonly bars: readonly BarView[];
  /** glyphs and cells that the lines of music refer to */
  readonly symbols: OwnMarkup;
  /** how what is printed and what sounds differ; empty where they do not */
  readonly sounding: Said;
  /** one example cell for each kind of sound that the melody uses */
  readonly legend: readonly SignView[];
  /** one example cell for each further sign that the melody uses */
  readonly signs: readonly SignView[];
  /** what the lines below the glyphs mean: only those that stand there */
  readonly spanKey: readonly { readonly kind: string; readonly cell: OwnMarkup; readonly words: Said }[];
  /** what the shapes above the staff mean: only those that stand there */
  readonly markKey: readonly { readonly severity: Severity; readonly word: Said }[];
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
        : phrase(
            `The staff could not be drawn (${music.trouble}). The reading bar by bar and the table below say the same in words.`,
            `五线谱未能画出（${music.trouble}）。下面逐小节的读法和表格用文字说的是同样的内容。`,
          ),
    systems: viewSystems(music.systems, bars, marks),
    bars: music.trouble === null ? [] : bars,
    symbols: new OwnMarkup(music.symbols),
    sounding: soundingWords(report.json.fingering.notes),
    legend: viewSigns(SOUNDS, report.json.fingering.notes, music.cells),
    signs: viewSigns(SIGNS, report.json.fingering.notes, music.cells),
    spanKey: SPAN_KEY.filter(({ kind }) => music.spans.has(kind)),
    markKey: WORST_FIRST.filter((severity) => [...marks.values()].some((mark) => mark.severity === severity)).map(
      (severity) => ({ severity, word: SEVERITY_WORD[severity] }),
    ),
  };
}

const spanExample = (drawing: string): OwnMarkup =>
  new OwnMarkup(
    `<svg class="span-example" viewBox="0 0 1200 230" width="48" height="10" aria-hidden="true">${drawing}</svg>`,
  );

/** What each line below the glyphs means, with an example of it. */
const SPAN_KEY = [
  {
    kind: "harmonics",
    cell: spanExample(
      '<path d="M30 115l90-90 90 90-90 90zM990 115l90-90 90 90-90 90z"/><path d="M260 115H940" stroke-dasharray="60 70"/>',
    ),
    words: phrase("all in harmonics", "这一段全用泛音"),
  },
  {
    kind: "slide",
    cell: spanExample('<path d="M60 205L1100 25M970 5L1100 25l-90 110"/>'),
    words: phrase("the finger slides on, up or down, while the string sounds", "余音未断，手指上走或下走"),
  },
  {
    kind: "planted",
    cell: spanExample(
      '<path d="M280 115H1100M1100 25v180"/><circle cx="280" cy="115" r="55"/><text class="span-label" x="170" y="190" text-anchor="end">4</text>',
    ),
    words: phrase("the middle finger waits on the string of this number", "中指停在数字所示的弦上等候"),
  },
] as const;

function viewBars(report: Report): readonly BarView[] {
  const anchors = barAnchors(report.score);
  const byId = new Map(report.json.fingering.notes.map((note) => [note.id, note]));
  const readings: ReadingView[][] = report.score.bars.map(() => []);
  const { notes } = report.score;
  notes.forEach((note, i) => {
    const spoken = byId.get(note.id)?.spoken ?? null;
    const next = notes[i + 1];
    const grace = note.grace ? phrase("(grace) ", "（装饰音）") : "";
    const struckTogether = note.chord !== null && next?.chord === note.chord;
    const hands = spoken === null ? { left: spokenWords({ spoken }), right: "" } : readingByHands(spoken);
    readings[note.bar]?.push({
      id: anchor("note", note.id),
      said: joined([grace, spokenWords({ spoken })]),
      left: joined([grace, hands.left]),
      right: hands.right,
      joins: note.grace || struckTogether,
      after: struckTogether ? " +" : next?.bar === note.bar ? phrase(",", "，") : "",
      style: "",
    });
  });
  return report.score.bars.map((bar, i) => ({
    id: anchors[i] as string,
    label: bar.label,
    readings: readings[i] as readonly ReadingView[],
    sayings: [],
    style: "",
  }));
}

/** The same bar where it is drawn: shares of the line's width. */
function placedBar(
  bar: BarView,
  place: EngravedSystem["bars"][number],
  { cells, cellWidth }: { readonly cells: ReadonlyMap<string, number>; readonly cellWidth: number },
): BarView {
  const width = place.to - place.from;
  const readings = bar.readings.map((reading) => {
    const x = cells.get(reading.id);
    return x === undefined ? reading : { ...reading, style: `--at: ${round(x - place.from)}` };
  });
  const groups = byPlace(readings, (reading) => (cells.get(reading.id) ?? place.from) - place.from);
  let end = 0;
  const sayings = groups.map(({ notes, x }, i): SayingView => {
    const before = (groups[i - 1]?.x ?? -x) + x;
    const after = x + (groups[i + 1]?.x ?? 2 * width - x);
    // At a bar line words may reach as far as the glyph above them does.
    const half = Math.max(Math.min(x - before / 2, after / 2 - x), 0.6 * cellWidth);
    const style = `--gap: ${round(x - half - end)}; --room: ${round(2 * half)}`;
    end = x + half;
    return { notes, style };
  });
  return { ...bar, readings, sayings, style: `--wide: ${round(width)}` };
}

interface PlacedGroup {
  readonly notes: ReadingView[];
  x: number;
}

/** Readings by where their cells stand: grace notes stand with the note they lead to, notes struck together with each other. */
function byPlace(readings: readonly ReadingView[], xOf: (reading: ReadingView) => number): readonly PlacedGroup[] {
  const groups: PlacedGroup[] = [];
  let open = false;
  for (const reading of readings) {
    const last = groups.at(-1);
    if (open && last !== undefined) {
      last.notes.push(reading);
      last.x = xOf(reading);
    } else groups.push({ notes: [reading], x: xOf(reading) });
    open = reading.joins;
  }
  return groups;
}

function viewSystems(
  systems: readonly EngravedSystem[],
  bars: readonly BarView[],
  marks: ReadonlyMap<string, NoteMark>,
): readonly SystemView[] {
  const lowestTop = Math.max(...systems.map((system) => system.staffTopPx));
  return systems.map((system) => {
    const cells = new Map([...system.notes].map(([note, x]) => [anchor("note", note), x]));
    const inside = system.bars.map((place) =>
      placedBar(bars[place.bar] as BarView, place, { cells, cellWidth: system.cellWidth }),
    );
    const [first, last] = [inside[0]?.label ?? "", inside.at(-1)?.label ?? ""];
    return {
      svg: new OwnMarkup(system.svg),
      label: phrase(
        `Staff and fingering of ${first === last ? `bar ${first}` : `bars ${first} to ${last}`}; the reading follows in words`,
        `第${first === last ? first : `${first}至${last}`}小节的五线谱与指法；后面是文字读法`,
      ),
      style: `--width: ${system.widthPx}px; --cell: ${system.cellWidth}; --tall: ${round(system.heightPx / system.widthPx)}; --lower: ${Math.round(lowestTop - system.staffTopPx)}px`,
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

function round(share: number): number {
  return Math.round(share * 1e4) / 1e4;
}
