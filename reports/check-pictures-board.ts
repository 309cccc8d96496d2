// SPDX-License-Identifier: AGPL-3.0-or-later
// The seven strings as the player sees them: the hui, every place that the piece uses, the odd strings of each zone.
import { cmFromBridge } from "../src/model/board.js";
import type { Sound } from "../src/model/fingering.js";
import type { Pictures, PictureZone } from "../src/report/pictures.js";
import { phrase, type Said } from "../src/words.js";
import { type Drawing, Sketch, tenth } from "./sketch.js";

/** Width of the board's picture. */
export const BOARD_WIDTH = 720;
/** Its height. */
export const BOARD_HEIGHT = 336;

const NUT_X = 64;
const BRIDGE_X = 712;
/** Where open strings stand, beyond the nut. */
const OPEN_X = 44;
const HUI_Y = 26;
const FIRST_STRING_Y = 52;
const STRING_STEP = 40;
const LARGEST_RADIUS = 14;
/** Radius of a place that is used once, where the most used one leaves room. */
const ONE_USE_RADIUS = 3.6;
/** Numbers of two places nearer than this would touch. */
const NUMBER_WIDTH = 17;
const ZONE_MARGIN = 17;

/** A place with how often it is used. */
export interface UsedPlace {
  readonly string: number;
  readonly sound: Sound;
  readonly position: number | null;
  readonly cm: number;
  readonly uses: number;
  /** indices of its bars, each once */
  readonly bars: readonly number[];
}

/** Every place of a piece, string 1 first, open strings before stops before harmonics, from the nut up. */
export function usedPlaces({ moments }: Pick<Pictures, "moments">): readonly UsedPlace[] {
  const found = new Map<string, UsedPlace>();
  for (const { places, bar } of moments)
    for (const { string, sound, position, cm } of places) {
      const key = `${string} ${sound} ${position}`;
      const before = found.get(key) ?? { string, sound, position, cm, uses: 0, bars: [] };
      const bars = before.bars.at(-1) === bar ? before.bars : [...before.bars, bar];
      found.set(key, { ...before, uses: before.uses + 1, bars });
    }
  const rank: Readonly<Record<Sound, number>> = { open: 0, stopped: 1, harmonic: 2 };
  return [...found.values()].sort((a, b) => a.string - b.string || rank[a.sound] - rank[b.sound] || b.cm - a.cm);
}

/** Where a place lies on the picture: the bridge at the right, as the player has it. */
export function boardX(cm: number, scaleLengthCm: number): number {
  return BRIDGE_X - (cm / scaleLengthCm) * (BRIDGE_X - NUT_X);
}

const boardY = (string: number): number => FIRST_STRING_Y + (string - 1) * STRING_STEP;

/** Draws the board. @param strings pitches of the open strings, string 1 first */
export function boardDrawing(pictures: Pictures, strings: readonly string[]): Drawing {
  const sketch = new Sketch();
  const { scaleLengthCm, zones } = pictures;
  const places = usedPlaces(pictures);
  const x = (position: number): number => boardX(cmFromBridge(position, scaleLengthCm), scaleLengthCm);
  for (const zone of zones) drawZone(sketch, zone, x);
  drawHui(sketch, x);
  strings.forEach((pitch, i) => {
    sketch.line(`string-${i + 1}`, NUT_X, boardY(i + 1), BRIDGE_X, boardY(i + 1));
    sketch.write("string-name", 0, boardY(i + 1) + 4, `${i + 1} ${pitch}`);
  });
  for (const edge of [NUT_X, BRIDGE_X]) sketch.line("edge", edge, boardY(1) - 12, edge, boardY(7) + 12);
  drawPlaces(sketch, places, scaleLengthCm);
  numberPlaces(sketch, places, scaleLengthCm);
  for (const zone of zones) markOdd(sketch, zone, x, places);
  return sketch.drawing();
}

/** The names that stand under the zones. */
const ZONE_SHORT: Readonly<Record<PictureZone["zone"], Said>> = {
  "low down": phrase("low down", "十二徽下"),
  "around hui 10": phrase("hui 10", "十徽"),
  "around hui 9": phrase("hui 9", "九徽"),
};

function drawZone(sketch: Sketch, { zone, from, to }: PictureZone, x: (position: number) => number): void {
  const [left, right] = [x(to) - 1, x(from) + 1];
  const top = boardY(1) - ZONE_MARGIN;
  const bottom = boardY(7) + ZONE_MARGIN;
  sketch.draw("zone", left, top, `H${tenth(right)}V${bottom}H${tenth(left)}z`);
  sketch.write("zone-name", (left + right) / 2, bottom + 15, ZONE_SHORT[zone]);
}

function drawHui(sketch: Sketch, x: (position: number) => number): void {
  for (let hui = 1; hui <= 13; hui++) {
    sketch.line("hui-line", x(hui), boardY(1) - 10, x(hui), boardY(7) + 12);
    // The hui of an instrument grow toward the middle one (common practice, no source).
    sketch.dot(hui === 7 ? "hui-seven" : Math.abs(hui - 7) < 4 ? "hui-middle" : "hui", x(hui), HUI_Y);
    sketch.write("hui-number", x(hui), HUI_Y - 10, String(hui));
  }
}

/** Areas are as the uses: the largest first, so that the small ones lie upon them. */
function drawPlaces(sketch: Sketch, places: readonly UsedPlace[], scaleLengthCm: number): void {
  for (const place of [...places].sort((a, b) => b.uses - a.uses)) {
    const r = radius(place.uses, places);
    const at = place.sound === "open" ? OPEN_X : boardX(place.cm, scaleLengthCm);
    const y = boardY(place.string);
    if (place.sound === "harmonic") {
      const d = tenth(r * HALF_DIAGONAL);
      sketch.draw("harmonic", at, y - d, `l${d} ${d}-${d} ${d}-${d}-${d}z`);
    } else
      sketch.draw(
        place.sound,
        at - r,
        y,
        `a${tenth(r)} ${tenth(r)} 0 1 0 ${tenth(2 * r)} 0a${tenth(r)} ${tenth(r)} 0 1 0-${tenth(2 * r)} 0z`,
      );
  }
}

/** A square on its corner has the area of a circle of radius 1 when its half diagonal is this long. */
const HALF_DIAGONAL = Math.sqrt(Math.PI / 2);

/** Radius of a place: its area is as its uses. */
export function radius(uses: number, places: readonly UsedPlace[]): number {
  const most = Math.max(1, ...places.map((place) => place.uses));
  return Math.min(ONE_USE_RADIUS, LARGEST_RADIUS / Math.sqrt(most)) * Math.sqrt(uses);
}

/** Places between the hui get their number; of two that stand close the more used one. */
function numberPlaces(sketch: Sketch, places: readonly UsedPlace[], scaleLengthCm: number): void {
  const numbered: { readonly string: number; readonly x: number }[] = [];
  const between = places.filter(({ position }) => position !== null && !Number.isInteger(position));
  for (const { string, position, cm, uses } of [...between].sort((a, b) => b.uses - a.uses)) {
    const x = boardX(cm, scaleLengthCm);
    if (numbered.some((other) => other.string === string && Math.abs(other.x - x) < NUMBER_WIDTH)) continue;
    numbered.push({ string, x });
    sketch.write("place-number", x, boardY(string) + radius(uses, places) + 9, String(position));
  }
}

/** An odd string is framed within its zone, and its places marked and named if the piece does not use them. */
function markOdd(
  sketch: Sketch,
  { odd, from, to }: PictureZone,
  x: (position: number) => number,
  used: readonly UsedPlace[],
): void {
  const [left, right] = [x(to) - 1, x(from) + 1];
  for (const { string, places } of odd) {
    const y = boardY(string);
    sketch.draw("odd", left, y - 17, `H${tenth(right)}v34H${tenth(left)}z`);
    for (const place of places) {
      const use = used.find((one) => one.string === string && one.sound === "stopped" && one.position === place);
      // A place in use has its number below, and the mark above.
      const r = use === undefined ? 0 : radius(use.uses, used);
      sketch.line("odd-place", x(place), y - Math.max(7, r + 5), x(place), use === undefined ? y + 7 : y - r);
      if (use !== undefined) continue;
      const inward = x(place) < (left + right) / 2 ? 1 : -1;
      sketch.write("odd-number", x(place) + 14 * inward, y - 5, String(place));
    }
  }
}
