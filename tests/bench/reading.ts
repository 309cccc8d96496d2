// SPDX-License-Identifier: AGPL-3.0-or-later
// How fast scores are read, how that grows with their size and what memory it takes, beside the XML library alone on the
// same text, in processor time, which other work on the machine touches least. Run by `npm run bench:read`; no pass or
// fail.
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { readScore } from "../../src/read/score.js";
import { parseXml } from "../../src/read/xml.js";
import { annotated } from "../support/annotated.js";
import { bareParse, cpuMs, lengthened } from "../support/long-scores.js";
import { ROOT } from "./support.js";

const MELODY = "fixtures/melodies/four-walks-round-the-pond.musicxml";
const RUNS = 7;
/** The whole of a score is read before its bars are chosen, so that a long one can be read within the limit of notes. */
const SPAN = { bars: "#1-#64" };
const ENCODER = new TextEncoder();

/** Texts to lengthen, and to what sizes in MB: 30,000 notes of a part are the limit. */
const TEXTS: Readonly<Record<string, { readonly make: () => string; readonly megabytes: readonly number[] }>> = {
  plain: { make: () => readFileSync(ROOT + MELODY, "utf8"), megabytes: [1, 2, 4] },
  annotated: { make: () => annotated(readFileSync(ROOT + MELODY), MELODY).text, megabytes: [1, 2, 4, 8] },
};

/** What is measured: the library alone, our element tree, the whole reading. */
const WAYS = {
  parser: (text: string) => bareParse(text),
  tree: (text: string) => parseXml(text, MELODY),
  reading: (text: string) => readScore(ENCODER.encode(text), MELODY, SPAN),
  "making the text": (text: string) => text.length,
} satisfies Record<string, (text: string) => unknown>;

type Way = keyof typeof WAYS;

/** Most memory that a process of its own takes to do it once, in MB. */
function peak(name: string, megabytes: number, way: Way): number {
  const args = [fileURLToPath(import.meta.url), name, String(megabytes), way];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { encoding: "utf8" });
  if (status !== 0) throw new Error(`${args.join(" ")} ended with ${status}: ${stderr}`);
  return Number(stdout);
}

/** The exponent of growth: the slope of a straight line through the logarithms. */
function exponent(points: readonly (readonly [size: number, ms: number])[]): number {
  const [x, y] = [points.map(([size]) => Math.log(size)), points.map(([, ms]) => Math.log(ms))];
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [mx, my] = [mean(x), mean(y)];
  const across = x.reduce((sum, value, i) => sum + (value - mx) * ((y[i] as number) - my), 0);
  return across / x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
}

const HEAD = [
  "MB",
  "notes",
  "parser ms",
  "tree ms",
  "reading ms",
  "tree:parser",
  "reading:parser",
  "reading:tree",
  "MB/s",
];
const MEMORY = ["text only MB", "parser MB", "tree MB", "reading MB"];

function bench(name: string): void {
  const { make, megabytes } = TEXTS[name] as (typeof TEXTS)[string];
  const source = make();
  // The first size would else pay for what the engine learns.
  const first = lengthened(source, megabytes[0] as number);
  for (const way of Object.values(WAYS)) cpuMs(() => way(first), 3 * RUNS);
  const points: (readonly [number, number])[] = [];
  const rows = megabytes.map((size) => {
    const text = lengthened(source, size);
    const [parser, tree, reading] = [WAYS.parser, WAYS.tree, WAYS.reading].map((way) =>
      cpuMs(() => way(text), RUNS),
    ) as [number, number, number];
    points.push([text.length, reading]);
    const notes = text.split("<note").length - 1;
    return [
      ...[(text.length / 1e6).toFixed(2), String(notes), parser.toFixed(0), tree.toFixed(0), reading.toFixed(0)],
      ...[
        (tree / parser).toFixed(2),
        (reading / parser).toFixed(2),
        (reading / tree).toFixed(2),
        (text.length / 1e3 / reading).toFixed(1),
      ],
      ...(["making the text", "parser", "tree", "reading"] as const).map((way) => peak(name, size, way).toFixed(0)),
    ];
  });
  const table = [[...HEAD, ...MEMORY], ...rows];
  const wide = (table[0] as readonly string[]).map((_, c) =>
    Math.max(...table.map((row) => (row[c] as string).length)),
  );
  console.log(`\n${MELODY}, ${name}: medians of ${RUNS} runs; memory of a process that does it once`);
  for (const row of table) console.log(row.map((cell, c) => cell.padStart(wide[c] as number)).join("  "));
  console.log(`reading grows with the size to the power of ${exponent(points).toFixed(2)}`);
}

const [name, size, way] = process.argv.slice(2);
if (name === undefined) for (const one of Object.keys(TEXTS)) bench(one);
else {
  WAYS[way as Way](lengthened((TEXTS[name] as (typeof TEXTS)[string]).make(), Number(size)));
  console.log(process.resourceUsage().maxRSS / 1024);
}
