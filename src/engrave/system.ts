// SPDX-License-Identifier: AGPL-3.0-or-later
// Turns one page of the engraver (one line of music) into the SVG that goes into the report.
import type { Score } from "../model/score.js";
import { CELL_SIZE_PX } from "./cell.js";
import type { CellGroup } from "./mei.js";
import { CELL_UNITS, GRACE_SCALE, GRACE_STEP_UNITS, MARK_UNITS } from "./room.js";
import { drawSpans, type Span } from "./spans.js";
import { descendants, elementsOf, parseSvg, type SvgElement, textOf, writeSvg } from "./svg-tree.js";

/** A bar's place in its line of music, as shares of the line's width. */
export interface BarPlace {
  /** index into the score's bars */
  readonly bar: number;
  readonly from: number;
  readonly to: number;
}

/** Where a mark above a note belongs: its centre, as shares of width and height. */
export interface MarkPlace {
  /** ids of the marked notes that stand there: one, or several of a chord with its grace notes */
  readonly notes: readonly string[];
  readonly x: number;
  readonly y: number;
}

/** A box in the units of a drawing. */
export interface UnitBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A drawing in its own units, for pages that show a part of it again with `<use>`. */
export interface DrawingUnits {
  /** id of the drawing; null where it has none */
  readonly id: string | null;
  /** all that is drawn */
  readonly box: UnitBox;
  /** from the left edge to behind the clef and the key signature */
  readonly clefWidth: number;
  /** the cell of each note by note id */
  readonly cells: ReadonlyMap<string, UnitBox>;
}

/** One line of music. */
export interface EngravedSystem {
  /** the drawing; hidden from screen readers, the page says in words what it shows */
  readonly svg: string;
  /** size at full scale */
  readonly widthPx: number;
  readonly heightPx: number;
  /** upper edge of the drawing to the top staff line */
  readonly staffTopPx: number;
  readonly bars: readonly BarPlace[];
  /** the centre of each note's cell as a share of the width, by note id */
  readonly notes: ReadonlyMap<string, number>;
  /** width of a cell as a share of the width */
  readonly cellWidth: number;
  readonly marks: readonly MarkPlace[];
  /** centre of each note's cell and of its notehead in the engraver's units: they must agree */
  readonly centres: readonly { readonly note: string; readonly cell: number; readonly head: number }[];
  readonly units: DrawingUnits;
  /** the closest two cells, centre to centre, in the engraver's units */
  readonly smallestGapUnits: number;
}

/** Glyph symbols of a page by glyph code, filled while lines are drawn. */
export type Glyphs = Map<string, string>;

/** What a line of music is drawn from. */
export interface SystemContext {
  readonly score: Score;
  readonly groups: ReadonlyMap<string, CellGroup>;
  readonly marks: ReadonlyMap<string, readonly string[]>;
  /** symbol ids by note id */
  readonly cells: ReadonlyMap<string, string>;
  readonly spans: readonly Span[];
  readonly glyphs: Glyphs;
  readonly prefix: string;
  /** id of the drawing; null for none */
  readonly id: string | null;
}

/** Width of Bravura's noteheads at the engraver's scale .72, in its units: black and half, whole, breve. */
const HEAD_WIDTH: Readonly<Record<string, number>> = { E0A4: 226, E0A3: 226, E0A2: 291, E0A0: 420 };
const CELL_HEIGHT_UNITS = Math.round((CELL_UNITS * CELL_SIZE_PX.height) / CELL_SIZE_PX.width);
/** Blank between the cells and the spans below them. */
const SPAN_GAP_UNITS = 40;
/** Blank below the cells and above the marks. */
const EDGE_UNITS = 60;

interface Box {
  readonly x: number;
  readonly y: number;
}

interface Drawing {
  readonly width: number;
  readonly bars: { bar: number; from: number; to: number }[];
  readonly marks: { notes: readonly string[]; x: number; y: number }[];
  readonly centres: { note: string; cell: number; head: number }[];
  readonly heads: ReadonlyMap<string, number>;
  /** each note's cell by note id */
  readonly cells: Map<string, UnitBox>;
  staffTop: number;
  bottom: number;
}

/**
 * Draws one line of music.
 *
 * @param page the engraver's SVG
 * @throws Error when the SVG is not built as expected (another version of the engraver)
 */
export function drawSystem(page: string, context: SystemContext): EngravedSystem {
  const outer = parseSvg(page);
  const inner = elementsOf(outer).find((child) => child.name === "svg");
  const [, , width, height] = (inner?.attributes.viewBox ?? "").split(" ").map(Number);
  if (inner === undefined || width === undefined || height === undefined)
    throw new Error("no viewBox in the engraving");
  collectGlyphs(outer, context);
  const drawing: Drawing = {
    width,
    bars: [],
    marks: [],
    centres: [],
    heads: headCentres(inner),
    cells: new Map(),
    staffTop: Number.POSITIVE_INFINITY,
    bottom: height,
  };
  const children = inner.children.flatMap((child) =>
    typeof child === "string" ? [] : redraw(child, drawing, context),
  );
  const middles = new Map([...drawing.cells].map(([note, { x, width: wide }]) => [note, x + wide / 2]));
  const spans = drawSpans(context.spans, middles, drawing.bottom + SPAN_GAP_UNITS);
  if (spans.height > 0) drawing.bottom += SPAN_GAP_UNITS + spans.height;
  children.push(...spans.elements);
  const total = drawing.bottom + 2 * EDGE_UNITS;
  const xs = drawing.centres.map((centre) => centre.cell).sort((a, b) => a - b);
  const px = CELL_SIZE_PX.width / CELL_UNITS;
  const box: UnitBox = { x: 0, y: -EDGE_UNITS, width, height: total };
  return {
    svg: `<svg class="staff" viewBox="${box.x} ${box.y} ${width} ${total}" aria-hidden="true" focusable="false">${named(children, context).map(writeSvg).join("")}</svg>`,
    widthPx: width * px,
    heightPx: Math.round(total * px * 10) / 10,
    staffTopPx: (drawing.staffTop + EDGE_UNITS) * px,
    bars: drawing.bars.map(({ bar, from, to }) => ({ bar, from: share(from, width), to: share(to, width) })),
    notes: new Map([...middles].map(([note, x]) => [note, share(x, width)])),
    cellWidth: share(CELL_UNITS, width),
    marks: drawing.marks.map(({ notes, x, y }) => ({ notes, x: share(x, width), y: share(y + EDGE_UNITS, total) })),
    centres: drawing.centres,
    units: { id: context.id, box, clefWidth: clefWidth(inner), cells: drawing.cells },
    smallestGapUnits: Math.min(
      Number.POSITIVE_INFINITY,
      ...xs
        .slice(1)
        .map((x, i) => x - (xs[i] as number))
        .filter((gap) => gap > 0),
    ),
  };
}

/** The drawing under its name, if it has one: in a group with the class of the whole, since copies bring along no class of what is around them. */
function named(children: SvgElement[], { id }: SystemContext): readonly SvgElement[] {
  return id === null ? children : [{ name: "g", attributes: { id, class: "staff" }, children }];
}

/** Widths of the widest clef and key accidental at the engraver's scale, with the blank behind them. */
const CLEF_UNITS = 600;
const ACCIDENTAL_UNITS = 270;

/** A key that changes within the line is left to the line itself: then the clef stands alone. */
function clefWidth(inner: SvgElement): number {
  const [first, ...others] = [...descendants(inner)].filter(({ attributes }) => attributes.class === "measure");
  const uses = (measure: SvgElement | undefined, kind: string): readonly number[] =>
    measure === undefined
      ? []
      : [...descendants(measure)]
          .filter(({ attributes }) => attributes.class === kind)
          .flatMap((one) => [...descendants(one)])
          .flatMap(({ attributes }) => /translate\(([-\d.]+),/.exec(attributes.transform ?? "")?.[1] ?? [])
          .map(Number);
  const changes = others.some((measure) => uses(measure, "keyAccid").length > 0);
  const accidentals = changes ? [] : uses(first, "keyAccid").map((x) => x + ACCIDENTAL_UNITS);
  return Math.max(0, ...uses(first, "clef").map((x) => x + CLEF_UNITS), ...accidentals);
}

function share(part: number, whole: number): number {
  return Math.round((part / whole) * 1e4) / 1e4;
}

/** Glyphs of the music font are the same on every line: kept once, under a name of our own. */
function collectGlyphs(outer: SvgElement, { glyphs, prefix }: SystemContext): void {
  const defs = elementsOf(outer).find((child) => child.name === "defs");
  for (const glyph of defs === undefined ? [] : elementsOf(defs)) {
    const code = glyphCode(glyph.attributes.id ?? "");
    if (glyphs.has(code)) continue;
    glyphs.set(code, writeSvg({ name: "g", attributes: { id: `${prefix}-${code}` }, children: glyph.children }));
  }
}

const glyphCode = (id: string): string => id.replace(/^#/, "").split("-")[0] ?? "";

/** Centre of each note's head by the note's id in the document. */
function headCentres(inner: SvgElement): ReadonlyMap<string, number> {
  const centres = new Map<string, number>();
  for (const note of descendants(inner)) {
    if (note.attributes.class !== "note") continue;
    const head = elementsOf(note).find((child) => child.attributes.class === "notehead");
    const use = head === undefined ? undefined : elementsOf(head)[0];
    const [, x, scale] = /translate\(([-\d.]+),.*scale\(([-\d.]+)/.exec(use?.attributes.transform ?? "") ?? [];
    const width = HEAD_WIDTH[glyphCode(use?.attributes.href ?? "")];
    if (x !== undefined && scale !== undefined && width !== undefined)
      centres.set(note.attributes.id ?? "", Number(x) + (width * Number(scale)) / 0.72 / 2);
  }
  return centres;
}

/** An element as it goes into the page; none where there is nothing to see. */
function redraw(element: SvgElement, drawing: Drawing, context: SystemContext): SvgElement[] {
  const { id = "", class: kind = "" } = element.attributes;
  if (element.attributes.visibility === "hidden") return [];
  if (kind === "harm") return placeholder(element, id, drawing, context);
  if (kind.startsWith("mNum")) return barNumber(element);
  if (kind === "measure") noteBar(element, id, drawing);
  const attributes = keptAttributes(element, context);
  const children = joinPaths(
    element.children.flatMap((child): (SvgElement | string)[] =>
      typeof child === "string" ? [child] : redraw(child, drawing, context),
    ),
  );
  if (element.name === "g" && children.length === 0) return [];
  const note = /^n(\d+)$/.exec(id);
  if (kind === "note" && note !== null) {
    attributes.class = "note";
    attributes["data-note"] = context.score.notes[Number(note[1])]?.id ?? "";
  }
  const elements = children.filter((child): child is SvgElement => typeof child !== "string");
  const isBareGroup = element.name === "g" && Object.keys(attributes).length === 0;
  if (isBareGroup && elements.length === children.length) return elements;
  return [{ name: element.name, attributes, children }];
}

function keptAttributes(element: SvgElement, { prefix }: SystemContext): Record<string, string> {
  const kept: Record<string, string> = {};
  for (const [name, value] of Object.entries(element.attributes)) {
    if (name === "id" || name === "class" || name.startsWith("data-")) continue;
    if (name === "transform" && value === "translate(0, 0)") continue;
    kept[name] = name === "href" ? `#${prefix}-${glyphCode(value)}` : terse(value);
  }
  const kind = element.attributes.class ?? "";
  if (/^(tempo|ending)\b/.test(kind)) kept.class = kind.split(" ")[0] as string;
  return kept;
}

/** A transformation or a level line in fewer letters. @example "translate(88 1014) scale(.72)", "M0 834H7543" */
function terse(value: string): string {
  return value
    .replace(/scale\(0?([\d.]+), 0?\1\)/g, "scale($1)")
    .replaceAll(", ", " ")
    .replace(/^M(\S+) (\S+) L(\S+) \2$/, "M$1 $2H$3");
}

/** Neighbouring plain strokes of one width become one path: the five staff lines, ledger lines. */
function joinPaths(children: readonly (SvgElement | string)[]): (SvgElement | string)[] {
  const joined: (SvgElement | string)[] = [];
  for (const child of children) {
    const before = joined.at(-1);
    if (isStroke(child) && before !== undefined && isStroke(before)) {
      if (before.attributes["stroke-width"] === child.attributes["stroke-width"]) {
        before.attributes.d += child.attributes.d ?? "";
        continue;
      }
    }
    joined.push(child);
  }
  return joined;
}

function isStroke(child: SvgElement | string): child is SvgElement {
  return (
    typeof child !== "string" && child.name === "path" && Object.keys(child.attributes).join() === "d,stroke-width"
  );
}

/** How far a treble clef rises into the place of a bar number. */
const CLEF_RISE_UNITS = 200;
/** The baseline at which a bar number just fits under the upper edge. */
const LOWEST_TOP_UNITS = 170;
/** From a bar number to its bar line. */
const BAR_NUMBER_UNITS = 200;

function barNumber(element: SvgElement): SvgElement[] {
  const text = [...descendants(element)].find((child) => child.name === "text");
  if (text === undefined) return [];
  const { x = "0", y = "0" } = text.attributes;
  // The first stands clear of a treble clef; the others to the left of their bar line, where no mark of the bar's first
  // note and no end of a volta bracket can cover them.
  const isFirst = x === "0";
  const place = isFirst
    ? { x, y: String(Math.max(Number(y) - CLEF_RISE_UNITS, LOWEST_TOP_UNITS)), "text-anchor": "start" }
    : { x: String(Number(x) - BAR_NUMBER_UNITS), y, "text-anchor": "end" };
  return [{ name: "text", attributes: { class: "bar-number", ...place }, children: [textOf(element)] }];
}

function noteBar(measure: SvgElement, id: string, drawing: Drawing): void {
  const staff = elementsOf(measure).find((child) => child.attributes.class === "staff");
  const line = staff === undefined ? undefined : elementsOf(staff)[0]?.attributes.d;
  const [, from, y, to] = /^M([-\d.]+) ([-\d.]+) L([-\d.]+)/.exec(line ?? "") ?? [];
  if (from === undefined || y === undefined || to === undefined)
    throw new Error("a bar without staff lines in the engraving");
  drawing.bars.push({ bar: Number(id.replace("bar-", "")), from: Number(from), to: Number(to) });
  drawing.staffTop = Math.min(drawing.staffTop, Number(y));
}

function placeholder(element: SvgElement, id: string, drawing: Drawing, context: SystemContext): SvgElement[] {
  const text = elementsOf(element)[0];
  const at: Box = { x: Number(text?.attributes.x), y: Number(text?.attributes.y) };
  const group = context.groups.get(id);
  if (group !== undefined) return cellsAt(at, group, drawing, context);
  const notes = context.marks.get(id);
  if (notes !== undefined) drawing.marks.push({ notes, x: at.x, y: at.y - 0.36 * MARK_UNITS });
  return [];
}

/** Grace notes' cells stay in their bar; they shrink only where a rest or tied note before them leaves too little room. */
function graceStep(room: number, graces: number): number {
  return Math.floor(Math.min(GRACE_STEP_UNITS, room / Math.max(1, graces)));
}

/** The cells of a note or chord, one above the other; grace notes to the left, smaller. */
function cellsAt(at: Box, group: CellGroup, drawing: Drawing, context: SystemContext): SvgElement[] {
  const top = Math.round(at.y - 0.75 * CELL_UNITS);
  const lead = group.notes.at(-1) as number;
  drawing.centres.push({
    note: context.score.notes[lead]?.id ?? "",
    cell: at.x,
    head: drawing.heads.get(`n${lead}`) ?? Number.NaN,
  });
  const left = at.x - CELL_UNITS / 2;
  const step = graceStep(left - (drawing.bars.at(-1)?.from ?? 0), group.graces.length);
  const graces = group.graces.map((notes, column) => ({
    notes,
    left: left - (group.graces.length - column) * step,
    scale: (GRACE_SCALE * step) / GRACE_STEP_UNITS,
  }));
  return [...graces, { notes: group.notes, left, scale: 1 }].flatMap(({ notes, left, scale }) => {
    const width = CELL_UNITS * scale;
    const height = CELL_HEIGHT_UNITS * scale;
    drawing.bottom = Math.max(drawing.bottom, top + notes.length * height);
    return notes.flatMap((index, row) => {
      const id = context.score.notes[index]?.id ?? "";
      const symbol = context.cells.get(id);
      if (symbol === undefined) return [];
      drawing.cells.set(id, { x: left, y: top + row * height, width, height });
      const place = { x: String(left), y: String(top + row * height), width: String(width), height: String(height) };
      return [
        { name: "use", attributes: { class: "cell", "data-note": id, href: `#${symbol}`, ...place }, children: [] },
      ];
    });
  });
}
