// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the ink of a drawn path lies, found without the code that drew it: points along its lines and half its pen.

/** A point of a drawing. */
interface Point {
  readonly x: number;
  readonly y: number;
}

/** The ink of one path. */
export interface Ink {
  readonly points: readonly Point[];
  /** half the thickness of the pen */
  readonly half: number;
}

/** Between two points along a line. */
const STEP = 8;

/** Reads one `<path>` with the commands M, L, Q, l and z. */
export function inkOf(markup: string): Ink {
  const d = / d="([^"]*)"/.exec(markup)?.[1] ?? "";
  const half = Number(/stroke-width="([\d.]+)"/.exec(markup)?.[1]) / 2;
  return { points: d.split(/(?=M)/).flatMap(linePoints), half };
}

function linePoints(line: string): readonly Point[] {
  const corners: Point[] = [];
  for (const [, command = "", numbers = ""] of line.matchAll(/([MLQlz])([^MLQlz]*)/g)) {
    const values = (numbers.match(/-?\d+/g) ?? []).map(Number);
    if (command === "z") corners.push(corners[0] as Point);
    else if (command === "Q") corners.push(...curve(corners.at(-1) as Point, values));
    else
      for (let i = 0; i < values.length; i += 2) {
        const from = command === "l" ? (corners.at(-1) as Point) : { x: 0, y: 0 };
        corners.push({ x: from.x + (values[i] as number), y: from.y + (values[i + 1] as number) });
      }
  }
  return corners.flatMap((to, i) => {
    const from = corners[i - 1];
    if (from === undefined) return [to];
    const count = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / STEP));
    return Array.from({ length: count }, (_, k) => between(from, to, (k + 1) / count));
  });
}

const between = (a: Point, b: Point, t: number): Point => ({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t });

function curve(from: Point, [x1 = 0, y1 = 0, x2 = 0, y2 = 0]: readonly number[]): readonly Point[] {
  const [control, to] = [
    { x: x1, y: y1 },
    { x: x2, y: y2 },
  ];
  return Array.from({ length: 12 }, (_, i) => {
    const t = (i + 1) / 12;
    return between(between(from, control, t), between(control, to, t), t);
  });
}

/** The edges of the ink when its path stands at a place. */
export function edgesOf(
  { points, half }: Ink,
  at: Point,
): { left: number; top: number; right: number; bottom: number } {
  const [xs, ys] = [points.map(({ x }) => x + at.x), points.map(({ y }) => y + at.y)];
  return {
    left: Math.min(...xs) - half,
    right: Math.max(...xs) + half,
    top: Math.min(...ys) - half,
    bottom: Math.max(...ys) + half,
  };
}

/** The white between two paths whose corners lie apart by an offset; negative where they touch. */
export function whiteBetween(a: Ink, b: Ink, offset: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (const p of a.points)
    for (const q of b.points) {
      const [dx, dy] = [q.x + offset.x - p.x, q.y + offset.y - p.y];
      const square = dx * dx + dy * dy;
      if (square < least) least = square;
    }
  return Math.sqrt(least) - a.half - b.half;
}
