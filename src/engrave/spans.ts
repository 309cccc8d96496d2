// SPDX-License-Identifier: AGPL-3.0-or-later
// What holds over several notes, drawn as lines between the glyphs and their words: phrases in harmonics, slides, and the
// middle finger that waits on a string.
import type { NoteJson } from "../report.js";
import type { SvgElement } from "./svg-tree.js";

/** What is drawn over several notes. */
export const SPAN_KINDS = ["harmonics", "slide", "planted"] as const;

/** Something that holds from one note to another. */
export interface Span {
  readonly kind: (typeof SPAN_KINDS)[number];
  /** ids of its notes in order */
  readonly notes: readonly string[];
  /** of a slide: toward the bridge, where it sounds higher */
  readonly up: boolean;
  /** of a waiting finger: its string */
  readonly string: number | null;
}

/** The spans of a fingering, those of one kind in order of time. */
export function spansOf(notes: readonly NoteJson[]): readonly Span[] {
  return [
    ...runsOf(notes, ({ sound }) => (sound === "harmonic" ? "harmonic" : null)).map((run) =>
      spanOver("harmonics", run),
    ),
    ...slidesOf(notes),
    ...runsOf(notes, ({ planted }) => planted).map((run) => ({
      ...spanOver("planted", run),
      string: run[0]?.planted ?? null,
    })),
  ];
}

const spanOver = (kind: Span["kind"], notes: readonly NoteJson[]): Span => ({
  kind,
  notes: notes.map(({ id }) => id),
  up: false,
  string: null,
});

/** Two or more notes in a row that share a value; notes without one part them. */
function runsOf(notes: readonly NoteJson[], heldBy: (note: NoteJson) => string | number | null): readonly NoteJson[][] {
  const runs: NoteJson[][] = [];
  let value: string | number | null = null;
  for (const note of notes) {
    const own = heldBy(note);
    if (own !== null && own === value) runs.at(-1)?.push(note);
    else if (own !== null) runs.push([note]);
    value = own;
  }
  return runs.filter((run) => run.length > 1);
}

/** Each slide from the note where it begins; slides that follow each other the same way are one. */
function slidesOf(notes: readonly NoteJson[]): readonly Span[] {
  const spans: (Span & { readonly notes: string[] })[] = [];
  for (const [i, note] of notes.entries()) {
    const before = notes[i - 1];
    if (note.arrival !== "slid" || before === undefined) continue;
    const up = (note.position ?? 0) < (before.position ?? 0);
    const last = spans.at(-1);
    if (last !== undefined && last.notes.at(-1) === before.id && last.up === up) last.notes.push(note.id);
    else spans.push({ kind: "slide", notes: [before.id, note.id], up, string: null });
  }
  return spans;
}

/** Height of a row of spans, in the engraver's units: 25 are one pixel. */
const ROW_UNITS = 230;
/** Beyond the centres of the cells at whose notes a span begins and ends. */
const REACH_UNITS = 260;
/** The tick at an end, the arrow's head, the dot where a finger comes down. */
const TICK_UNITS = 90;

/**
 * Draws the spans of one line of music below its cells.
 *
 * @param cells centre of each note's cell in this line, by note id
 * @param top   where the rows begin
 * @returns the drawing, and the height that it takes
 */
export function drawSpans(
  spans: readonly Span[],
  cells: ReadonlyMap<string, number>,
  top: number,
): { readonly elements: readonly SvgElement[]; readonly height: number } {
  const here = spans.flatMap((one) => {
    const own = one.notes.filter((note) => cells.has(note));
    if (own.length === 0) return [];
    const [first, last] = [own[0] as string, own.at(-1) as string];
    const [begins, ends] = [first === one.notes[0], last === one.notes.at(-1)];
    const [from, to] = [cells.get(first) as number, cells.get(last) as number];
    return [{ span: one, begins, ends, from: begins ? from : from - REACH_UNITS, to: ends ? to : to + REACH_UNITS }];
  });
  const rows = SPAN_KINDS.filter((kind) => here.some((one) => one.span.kind === kind));
  const elements = here.map((one) => drawn(one, top + (rows.indexOf(one.span.kind) + 0.5) * ROW_UNITS));
  return { elements, height: rows.length * ROW_UNITS };
}

interface Stretch {
  readonly span: Span;
  readonly begins: boolean;
  readonly ends: boolean;
  readonly from: number;
  readonly to: number;
}

function drawn({ span: { kind, up, string }, begins, ends, from, to }: Stretch, y: number): SvgElement {
  const [x1, x2] = [Math.round(from), Math.round(to)];
  const line = (d: string): SvgElement => ({ name: "path", attributes: { d }, children: [] });
  const group = (children: readonly SvgElement[]): SvgElement => ({
    name: "g",
    attributes: { class: `span ${kind}` },
    children: [...children],
  });
  switch (kind) {
    case "harmonics": {
      const diamond = (x: number): string =>
        `M${x - TICK_UNITS} ${y}l${TICK_UNITS} ${-TICK_UNITS} ${TICK_UNITS} ${TICK_UNITS} ${-TICK_UNITS} ${TICK_UNITS}z`;
      const dashes = { d: `M${x1 + 140} ${y}H${x2 - 140}`, "stroke-dasharray": "60 70" };
      return group([
        { name: "path", attributes: dashes, children: [] },
        ...(begins ? [line(diamond(x1))] : []),
        ...(ends ? [line(diamond(x2))] : []),
      ]);
    }
    case "slide": {
      const rise = (up ? -1 : 1) * TICK_UNITS;
      const [y1, y2] = [y - rise, y + rise];
      const head = ends ? `M${x2 - 130} ${y2 - (up ? -20 : 70)}L${x2} ${y2}l-90 ${up ? 110 : -110}` : "";
      return group([line(`M${x1} ${y1}L${x2} ${y2}${head}`)]);
    }
    case "planted": {
      const dot: SvgElement = {
        name: "circle",
        attributes: { cx: String(x1), cy: String(y), r: "55" },
        children: [],
      };
      const label: SvgElement = {
        name: "text",
        attributes: { class: "span-label", x: String(x1 - 110), y: String(y + 75), "text-anchor": "end" },
        children: [String(string ?? "")],
      };
      return group([
        line(`M${x1} ${y}H${x2}${ends ? `M${x2} ${y - TICK_UNITS}v${2 * TICK_UNITS}` : ""}`),
        ...(begins ? [dot, label] : []),
      ]);
    }
  }
}
