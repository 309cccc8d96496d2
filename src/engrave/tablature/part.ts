// SPDX-License-Identifier: AGPL-3.0-or-later
// A component drawn into a box. The box may be wide or low, so height and width are scaled apart; the weight of the
// strokes is made even again by drawing along the outline with a pen.
import { type ComponentName, drawingOf, type Strokes } from "./components.js";
import { OUTLINES, type Outline, STEM } from "./outlines.js";

/** A rectangle on a glyph's grid, y downward. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A component in its box. */
export interface Part {
  readonly component: ComponentName;
  readonly box: Box;
}

/** Thickness of strokes on a glyph's grid, which is 1000 wide. */
const PEN = 52;
/** Room that strokes leave between them, as a share of their thickness. */
const AIR = 0.8;
/** Thickness in a small box, as a share of its shorter side. */
const SMALL = 0.2;
/** How much more one way than the other a component may be stretched. */
const STRETCH = 1.7;
/** What most characters fill of the em, and how much larger than those one with less ink may become. */
const FACE = 850;
const LARGEST = 1.15;

/** Ink in the colour of the text around it, with round ends. Said of each part, since those are fewer than the glyphs. */
const PEN_STYLE = 'stroke="currentColor" stroke-linejoin="round" stroke-linecap="round"';

/** The name of a drawn part: equal for the same component in boxes of one size. */
export function partId({ component, box }: Part): string {
  return `jz-${component}-${box.width}x${box.height}`;
}

/** The drawing of a part with its corner at the origin, to be used at the box's place. */
export function drawPart(part: Part): string {
  const drawing = drawingOf(part.component);
  const { width, height } = part.box;
  if ("strokes" in drawing) return drawStrokes(drawing.strokes, partId(part), width, height);
  const outline = OUTLINES[drawing.character];
  const room = { pen: penFor(outline, width, height), width, height };
  return drawOutline(outline, partId(part), { ...room, ...scaleFor(outline, room, drawing.frames) });
}

/** The pen that leaves room between all strokes of a component. */
function penFor({ rows, columns }: Pick<Strokes, "rows" | "columns">, width: number, height: number): number {
  const lines = (count: number): number => count + (count - 1) * AIR;
  return Math.round(Math.min(PEN, height / lines(rows), width / lines(columns), SMALL * Math.min(width, height)));
}

function drawStrokes(strokes: Strokes, id: string, width: number, height: number): string {
  const pen = penFor(strokes, width, height);
  let axis = 0;
  const path = strokes.path.replace(/\d+/g, (digits) => {
    const size = axis === 0 ? width : height;
    axis = 1 - axis;
    return String(Math.round(pen / 2 + (Number(digits) / 1000) * (size - pen)));
  });
  return `<path id="${id}" fill="none" ${PEN_STYLE} stroke-width="${pen}" d="${path}"/>`;
}

interface Room {
  readonly pen: number;
  readonly width: number;
  readonly height: number;
}

interface Scale {
  readonly x: number;
  readonly y: number;
}

/** A frame fills its box; other characters keep near their own shape, and none is drawn larger than its neighbours. */
function scaleFor(outline: Outline, { pen, width, height }: Room, frames: boolean): Scale {
  const full = { x: (width - pen) / outline.width, y: (height - pen) / outline.height };
  if (frames) return full;
  const x = Math.min(full.x, (LARGEST * (width - pen)) / FACE);
  const y = Math.min(full.y, (LARGEST * (height - pen)) / FACE);
  return { x: Math.min(x, y * STRETCH), y: Math.min(y, x * STRETCH) };
}

function drawOutline(outline: Outline, id: string, { pen, width, height, x, y }: Room & Scale): string {
  const left = (width - outline.width * x) / 2;
  const top = (height - outline.height * y) / 2;
  const weight = Math.max(0, Math.round(pen - STEM * Math.sqrt(x * y)));
  const d = outline.contours.map((contour) => scaled(contour, { x, y, left, top })).join("");
  return `<path id="${id}" fill="currentColor" ${PEN_STYLE} stroke-width="${weight}" d="${d}"/>`;
}

interface Placing extends Scale {
  readonly left: number;
  readonly top: number;
}

/** A closed line as a path of whole, relative steps, which are the shortest to write. */
function scaled(contour: string, { x, y, left, top }: Placing): string {
  const numbers = contour.split(" ").map(Number);
  let from = { x: 0, y: 0 };
  const steps: string[] = [];
  for (let i = 0; i < numbers.length; i += 2) {
    const to = { x: Math.round(left + (numbers[i] ?? 0) * x), y: Math.round(top + (numbers[i + 1] ?? 0) * y) };
    const step = { x: to.x - from.x, y: to.y - from.y };
    if (i === 0) steps.push(`M${to.x} ${to.y}l`);
    else if (step.x !== 0 || step.y !== 0) steps.push(`${step.x} ${step.y} `);
    from = to;
  }
  return `${steps.join("").trimEnd()}z`.replace(/ -/g, "-");
}
