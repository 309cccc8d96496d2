// SPDX-License-Identifier: AGPL-3.0-or-later
// The section of pictures: the board, then the strip of both hands and the effort over time, each with its table.
import { FINGERS, type Finger, type Sound } from "../src/model/fingering.js";
import type { Report, RuleKind } from "../src/report.js";
import { type Phrase, phrase, type Said } from "../src/words.js";
import { barAnchors } from "./anchors.js";
import { type AxisRow, axisRows, momentsByBar, ROW_LEFT, ROW_WIDTH } from "./check-pictures-axis.js";
import { BOARD_HEIGHT, BOARD_WIDTH, boardDrawing, type UsedPlace, usedPlaces } from "./check-pictures-board.js";
import {
  drawPart,
  drawPoint,
  type LaneScale,
  laneScale,
  ROW_HEIGHT,
  rowDrawing,
  STACK,
} from "./check-pictures-lanes.js";
import {
  type BarWords,
  barWords,
  boardDescription,
  kindWord,
  rowDescription,
  usedPlaceWords,
  type ZoneWords,
  zoneWords,
} from "./check-pictures-words.js";
import { type Drawing, Sketch, tenth } from "./sketch.js";
import { FINGER_WORD, hundredths, number } from "./words.js";

/** A bar's name with the way to it. */
interface BarLink {
  readonly label: string;
  readonly href: string;
}

/** A picture in its frame. */
interface Picture {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  readonly title: Said;
  readonly description: Said;
  readonly drawing: Drawing;
}

/** Bars one after the other: the first and, of several, the last. */
interface BarRun {
  /** what stands before it in a row of runs */
  readonly lead: Said;
  readonly from: BarLink;
  readonly to: BarLink | null;
}

interface StripRow extends Picture {
  /** columns of the row of links, as a style */
  readonly columns: string;
  readonly links: readonly BarLink[];
}

/** Rows that stand together. */
interface StripPart {
  readonly folded: boolean;
  /** the bars from the first to the last */
  readonly label: Said;
  readonly rows: readonly StripRow[];
}

/** A mark of the key. */
interface KeySign {
  readonly drawing: Drawing;
  readonly meaning: Said;
}

/** The section. */
export interface PicturesView {
  readonly board: Picture & {
    /** kinds of sound that the piece has */
    readonly has: Readonly<Record<Sound, boolean>>;
    readonly zones: readonly ZoneWords[];
    readonly places: readonly {
      readonly string: number;
      readonly place: Said;
      readonly cm: string;
      readonly uses: number;
      readonly runs: readonly BarRun[];
      readonly more: number;
    }[];
  };
  readonly strip: {
    /** rows that stand open, and those of a long piece that are folded */
    readonly parts: readonly StripPart[];
    readonly spanCm: string;
    readonly fingers: readonly KeySign[];
    readonly kinds: readonly KeySign[];
    /** the dearest bars, the dearest first */
    readonly worst: readonly (BarLink & { readonly lead: Said; readonly effort: string })[];
    readonly total: string;
    readonly bars: readonly (BarLink & BarWords)[];
  };
}

/** So many rows stand open; the others of a long piece are folded. */
const OPEN_ROWS = 8;
/** So many runs of bars are named for one place. */
const NAMED_RUNS = 6;
const NAMED_WORST = 5;

/** Builds the section. */
export function viewPictures(report: Report): PicturesView {
  const { score, pictures } = report;
  const anchors = barAnchors(score);
  const links = score.bars.map(({ label, index }): BarLink => ({ label, href: `#${anchors[index]}` }));
  return { board: viewBoard(report, links), strip: viewStrip(report, links, pictures) };
}

function viewBoard({ pictures, json }: Report, links: readonly BarLink[]): PicturesView["board"] {
  const places = usedPlaces(pictures);
  const has = (sound: Sound): boolean => places.some((place) => place.sound === sound);
  return {
    id: "board-picture",
    width: BOARD_WIDTH,
    height: BOARD_HEIGHT,
    title: phrase("The seven strings and the places of this piece", "七弦与本曲所用音位"),
    description: boardDescription(places, pictures.zones),
    drawing: boardDrawing(pictures, json.setting.strings),
    has: { open: has("open"), stopped: has("stopped"), harmonic: has("harmonic") },
    zones: zoneWords(pictures.zones),
    places: places.map((place) => ({
      string: place.string,
      place: usedPlaceWords(place),
      cm: number(place.cm),
      uses: place.uses,
      ...runsOf(place, links),
    })),
  };
}

/** The bars of a place as runs, the first few named. */
function runsOf({ bars }: UsedPlace, links: readonly BarLink[]): { runs: readonly BarRun[]; more: number } {
  const runs: [number, number][] = [];
  for (const bar of bars) {
    const last = runs.at(-1);
    if (last?.[1] === bar - 1) last[1] = bar;
    else runs.push([bar, bar]);
  }
  const named = runs.slice(0, NAMED_RUNS);
  const more = runs.slice(NAMED_RUNS).reduce((sum, [from, to]) => sum + to - from + 1, 0);
  return {
    runs: named.map(([from, to], i) => ({
      lead: leadOf(i),
      from: links[from] as BarLink,
      to: to === from ? null : (links[to] as BarLink),
    })),
    more,
  };
}

function viewStrip(report: Report, links: readonly BarLink[], pictures: Report["pictures"]): PicturesView["strip"] {
  const { score, json } = report;
  const scale = laneScale(pictures);
  const byBar = momentsByBar(score, pictures.moments);
  const rows = axisRows(score, byBar).map((row, i) => viewRow(row, i, { report, links, scale }));
  const dearest = pictures.bars
    .map(({ effort }, bar) => ({ bar, effort }))
    .filter(({ effort }) => effort > 0)
    .sort((a, b) => b.effort - a.effort || a.bar - b.bar);
  return {
    parts: [stripPart(rows.slice(0, OPEN_ROWS), false), stripPart(rows.slice(OPEN_ROWS), true)].filter(
      (part) => part.rows.length > 0,
    ),
    spanCm: number(pictures.spanCm),
    fingers: fingerKey(pictures),
    kinds: kindKey(pictures),
    worst: dearest
      .slice(0, NAMED_WORST)
      .map(({ bar, effort }, i) => ({ ...(links[bar] as BarLink), lead: leadOf(i), effort: hundredths(effort) })),
    total: number(json.fingering.total.effort),
    bars: pictures.bars.map((effort, bar) => ({
      ...(links[bar] as BarLink),
      ...barWords(byBar[bar] ?? [], effort),
    })),
  };
}

/** What stands before an item of a list. */
const leadOf = (i: number): Said => (i === 0 ? "" : phrase(", ", "、"));

function stripPart(rows: readonly StripRow[], folded: boolean): StripPart {
  const [first, last] = [rows[0]?.links[0]?.label, rows.at(-1)?.links.at(-1)?.label];
  return { folded, label: phrase(`Bars ${first} to ${last}`, `第${first}至${last}小节`), rows };
}

interface RowContext {
  readonly report: Report;
  readonly links: readonly BarLink[];
  readonly scale: LaneScale;
}

function viewRow(row: AxisRow, i: number, { report, links, scale }: RowContext): StripRow {
  const { pictures } = report;
  const own = row.bars.map(({ index }) => links[index] as BarLink);
  const [first, last] = [own[0]?.label, own.at(-1)?.label];
  const percent = (units: number): string => `${tenth((100 * units) / ROW_WIDTH)}%`;
  return {
    id: `strip-${i + 1}`,
    width: ROW_WIDTH,
    height: ROW_HEIGHT,
    title: barsTitle(first ?? "", last ?? ""),
    description: rowDescription(
      row.moments.map(({ moment }) => moment),
      row.bars.map(({ index }) => ({ label: links[index]?.label ?? "", effort: pictures.bars[index]?.effort ?? 0 })),
      pictures.spanCm,
    ),
    drawing: rowDrawing(row, pictures, scale),
    columns: `grid-template-columns: ${percent(ROW_LEFT)} ${row.bars.map(({ width }) => percent(width)).join(" ")}`,
    links: own,
  };
}

function barsTitle(first: string, last: string): Phrase {
  return first === last
    ? phrase(`Bar ${first}: the hands and the effort`, `第${first}小节：双手与费力`)
    : phrase(`Bars ${first} to ${last}: the hands and the effort`, `第${first}至${last}小节：双手与费力`);
}

const CENTRE = { x: 8, y: 6 };

function keySign(meaning: Said, draw: (sketch: Sketch) => void): KeySign {
  const sketch = new Sketch();
  draw(sketch);
  return { drawing: sketch.drawing(), meaning };
}

/** The fingers and sounds that the piece has, as they are drawn. */
function fingerKey({ moments }: Report["pictures"]): readonly KeySign[] {
  const places = moments.flatMap((moment) => moment.places);
  const fingers = [...FINGERS].filter((finger) =>
    places.some((place) => place.finger === finger && place.sound === "stopped"),
  );
  const harmonics = places.some(({ sound }) => sound === "harmonic");
  const open = places.some(({ sound }) => sound === "open");
  return [
    ...fingers.map((finger: Finger) =>
      keySign(FINGER_WORD[finger], (sketch) => drawPoint(sketch, { sound: "stopped", finger }, CENTRE.x, CENTRE.y)),
    ),
    ...(harmonics
      ? [
          keySign(phrase("harmonic", "泛音"), (sketch) =>
            drawPoint(sketch, { sound: "harmonic", finger: null }, CENTRE.x, CENTRE.y),
          ),
        ]
      : []),
    ...(open ? [keySign(phrase("open string", "散音"), (sketch) => sketch.draw("open", 4.5, CENTRE.y, "h7"))] : []),
  ];
}

/** The kinds of rule that charge anything, as their parts of the columns are drawn. */
function kindKey({ bars }: Report["pictures"]): readonly KeySign[] {
  const charged = new Set<RuleKind>(bars.flatMap(({ kinds }) => kinds.map(({ kind }) => kind)));
  const kinds = STACK.filter((kind) => charged.has(kind)).map((kind) =>
    keySign(kindWord(kind), (sketch) => drawPart(sketch, kind, { x: CENTRE.x, width: 14, from: 11.4, to: 0.6 })),
  );
  const blocked = bars.some((bar) => bar.blocked > 0)
    ? [keySign(phrase("cannot be played", "无法演奏"), (sketch) => sketch.draw("blocked", 4, 2, "l8 8m0-8l-8 8"))]
    : [];
  return [...kinds, ...blocked];
}
