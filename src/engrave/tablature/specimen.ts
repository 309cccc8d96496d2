// SPDX-License-Identifier: AGPL-3.0-or-later
// What a specimen shows of the tablature: every component, and grids of readings in which each component meets every
// other that it can stand beside.

import { courseOf } from "../../model/compounds.js";
import {
  type Contact,
  ENTRIES,
  FIGURES,
  type FigureName,
  type Finger,
  ORNAMENTS,
  PINCHES,
  type Pinch,
  STROKES,
  type Stroke,
} from "../../model/fingering.js";
import { COMPONENTS, type ComponentName } from "./components.js";
import { composeGlyph, glyphDefinitions, type TablatureGlyph } from "./glyph.js";
import type { TablatureReading } from "./layout.js";
import { type Part, partId } from "./part.js";

/** What the grids are about. */
export type SpecimenTopic =
  | "open"
  | "stopped"
  | "holds"
  | "places"
  | "harmonics"
  | "compounds"
  | "pinches"
  | "left-hand"
  | "ornaments";

/** A glyph in a grid: its symbol and how it is said. */
export interface SpecimenCell {
  readonly symbol: string;
  readonly spoken: string;
}

/** Glyphs in rows under headings. */
export interface SpecimenGrid {
  readonly topic: SpecimenTopic;
  readonly head: readonly string[];
  readonly rows: readonly { readonly head: string; readonly cells: readonly SpecimenCell[] }[];
}

/** The whole specimen. */
export interface TablatureSpecimen {
  /** definitions that components and cells refer to: once per page, inside an `<svg>` */
  readonly symbols: string;
  /** each component, drawn on a square of 700 */
  readonly components: readonly { readonly name: ComponentName; readonly symbol: string }[];
  readonly grids: readonly SpecimenGrid[];
}

/** Side of the square on which the specimen shows a component. */
const COMPONENT_SIZE = 700;

/** An open string that nothing is done on. */
export const BARE: TablatureReading = {
  sound: "open",
  string: 1,
  position: null,
  finger: null,
  contact: null,
  stroke: null,
  arrival: "plucked",
  figure: null,
  across: null,
  entry: null,
  ornament: null,
  previous: null,
  pinch: null,
};

type Some = Partial<TablatureReading>;
const open = (some: Some): TablatureReading => ({ ...BARE, ...some });
const harmonic = (position: number, some: Some): TablatureReading => ({
  ...BARE,
  sound: "harmonic",
  position,
  ...some,
});
const stopped = (position: number, some: Some): TablatureReading => ({
  ...BARE,
  sound: "stopped",
  finger: "thumb",
  contact: "tip",
  position,
  ...some,
});

const STRINGS = [1, 2, 3, 4, 5, 6, 7] as const;
const HUI = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13] as const;
/** Stops as they are used: at a hui, between two, in the middle between two, outside the last. */
const PLACES = [4, 5.6, 6.4, 7, 7.6, 7.9, 8.5, 9, 10, 10.8, 11, 12, 12.2, 13.1] as const;

/** A way to hold a string, as it is said before a place. */
interface Hold {
  readonly said: string;
  readonly finger: Finger;
  readonly contact: Contact;
}

const HOLDS: readonly Hold[] = [
  { said: "da", finger: "thumb", contact: "tip" },
  { said: "da jie", finger: "thumb", contact: "joint" },
  { said: "shi", finger: "index", contact: "tip" },
  { said: "zhong", finger: "middle", contact: "tip" },
  { said: "ming", finger: "ring", contact: "tip" },
  { said: "ming jie", finger: "ring", contact: "joint" },
  { said: "ming gui", finger: "ring", contact: "kneeling" },
];

/** A grid before its glyphs are drawn. */
interface Plan {
  readonly topic: SpecimenTopic;
  readonly head: readonly string[];
  readonly rows: readonly { readonly head: string; readonly readings: readonly TablatureReading[] }[];
}

/** A grid of a reading for each row and column. */
function crossed<R, C>(
  topic: SpecimenTopic,
  sides: { rows: readonly R[]; columns: readonly C[]; rowHead: (row: R) => string; columnHead: (column: C) => string },
  reading: (row: R, column: C, at: number) => TablatureReading,
): Plan {
  const { rows, columns, rowHead, columnHead } = sides;
  return {
    topic,
    head: columns.map(columnHead),
    rows: rows.map((row, i) => ({
      head: rowHead(row),
      readings: columns.map((column, j) => reading(row, column, i + j)),
    })),
  };
}

const plain = String;
const spaced = (name: string): string => name.replaceAll("-", " ");
/** A different one for each place in a grid. */
const cycled = <T>(list: readonly T[], at: number): T => list[at % list.length] as T;

const SOUNDS = ["san", "an", "fan"] as const;

function sounded(sound: (typeof SOUNDS)[number], some: Some): TablatureReading {
  if (sound === "san") return open(some);
  return sound === "fan" ? harmonic(7, some) : stopped(9, some);
}

/** The strings that an example of a compound goes over. */
function acrossOf(figure: FigureName): Some {
  switch (courseOf(figure)) {
    case "one":
      return { string: 3 };
    case "pair":
      return { string: 2, across: [2, 1] };
    case "inward":
      return { string: 1, across: [1, 7] };
    default:
      return { string: 7, across: [7, 5] };
  }
}

/** The two strokes of a pinch with strings that suit them. */
const PINCHED: Readonly<Record<Pinch, readonly (readonly [Stroke, number])[]>> = {
  "small-cuo": [
    ["gou", 3],
    ["tiao", 5],
  ],
  "large-cuo": [
    ["gou", 1],
    ["tuo", 6],
  ],
  "reverse-cuo": [
    ["ti", 1],
    ["bo", 6],
  ],
  "yuan-lou": [
    ["gou", 2],
    ["mo", 4],
  ],
};

function pinchPlan(): Plan {
  return {
    topic: "pinches",
    head: ["san", "san", "an", "an"],
    rows: PINCHES.map((pinch) => {
      const struck = PINCHED[pinch].map(([stroke, string]) => ({ pinch, stroke, string }));
      return { head: spaced(pinch), readings: [...struck.map(open), ...struck.map((some) => stopped(10, some))] };
    }),
  };
}

function leftHandPlan(): Plan {
  const from = (position: number, finger: Finger): Some => ({ previous: { position, finger } });
  return {
    topic: "left-hand",
    head: ["shang", "xia", "yan"],
    rows: [
      ...[5.6, 7, 7.6, 8.5, 9, 10.8, 12].map((position) => ({
        head: plain(position),
        readings: [
          stopped(position, { arrival: "slid", ...from(13, "thumb") }),
          stopped(position, { arrival: "slid", ...from(4, "thumb") }),
          stopped(position, { arrival: "hammered" }),
        ],
      })),
      {
        head: "qi",
        readings: [
          open({ arrival: "pulled-off", ...from(10, "ring") }),
          open({ arrival: "pulled-off", ...from(9, "thumb") }),
          stopped(10, { arrival: "pulled-off", finger: "ring", ...from(9, "thumb") }),
        ],
      },
    ],
  };
}

function plans(): readonly Plan[] {
  const strokes = { rows: STROKES, rowHead: plain };
  const strings = { columns: STRINGS, columnHead: plain };
  return [
    crossed("open", { ...strokes, ...strings }, (stroke, string) => open({ stroke, string })),
    crossed("stopped", { ...strokes, ...strings }, (stroke, string) => stopped(9, { stroke, string })),
    crossed(
      "holds",
      { ...strokes, columns: HOLDS, columnHead: ({ said }) => said },
      (stroke, { finger, contact }, at) =>
        stopped(cycled([7, 9, 10], at), { stroke, finger, contact, string: cycled(STRINGS, at) }),
    ),
    crossed(
      "places",
      { rows: PLACES, rowHead: plain, columns: HOLDS, columnHead: ({ said }) => said },
      (position, { finger, contact }, at) =>
        stopped(position, { finger, contact, stroke: cycled(["gou", "tiao"], at), string: cycled(STRINGS, at) }),
    ),
    crossed("harmonics", { rows: HUI, rowHead: plain, columns: STROKES, columnHead: plain }, (hui, stroke, at) =>
      harmonic(hui, { stroke, string: cycled(STRINGS, at) }),
    ),
    crossed("compounds", { rows: FIGURES, rowHead: spaced, columns: SOUNDS, columnHead: plain }, (figure, sound) =>
      sounded(sound, { figure, ...acrossOf(figure) }),
    ),
    pinchPlan(),
    leftHandPlan(),
    crossed(
      "ornaments",
      {
        rows: [null, ...ORNAMENTS],
        rowHead: (ornament) => ornament ?? "–",
        columns: [null, ...ENTRIES],
        columnHead: (entry) => entry ?? "–",
      },
      (ornament, entry, at) =>
        stopped(7.6, { ornament, entry, stroke: cycled(["tiao", "gou"], at), string: cycled(STRINGS, at) }),
    ),
  ];
}

/** Draws the specimen. */
export function drawSpecimen(): TablatureSpecimen {
  const glyphs: TablatureGlyph[] = [];
  const grids = plans().map(({ topic, head, rows }) => ({
    topic,
    head,
    rows: rows.map(({ head: rowHead, readings }) => {
      const drawn = readings.map(composeGlyph);
      glyphs.push(...drawn);
      return { head: rowHead, cells: drawn.map(({ id, spoken }) => ({ symbol: id, spoken })) };
    }),
  }));
  const square = { x: 0, y: 0, width: COMPONENT_SIZE, height: COMPONENT_SIZE };
  const single: readonly Part[] = COMPONENTS.map((component) => ({ component, box: square }));
  return {
    symbols: glyphDefinitions(glyphs, single),
    components: single.map((part) => ({ name: part.component, symbol: partId(part) })),
    grids,
  };
}
