// SPDX-License-Identifier: AGPL-3.0-or-later
// Writes the outlines of the characters that tablature is composed of into a module, so that neither the program nor its
// reports need a font. They come from Klee One, a hand-written face under the SIL Open Font License, whose notice goes
// along with them.
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import opentype from "opentype.js";

/** Every character that src/engrave/tablature takes from the font; the compiler says so if one is missing. */
const CHARACTERS = [
  ..."〇一二三四五六七八九十半卜",
  ..."艹乏大人中夕足卩",
  ..."木勿丁弗厂尸乚勹",
  ..."早反囗田益侖北小貝矢長袞索令女口双弓癶束全夫",
  ..."氵犭今立豆奐",
  ..."上下帶爪掐己奄",
];

const folder = dirname(fileURLToPath(import.meta.resolve("@fontsource/klee-one/package.json")));
const ranges = Object.entries(JSON.parse(readFileSync(`${folder}/unicode.json`, "utf8")));

/** Whether a list such as "U+4e00,U+4e8c-4e8e" holds a code point. */
function holds(list, code) {
  return list.split(",").some((range) => {
    const [from, to] = range
      .replace("U+", "")
      .split("-")
      .map((hex) => Number.parseInt(hex, 16));
    return code >= from && code <= (to ?? from);
  });
}

const fonts = new Map();
/** The part of the font that has a character. */
function fontWith(character) {
  const [name] = ranges.find(([, list]) => holds(list, character.codePointAt(0))) ?? [];
  if (name === undefined) throw new Error(`the font has no ${character}`);
  if (!fonts.has(name)) {
    const bytes = readFileSync(`${folder}/files/klee-one-${name.replace(/[[\]]/g, "")}-400-normal.woff`);
    fonts.set(name, opentype.parse(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength)));
  }
  return fonts.get(name);
}

/** Straight pieces that a curve is cut into before points that change little are dropped. */
const PIECES = 8;

/** The closed lines of a glyph on a grid of 1000 to the em, y downward. */
function contoursOf(character) {
  const contours = [];
  for (const command of fontWith(character).charToGlyph(character).getPath(0, 0, 1000).commands) {
    const points = contours.at(-1);
    if (command.type === "M") contours.push([[command.x, command.y]]);
    else if (command.type !== "Z") points.push(...piecesOf(points.at(-1), command));
  }
  if (contours.length === 0) throw new Error(`the font has no outline for ${character}`);
  return contours.map(thinned);
}

function piecesOf(from, { type, x, y, x1, y1, x2, y2 }) {
  if (type === "L") return [[x, y]];
  const controls = type === "Q" ? [from, [x1, y1], [x, y]] : [from, [x1, y1], [x2, y2], [x, y]];
  return Array.from({ length: PIECES }, (_, i) => pointAt(controls, (i + 1) / PIECES));
}

/** De Casteljau's point of a curve. */
function pointAt(controls, t) {
  if (controls.length === 1) return controls[0];
  return pointAt(
    controls.slice(1).map(([x, y], i) => [controls[i][0] * (1 - t) + x * t, controls[i][1] * (1 - t) + y * t]),
    t,
  );
}

/** How far, in thousandths of the em, a dropped point may lie from the line that replaces it. */
const TOLERANCE = 2.5;

/** Douglas and Peucker's simplification of a closed line, cut at the point farthest from its first. */
function thinned(points) {
  const far = points.reduce((best, point, i) => (gap(point, points[0]) > gap(points[best], points[0]) ? i : best), 0);
  return [...kept(points.slice(0, far + 1)), ...kept([...points.slice(far), points[0]])];
}

const gap = ([x, y], [u, v]) => Math.hypot(x - u, y - v);

/** The points to keep of an open line, without its last. */
function kept(points) {
  const [first, last] = [points[0], points.at(-1)];
  const length = gap(first, last);
  const off = ([x, y]) =>
    length === 0
      ? gap([x, y], first)
      : Math.abs((last[0] - first[0]) * (first[1] - y) - (first[0] - x) * (last[1] - first[1])) / length;
  const offs = points.map(off);
  const worst = offs.indexOf(Math.max(...offs));
  if (offs[worst] <= TOLERANCE || points.length < 3) return [first];
  return [...kept(points.slice(0, worst + 1)), ...kept(points.slice(worst))];
}

/** How many strokes the fullest tenth of upright lines (axis 0) or level lines (axis 1) meet, each at least. */
function crossings(contours, axis, size) {
  const counts = Array.from({ length: 60 }, (_, i) => {
    const at = ((i + 0.5) / 60) * size + 0.01;
    const hits = contours.flatMap((points) =>
      points.flatMap((a, j) => {
        const b = points[(j + 1) % points.length];
        if (a[axis] < at === b[axis] < at) return [];
        const where = a[1 - axis] + ((at - a[axis]) / (b[axis] - a[axis])) * (b[1 - axis] - a[1 - axis]);
        return [{ where, turn: a[axis] < at ? 1 : -1 }];
      }),
    );
    let winding = 0;
    let runs = 0;
    for (const { turn } of hits.sort((a, b) => a.where - b.where)) {
      if (winding === 0) runs += 1;
      winding += turn;
    }
    return runs;
  });
  return counts.sort((a, b) => b - a)[counts.length / 10];
}

/** The outline of a character, its corner moved to the origin. */
function outlineOf(character) {
  const contours = contoursOf(character);
  const [left, top] = [0, 1].map((axis) => Math.min(...contours.flat().map((point) => point[axis])));
  const moved = contours.map((points) => points.map(([x, y]) => [Math.round(x - left), Math.round(y - top)]));
  const [width, height] = [0, 1].map((axis) => Math.max(...moved.flat().map((point) => point[axis])));
  return {
    width,
    height,
    rows: crossings(moved, 0, width),
    columns: crossings(moved, 1, height),
    contours: moved.map((points) => points.flat().join(" ")),
  };
}

/** Thickness of an upright stroke: of the character for one, which has nothing else, the level one. */
function stemWidth() {
  const { contours, height } = outlineOf("十");
  const points = contours.flatMap((line) => line.split(" ").map(Number));
  const low = points.flatMap((x, i) => (i % 2 === 0 && points[i + 1] > height * 0.75 ? [x] : []));
  return Math.max(...low) - Math.min(...low);
}

const module = `// SPDX-License-Identifier: OFL-1.1
// Copyright 2020 The Klee Project Authors (https://github.com/fontworks-fonts/Klee)
// Written by .config/outlines.mjs from the package @fontsource/klee-one. The licence is in OFL.txt beside this file.

/** A character's outline: its size on a grid of 1000 to the em, its strokes counted, its closed lines as x and y by turns. */
export interface Outline {
  readonly width: number;
  readonly height: number;
  /** the most strokes that lie above each other */
  readonly rows: number;
  /** the most strokes that stand beside each other */
  readonly columns: number;
  readonly contours: readonly string[];
}

/** Thickness of a stroke on the same grid. */
export const STEM = ${stemWidth()};

/** A character whose outline is here. */
export type OutlinedCharacter = ${CHARACTERS.map((character) => `"${character}"`).join(" | ")};

/** Outlines by character. */
export const OUTLINES: Readonly<Record<OutlinedCharacter, Outline>> = {
${CHARACTERS.map((character) => `  ${character}: ${JSON.stringify(outlineOf(character))},`).join("\n")}
};
`;

/**
 * Writes the module, and the licence beside the compiled one.
 *
 * @param {string} source the folder of the tablature's source
 * @param {string} built its folder among what ships
 */
export function writeOutlines(source, built) {
  writeFileSync(`${source}/outlines.ts`, module);
  mkdirSync(built, { recursive: true });
  copyFileSync(`${folder}/LICENSE`, `${built}/OFL.txt`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const root = fileURLToPath(new URL("..", import.meta.url));
  writeOutlines(`${root}src/engrave/tablature`, `${root}dist/src/engrave/tablature`);
}
