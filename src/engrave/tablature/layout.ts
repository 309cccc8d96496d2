// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the components of a reading stand: above the left hand and its place, or the sign of the open string; below them
// the stroke with the number of its string; signs that go with the stroke left of it, ornaments right of it.
import { type FigureName, type Pinch, type SpokenNote, slidesUp } from "../../model/fingering.js";
import { beside, box, columns, inside, middle, rows, shrunk } from "./boxes.js";
import type { ComponentName } from "./components.js";
import { layPlace, numeral } from "./numerals.js";
import type { Box, Part } from "./part.js";

/** One note as it is read, with the pinch that it is part of. */
export interface TablatureReading extends SpokenNote {
  readonly pinch: Pinch | null;
}

/** The grid that every glyph stands on. */
export const GLYPH_SIZE = { width: 1000, height: 1250 } as const;

/** The white at its sides keeps neighbouring notes apart. */
const WHOLE = box(50, 20, GLYPH_SIZE.width - 100, GLYPH_SIZE.height - 40);
/** Between parts of a glyph. */
const GAP = 60;

/**
 * The components of a reading in their boxes, left hand first.
 *
 * @throws RangeError for a string or place that no instrument has
 */
export function layOut(reading: TablatureReading): readonly Part[] {
  switch (reading.arrival) {
    case "slid":
      return layMove(slidesUp(reading) ? "shang" : "xia", reading.position);
    case "hammered":
      return layMove("yan", reading.position);
    case "pulled-off":
      return layPullOff(reading);
    case "plucked":
      return layPlucked(reading);
  }
}

/** A sound of the left hand alone: its sign, with the place below. */
function layMove(sign: ComponentName, position: number | null): readonly Part[] {
  const [above, below] = rows(middle(WHOLE, 620, 1080), 70, [6, 5]) as [Box, Box];
  return [{ component: sign, box: above }, ...(position === null ? [] : layPlace(position, middle(below, 480, 450)))];
}

function layPullOff({ sound, previous }: SpokenNote): readonly Part[] {
  const sign = sound === "stopped" ? "qia" : previous?.finger === "thumb" ? "zhua" : "dai";
  const [above, below] = rows(middle(WHOLE, 700, 1100), GAP, [6, 4]) as [Box, Box];
  return [
    { component: sign, box: above },
    { component: "qi", box: middle(below, 560, below.height) },
  ];
}

function layPlucked(reading: TablatureReading): readonly Part[] {
  const open = reading.sound === "open";
  const [above, below] = rows(WHOLE, GAP, open ? [29, 86] : [45, 70]) as [Box, Box];
  const left = open ? [{ component: "san" as const, box: middle(above, 700, above.height) }] : layStop(reading, above);
  return [...left, ...layRight(reading, below)];
}

/** The finger, or the sign of harmonics, with its place to the right. */
function layStop({ sound, finger, contact, position }: TablatureReading, whole: Box): readonly Part[] {
  const hold = box(whole.x, whole.y, 410, whole.height);
  const place = box(whole.x + 450, whole.y, whole.width - 450, whole.height);
  const held = sound === "harmonic" ? (["fan"] as const) : holdSigns(finger ?? "ring", contact);
  return [...layHold(held, hold), ...(position === null ? [] : layPlace(position, place))];
}

function holdSigns(
  finger: NonNullable<SpokenNote["finger"]>,
  contact: SpokenNote["contact"],
): readonly ComponentName[] {
  // Only the ring finger kneels, so that its own sign need not be written.
  if (contact === "kneeling") return ["kneeling"];
  return contact === "joint" ? [finger, "joint"] : [finger];
}

function layHold(signs: readonly ComponentName[], whole: Box): readonly Part[] {
  const [first, second] = signs;
  if (first === undefined) return [];
  if (second === undefined) return [{ component: first, box: whole }];
  return [
    { component: first, box: box(whole.x, whole.y, 230, whole.height) },
    { component: second, box: box(whole.x + 250, whole.y + 50, 160, whole.height - 50) },
  ];
}

/** Width of the signs beside a stroke, on one side alone and on both. */
const SIDE = { alone: 240, both: 170 } as const;
/** Between a stroke and the signs beside it. */
const SIDE_GAP = 30;

/** The right hand's part: the stroke or compound, and the signs beside it. */
function layRight(reading: TablatureReading, whole: Box): readonly Part[] {
  const before = [...(reading.entry === null ? [] : [reading.entry]), ...pinchSigns(reading.pinch)];
  const after = reading.sound === "stopped" && reading.ornament !== null ? [reading.ornament] : [];
  const side = before.length > 0 && after.length > 0 ? SIDE.both : SIDE.alone;
  const from = before.length === 0 ? 0 : side + SIDE_GAP;
  const to = whole.width - (after.length === 0 ? 0 : side + SIDE_GAP);
  return [
    ...layStrike(reading, box(whole.x + from, whole.y, to - from, whole.height)),
    ...layColumn(before, box(whole.x, whole.y, side, whole.height)),
    ...layColumn(after, box(whole.x + whole.width - side, whole.y, side, whole.height)),
  ];
}

const PINCH_SIGNS: Readonly<Record<Pinch, readonly ComponentName[]>> = {
  "small-cuo": ["cuo"],
  "large-cuo": ["thumb", "cuo"],
  "reverse-cuo": ["reverse", "cuo"],
  "yuan-lou": ["yuan", "lou"],
};

const pinchSigns = (pinch: Pinch | null): readonly ComponentName[] => (pinch === null ? [] : PINCH_SIGNS[pinch]);

/** Small signs one below the other, in the middle of their column. */
function layColumn(signs: readonly ComponentName[], whole: Box): readonly Part[] {
  if (signs.length === 0) return [];
  return layStack(signs, 30, middle(whole, whole.width, signs.length * 300 + (signs.length - 1) * 30));
}

/** Where a stroke's own frame has room for the string's number, from line to line; the others stand above the number. */
const FRAMES: Partial<Record<ComponentName, { left: number; top: number; right: number; bottom: number }>> = {
  bo: { left: 0.28, top: 0.48, right: 1.03, bottom: 1.04 },
  tuo: { left: 0.32, top: 0.33, right: 0.9, bottom: 0.88 },
  tiao: { left: 0.17, top: -0.03, right: 0.88, bottom: 0.85 },
  gou: { left: 0.24, top: 0.32, right: 0.81, bottom: 0.83 },
  zhai: { left: 0.14, top: 0.38, right: 0.86, bottom: 0.93 },
  li: { left: 0.26, top: 0.18, right: 1.03, bottom: 1.04 },
};
/** Half a stroke and the white beside it. */
const CLEARANCE = 52;

/** The signs of a compound, with the stroke that holds the string where one does: else they stand above the strings. */
interface Figure {
  /** beside each other, each one component or several below one another */
  readonly signs: readonly (readonly ComponentName[])[];
  readonly stroke: ComponentName | null;
}

const FIGURE_SIGNS: Readonly<Record<FigureName, Figure>> = {
  "mo-tiao": { signs: [["mo"]], stroke: "tiao" },
  "gou-ti": { signs: [["gou"], ["ti"]], stroke: null },
  "mo-gou": { signs: [["mo"], ["gou"]], stroke: null },
  die: { signs: [["die"]], stroke: null },
  juan: { signs: [["juan"]], stroke: null },
  "ban-lun": { signs: [["half"], ["lun"]], stroke: null },
  lun: { signs: [["lun"]], stroke: null },
  "bei-suo": { signs: [["bei"], ["suo-above", "suo-below"]], stroke: null },
  "duan-suo": { signs: [["duan"], ["suo-above", "suo-below"]], stroke: null },
  "chang-suo": { signs: [["chang"], ["suo-above", "suo-below"]], stroke: null },
  li: { signs: [], stroke: "li" },
  gun: { signs: [["gun"]], stroke: null },
  fu: { signs: [["fu"]], stroke: null },
  "gun-fu": { signs: [["gun"], ["fu"]], stroke: null },
  "suo-ling": { signs: [["suo"], ["ling"]], stroke: null },
  "ru-yi": { signs: [["ru-left"], ["ru-right"], ["one"]], stroke: null },
  "shuang-tan": { signs: [["shuang"], ["tan"]], stroke: null },
  "bo-la": { signs: [["po"], ["la"]], stroke: null },
  "quan-fu": { signs: [["quan"], ["hold"]], stroke: null },
  "da-yuan": { signs: [["da"], ["yuan"]], stroke: null },
};

function layStrike({ figure, stroke, string, across }: TablatureReading, whole: Box): readonly Part[] {
  const strings = across === null ? [string] : [across[0] ?? string, across.at(-1) ?? string];
  if (figure !== null) return layFigure(FIGURE_SIGNS[figure], strings, whole);
  return stroke === null ? layStrings(strings, whole) : layFramed(stroke, strings, whole);
}

function layFigure({ signs, stroke }: Figure, strings: readonly number[], whole: Box): readonly Part[] {
  if (signs.length === 0 && stroke !== null) return layFramed(stroke, strings, whole);
  const [above, below] = rows(whole, 40, stroke === null ? [6, 4] : [34, 66]) as [Box, Box];
  const strike = stroke === null ? layStrings(strings, below) : layFramed(stroke, strings, below);
  return [...laySigns(signs, above), ...strike];
}

/** Signs beside each other, each one component or several below one another. */
function laySigns(signs: readonly (readonly ComponentName[])[], whole: Box): readonly Part[] {
  const cells = columns(
    middle(whole, 440 * signs.length, 500),
    40,
    signs.map(() => 1),
  );
  return signs.flatMap((stack, i) => layStack(stack, 20, cells[i] as Box));
}

function layStack(stack: readonly ComponentName[], gap: number, whole: Box): readonly Part[] {
  const cells = rows(
    whole,
    gap,
    stack.map(() => 1),
  );
  return stack.map((component, i) => ({ component, box: cells[i] as Box }));
}

/** A stroke with its string in its frame or below it. */
function layFramed(stroke: ComponentName, strings: readonly number[], whole: Box): readonly Part[] {
  const frame = FRAMES[stroke];
  if (frame !== undefined)
    return [{ component: stroke, box: whole }, ...layStrings(strings, shrunk(inside(whole, frame), CLEARANCE))];
  const [above, below] = rows(whole, GAP, [56, 40]) as [Box, Box];
  return [{ component: stroke, box: middle(above, 640, above.height) }, ...layStrings(strings, below)];
}

/** The string's number; of a sweep or a pair the first and the last beside each other. */
function layStrings(strings: readonly number[], whole: Box): readonly Part[] {
  const room = middle(whole, strings.length * 460, 360);
  return beside(room, GAP, strings.map(numeral));
}
