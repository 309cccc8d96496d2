// SPDX-License-Identifier: AGPL-3.0-or-later
// The four lanes of a row of bars, one below the other on one time axis: the left hand along the board, the strokes of
// the right hand, the strings with the finger that waits, and the effort of every bar.
import { cmFromBridge, HUI_FRACTION, NUT_POSITION } from "../src/model/board.js";
import { STROKE_FINGER } from "../src/model/fingering.js";
import type { PictureMoment, PicturePlace, Pictures } from "../src/report/pictures.js";
import type { RuleKind } from "../src/report.js";
import { phrase } from "../src/words.js";
import { type AxisMoment, type AxisRow, ROW_LEFT } from "./check-pictures-axis.js";
import { type Drawing, Sketch, tenth } from "./sketch.js";
import { hundredths } from "./words.js";

/** Height of a row of bars with its four lanes. */
export const ROW_HEIGHT = 296;

const HAND_TOP = 14;
const HAND_BOTTOM = 104;
const OPEN_ROW = 117;
const RIBBON = 146;
const STRINGS_TOP = 178;
const STRING_STEP = 9;
const EFFORT_TOP = 250;
const EFFORT_BOTTOM = 292;
/** Where the numbers of an axis end, left of the bars. */
const AXIS = ROW_LEFT - 6;
/** The number over a column needs this much of the lane. */
const NUMBER_ROOM = 10;
const WIDEST_COLUMN = 20;

/** The stretch of board and the dearest bar that all rows share. */
export interface LaneScale {
  readonly scaleLengthCm: number;
  readonly spanCm: number;
  /** the drawn stretch of the board, in cm from the bridge */
  readonly fromCm: number;
  readonly toCm: number;
  /** hui within it */
  readonly hui: readonly number[];
  readonly mostEffort: number;
}

const touching = ({ places }: PictureMoment): readonly PicturePlace[] => places.filter(({ sound }) => sound !== "open");

/** The scale of a piece: from the hui above its highest place to the one below its lowest. */
export function laneScale({ scaleLengthCm, spanCm, moments, bars }: Pictures): LaneScale {
  const used = moments.flatMap(touching).map(({ cm }) => cm);
  const cmOf = (hui: number): number => cmFromBridge(hui, scaleLengthCm);
  const all = HUI_FRACTION.map((_, hui) => hui).slice(1, 15);
  const [low, high] = used.length === 0 ? [cmOf(7), cmOf(10)] : [Math.min(...used), Math.max(...used)];
  const first = all.findLast((hui) => cmOf(hui) <= low + 0.1) ?? 1;
  const last = all.find((hui) => hui > first && cmOf(hui) >= high - 0.1) ?? NUT_POSITION;
  return {
    ...{ scaleLengthCm, spanCm },
    ...{ fromCm: cmOf(first), toCm: cmOf(last) },
    hui: all.filter((hui) => hui >= first && hui <= last && hui <= 13),
    mostEffort: Math.max(...bars.map(({ effort }) => effort), 0),
  };
}

/** Draws a row of bars. */
export function rowDrawing(row: AxisRow, pictures: Pictures, scale: LaneScale): Drawing {
  const sketch = new Sketch();
  const last = row.bars.at(-1);
  const right = last === undefined ? ROW_LEFT : last.x + last.width;
  for (const { x } of [...row.bars, { x: right }]) sketch.draw("bar-line", x, 2, `V${EFFORT_BOTTOM}`);
  handLane(sketch, row, { scale, right, lastTouch: lastTouchBefore(row, pictures) });
  strokeLane(sketch, row, right);
  stringLane(sketch, row, right);
  effortLane(sketch, row, pictures, scale, right);
  return sketch.drawing(BACK_TO_FRONT);
}

const BACK_TO_FRONT = [
  ...["bar-line", "hui-line", "string-line", "middle-line", "base-line"],
  ...["move", "free-move", "far-move", "hop", "wait-edge", "wait", "pair"],
];

/** A finger's point: round for the thumb, square for the ring finger, pointed for those between. */
export function drawPoint(
  sketch: Sketch,
  { sound, finger }: Pick<PicturePlace, "sound" | "finger">,
  x: number,
  y: number,
): void {
  if (sound === "harmonic") sketch.draw("harmonic", x, y - 4.4, "l4.4 4.4-4.4 4.4-4.4-4.4z");
  else if (finger === "index") sketch.draw("pointed", x, y - 4.2, "l4.1 7.4h-8.2z");
  else if (finger === "middle") sketch.draw("pointed", x, y + 4.2, "l4.1-7.4h-8.2z");
  else if (finger === "ring") sketch.draw("square", x - 3.2, y - 3.2, "h6.4v6.4h-6.4z");
  else sketch.dot("round", x, y);
}

/** Where the hand last touched a string before a row begins, in cm; null where it has not yet. */
function lastTouchBefore({ moments: [first] }: AxisRow, { moments }: Pictures): number | null {
  const before = first === undefined ? [] : moments.slice(0, moments.indexOf(first.moment));
  return before.flatMap((moment) => touching(moment).slice(0, 1)).at(-1)?.cm ?? null;
}

interface HandLane {
  readonly scale: LaneScale;
  readonly right: number;
  readonly lastTouch: number | null;
}

function handLane(sketch: Sketch, { moments }: AxisRow, { scale, right, lastTouch }: HandLane): void {
  const { fromCm, toCm, scaleLengthCm } = scale;
  const y = (cm: number): number => HAND_TOP + ((cm - fromCm) / (toCm - fromCm)) * (HAND_BOTTOM - HAND_TOP);
  const numbered: number[] = [];
  for (const hui of [...scale.hui].sort((a, b) => HUI_RANK.indexOf(a) - HUI_RANK.indexOf(b))) {
    const at = y(cmFromBridge(hui, scaleLengthCm));
    sketch.line("hui-line", ROW_LEFT, at, right, at);
    if (numbered.some((other) => Math.abs(other - at) < 10)) continue;
    numbered.push(at);
    sketch.write("axis", AXIS, at + 3.4, String(hui));
  }
  sketch.write("lane", 0, HAND_TOP + 3, phrase("Left hand", "左手"));
  sketch.write("lane-note", 0, HAND_TOP + 15, phrase("at hui", "徽"));
  sketch.write("axis", AXIS, OPEN_ROW + 3.4, phrase("open", "散"));
  drawTravel(sketch, moments, { spanCm: scale.spanCm, y, lastTouch });
  for (const { moment, x } of moments)
    for (const place of moment.places)
      if (place.sound === "open") sketch.draw("open", x - 3, OPEN_ROW, "h6");
      else drawPoint(sketch, place, x, y(place.cm));
}

/** Which hui are numbered where there is no room for all. */
const HUI_RANK = [7, 10, 9, 4, 13, 5, 12, 8, 6, 3, 11, 2, 1];

interface Touch {
  readonly x: number;
  readonly cm: number;
}

interface Travel {
  readonly spanCm: number;
  readonly lastTouch: number | null;
  y(cm: number): number;
}

/** Lines from touch to touch; dashed where open strings leave the hand free meanwhile. */
function drawTravel(sketch: Sketch, moments: readonly AxisMoment[], { spanCm, lastTouch, y }: Travel): void {
  let from: Touch | null = lastTouch === null ? null : { x: ROW_LEFT, cm: lastTouch };
  let free = false;
  const labels: Spot[] = [];
  for (const { moment, x } of moments) {
    const cm = touching(moment)[0]?.cm;
    free ||= cm === undefined;
    if (cm === undefined) continue;
    const far = moment.travelCm > spanCm;
    if (from !== null) {
      sketch.line(far ? "far-move" : free ? "free-move" : "move", from.x, y(from.cm), x, y(cm));
      const spot = far ? spotBeside({ x: from.x, y: y(from.cm) }, { x, y: y(cm) }, labels) : undefined;
      if (spot !== undefined) {
        labels.push(spot);
        sketch.write("travel", spot.x, spot.y, String(Math.round(moment.travelCm)));
      }
    }
    from = { x, cm };
    free = false;
  }
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Where the number of a long way stands beside its line and in the way of no other; nowhere if there is no room. */
function spotBeside(from: Spot, to: Spot, taken: readonly Spot[]): Spot | undefined {
  const side = to.y < from.y ? -9 : 9;
  const spots = [0.5, 0.35, 0.65].map((part) => ({
    x: from.x + part * (to.x - from.x) + side,
    y: from.y + part * (to.y - from.y) + 3,
  }));
  return spots.find((one) => taken.every((other) => Math.abs(other.x - one.x) > 17 || Math.abs(other.y - one.y) > 9));
}

/** Above the line what closes the hand, filled; below it what opens it, hollow; on it what does both. */
function strokeLane(sketch: Sketch, { moments }: AxisRow, right: number): void {
  sketch.line("middle-line", ROW_LEFT, RIBBON, right, RIBBON);
  sketch.write("lane", 0, RIBBON + 3.4, phrase("Strokes", "弹法"));
  sketch.write("axis", AXIS, RIBBON - 5, phrase("closing", "收"));
  sketch.write("axis", AXIS, RIBBON + 12, phrase("opening", "张"));
  let before: number | null = null;
  for (const { moment, x } of moments) {
    if (moment.stroke === null) continue;
    const { direction, compound, breakEffort } = moment.stroke;
    const side = direction === "closing" ? -1 : direction === "opening" ? 1 : 0;
    if (compound !== null)
      sketch.draw(side < 0 ? "ball-closing" : "ball", x - 4, RIBBON + 6 * side, "a4 4 0 1 0 8 0a4 4 0 1 0-8 0z");
    else if (side < 0) sketch.draw("closing", x, RIBBON - 10, "v8");
    else sketch.draw("opening", x - 2.5, RIBBON + 2, "h5v8h-5z");
    if (breakEffort > 0) drawBreak(sketch, before ?? x - 12, x, RIBBON + (side > 0 ? 15.5 : -15.5));
    before = x;
  }
}

/** Two strokes of one kind joined by a line with a cross. */
function drawBreak(sketch: Sketch, from: number, to: number, y: number): void {
  sketch.line("break-line", from, y, to, y);
  sketch.draw("break", (from + to) / 2 - 2.5, y - 2.5, "l5 5m0-5l-5 5");
}

const stringY = (string: number): number => STRINGS_TOP + (string - 1) * STRING_STEP;

function stringLane(sketch: Sketch, { moments }: AxisRow, right: number): void {
  sketch.write("lane", 0, stringY(4) + 3.4, phrase("Strings", "弦"));
  for (let string = 1; string <= 7; string++) {
    sketch.line("string-line", ROW_LEFT, stringY(string), right, stringY(string));
    if (string % 2 === 1) sketch.write("axis", AXIS, stringY(string) + 3.4, String(string));
  }
  const plucks = moments.filter(({ moment }) => moment.stroke !== null && moment.places.length > 0);
  for (const { string, fromX, toX } of waits(plucks))
    for (const kind of ["wait-edge", "wait"]) sketch.line(kind, fromX, stringY(string), toX, stringY(string));
  plucks.forEach(({ moment, x }, i) => {
    const struck = moment.places.map(({ string }) => string);
    const last = plucks[i - 1]?.moment.places.at(-1)?.string;
    const [first, second] = [struck[0] as number, struck.at(-1) as number];
    if (last !== undefined) sketch.line("hop", plucks[i - 1]?.x ?? x, stringY(last), x, stringY(first));
    if (second !== first) sketch.line("pair", x, stringY(first), x, stringY(second));
    for (const string of struck) sketch.dot("pluck", x, stringY(string));
  });
}

/** A finger that waits on a string, from the first pluck meanwhile to the last, or to the one that it waits for. */
export interface Wait {
  readonly string: number;
  readonly fromX: number;
  readonly toX: number;
}

/** The waits in a row of plucked moments. */
export function waits(plucks: readonly AxisMoment[]): readonly Wait[] {
  const found: Wait[] = [];
  plucks.forEach(({ moment, x }, i) => {
    const string = moment.planted;
    if (string === null) return;
    const next = plucks[i + 1];
    const plays = next !== undefined && waitedFor(next.moment, string);
    const toX = plays ? next.x : x + 5;
    const open = plucks[i - 1]?.moment.planted === string ? found.pop() : undefined;
    found.push({ string, fromX: open?.fromX ?? x - 5, toX });
  });
  return found;
}

/** Whether the middle finger plays the string on which it waited. */
function waitedFor({ stroke, places }: PictureMoment, string: number): boolean {
  const [first] = stroke?.strokes ?? [];
  return first !== undefined && STROKE_FINGER[first] === "middle" && places[0]?.string === string;
}

function effortLane(
  sketch: Sketch,
  { bars }: AxisRow,
  pictures: Pictures,
  { mostEffort }: LaneScale,
  right: number,
): void {
  sketch.line("base-line", ROW_LEFT, EFFORT_BOTTOM, right, EFFORT_BOTTOM);
  sketch.write("lane", 0, EFFORT_BOTTOM - 14, phrase("Effort", "费力"));
  sketch.write("lane-note", 0, EFFORT_BOTTOM - 2, phrase("by bar", "各小节"));
  const unit = mostEffort === 0 ? 0 : (EFFORT_BOTTOM - EFFORT_TOP - NUMBER_ROOM) / mostEffort;
  for (const { index, x, width } of bars) {
    const { effort, blocked, kinds } = pictures.bars[index] ?? { effort: 0, blocked: 0, kinds: [] };
    const middle = x + width / 2;
    let y = EFFORT_BOTTOM;
    for (const { kind, effort: part } of stacked(kinds)) {
      const top = y - part * unit;
      drawPart(sketch, kind, { x: middle, width: Math.min(WIDEST_COLUMN, width - 8), from: y, to: top });
      y = top;
    }
    if (effort > 0) sketch.write("sum", middle, y - 3, hundredths(effort));
    if (blocked > 0) sketch.draw("blocked", middle - 4, y - (effort > 0 ? 23 : 10), "l8 8m0-8l-8 8");
  }
}

/** A part of a column: its middle, its width, its lower and its upper end. */
interface ColumnPart {
  readonly x: number;
  readonly width: number;
  readonly from: number;
  readonly to: number;
}

/** Part of a column, with the stripes of its kind. */
export function drawPart(sketch: Sketch, kind: RuleKind, { x, width, from, to }: ColumnPart): void {
  sketch.draw(`column ${kind}`, x - width / 2, from, `h${tenth(width)}V${tenth(to)}h${tenth(-width)}z`);
  for (let y = from - STRIPES[kind]; STRIPES[kind] > 0 && y > to + 0.6; y -= STRIPES[kind])
    sketch.draw(`stripe ${kind}`, x - width / 2, y, `h${tenth(width)}`);
}

/** How far apart the stripes of a kind lie; 0 for none. Those without are told by filled and hollow. */
const STRIPES: Readonly<Record<RuleKind, number>> = {
  efficiency: 0,
  idiom: 2.6,
  range: 0,
  intonation: 1.6,
  character: 4,
  notation: 0,
};

/** Kinds in the order in which they lie on each other. */
export const STACK: readonly RuleKind[] = ["efficiency", "idiom", "range", "intonation", "character", "notation"];

function stacked(kinds: Pictures["bars"][number]["kinds"]): Pictures["bars"][number]["kinds"] {
  return STACK.flatMap((kind) => kinds.filter((one) => one.kind === kind));
}
