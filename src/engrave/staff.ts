// SPDX-License-Identifier: AGPL-3.0-or-later
// Staff notation with a cell under every note, one SVG per line of music. The cells take the place of harmony labels:
// of all that the engraver can hang under a note only these are centred on it, push notes apart, reserve height and
// share one line. One layout serves all widths: lines of music wrap on wide screens and paper, and stand side by side
// in a strip on phones.
import type { Score } from "../model/score.js";
import { type CellGroup, type MeiScore, writeMei } from "./mei.js";
import { CELL_UNITS } from "./room.js";
import type { Span } from "./spans.js";
import { drawSystem, type EngravedSystem, type Glyphs } from "./system.js";

export type { EngravedSystem } from "./system.js";

/** A melody as engraved. */
export interface Engraving {
  /** definitions that lines of music refer to, each once per page, inside one `<svg>`; equal ones of several melodies are one */
  readonly glyphs: readonly string[];
  /** lines of music from the first to the last */
  readonly systems: readonly EngravedSystem[];
}

/** How to engrave. */
export interface EngraveOptions {
  /** ids of the notes that get a mark above the staff */
  readonly marked: ReadonlySet<string>;
  /** what holds over several notes; nothing where left out */
  readonly spans?: readonly Span[];
  /** put before every id in the SVG, so that two scores can share a page; "music" by default */
  readonly prefix?: string;
  /** put before the number of each line of music as the id of its drawing; by default drawings have none */
  readonly lines?: string;
  /** width of a line of music in px before the page scales it; 800 by default */
  readonly widthPx?: number;
}

/** The engraver could not draw the melody: the page does without the staff. */
export class EngravingProblem extends Error {
  override readonly name = "EngravingProblem";
}

const TRIES = 6;

/** Cells closer than this are too close: what is drawn in a cell is 36 px wide, 900 units. */
const SMALLEST_GAP_UNITS = 0.94 * CELL_UNITS;

interface Toolkit {
  setOptions(options: Readonly<Record<string, unknown>>): void;
  loadData(data: string): boolean;
  redoLayout(): void;
  getPageCount(): number;
  renderToSVG(page: number): string;
}

let toolkit: Promise<Toolkit> | undefined;

/**
 * Starts Verovio on first use: it takes a third of a second. Its log is off, since it would reach the terminal: of a
 * crowded line it warns, but that is measured and mended here, and what it cannot draw it says by what it returns.
 */
async function startToolkit(): Promise<Toolkit> {
  const [{ default: createModule }, { VerovioToolkit, enableLog, LOG_OFF }] = await Promise.all([
    import("verovio/wasm"),
    import("verovio/esm"),
  ]);
  const module = await createModule();
  const started = new VerovioToolkit(module);
  enableLog(LOG_OFF, module);
  return started;
}

/**
 * Engraves the melody as written, with a cell under each note that has one.
 *
 * @param cells symbol ids (made by `drawCells`) by note id
 * @throws EngravingProblem when Verovio cannot draw it
 */
export async function engrave(
  score: Score,
  cells: ReadonlyMap<string, string>,
  options: EngraveOptions,
): Promise<Engraving> {
  try {
    toolkit ??= startToolkit();
    const mei = writeMei(score, { cells: new Set(cells.keys()), marked: options.marked });
    return layOut(await toolkit, score, mei, cells, options);
  } catch (cause) {
    toolkit = undefined;
    throw new EngravingProblem(cause instanceof Error ? cause.message : String(cause), { cause });
  }
}

function layOut(
  verovio: Toolkit,
  score: Score,
  mei: MeiScore,
  cells: ReadonlyMap<string, string>,
  options: EngraveOptions,
): Engraving {
  const groups = new Map(mei.groups.map((group): [string, CellGroup] => [group.placeholder, group]));
  let widthPx = Math.max(options.widthPx ?? 800, mei.mostCells * 46 + 120);
  for (let attempt = 1; ; attempt++) {
    verovio.setOptions(layoutOptions(widthPx));
    if (attempt > 1) verovio.redoLayout();
    else if (!verovio.loadData(mei.xml)) throw new EngravingProblem("the engraver did not read the melody");
    const glyphs: Glyphs = new Map();
    const pages = Array.from({ length: verovio.getPageCount() }, (_, page) => verovio.renderToSVG(page + 1));
    const { prefix = "music", spans = [], lines } = options;
    const shared = { score, groups, marks: mei.marks, cells, spans, glyphs, prefix };
    const systems = pages.map((svg, i) =>
      drawSystem(svg, { ...shared, id: lines === undefined ? null : `${lines}-${i + 1}` }),
    );
    const smallest = Math.min(...systems.map((system) => system.smallestGapUnits));
    if (smallest >= SMALLEST_GAP_UNITS || attempt === TRIES) return { glyphs: [...glyphs.values()], systems };
    widthPx *= 1.15;
  }
}

/** One line of music per page: a page too low for two. */
function layoutOptions(widthPx: number): Readonly<Record<string, unknown>> {
  return {
    xmlIdSeed: 1,
    scale: 40,
    breaks: "auto",
    pageWidth: Math.round((widthPx * 100) / 40),
    pageHeight: 100,
    adjustPageHeight: true,
    pageMarginLeft: 0,
    pageMarginRight: 0,
    pageMarginTop: 0,
    pageMarginBottom: 0,
    svgViewBox: true,
    svgRemoveXlink: true,
    svgFormatRaw: true,
    smuflTextFont: "none",
    header: "none",
    footer: "none",
    mnumInterval: 1,
  };
}
