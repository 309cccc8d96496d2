// SPDX-License-Identifier: AGPL-3.0-or-later
// Whether huipath stands a mutant: what may never happen, whatever is read.
import { deepStrictEqual } from "node:assert";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { InputProblem } from "../../src/problem.js";
import { type ReadOptions, readScore } from "../../src/read/score.js";
import { type CheckCall, runCheck } from "../../src/run/check.js";
import { runCompare } from "../../src/run/compare.js";
import { runFit } from "../../src/run/fit.js";
import type { Outcome } from "../../src/run/outcome.js";
import type { Mutant, Stock } from "./mutants.js";

/** The repository's root, seen from this file as it stands or as it is compiled. */
const ROOT = new URL(import.meta.url.includes("/dist/tests/") ? "../../../" : "../../", import.meta.url);
const SUITE = new URL("../shared/corpora/musicxml-suite/", ROOT);

/** How a mutant ended: "read", or the code that it was refused with. */
export interface Verdict {
  readonly ended: string;
  /** what may not happen and did; null for nothing */
  readonly defect: string | null;
  readonly cpuSeconds: number;
}

/** A mutant that keeps the processor busy for longer hangs, in seconds. */
const LONGEST_SECONDS = 5;
/** Lines of more notes are searched only where that is asked for, and then only their first bar. */
const SEARCHED_NOTES = 12;

/** The fixtures, and the public test suite where it lies beside the project. */
export function stock(): Stock {
  const folders = ["melodies", "musicxml", "submissions"].map((name) => new URL(`fixtures/${name}/`, ROOT));
  if (existsSync(SUITE)) folders.push(SUITE);
  else console.warn(`SKIPPED: the MusicXML test suite is not at ${fileURLToPath(SUITE)}`);
  const files = (folder: URL, ending: RegExp) =>
    readdirSync(folder)
      .filter((name) => ending.test(name))
      .sort()
      .map((name) => ({ name, bytes: readFileSync(new URL(name, folder)) }));
  const briefs = files(new URL("fixtures/submissions/", ROOT), /\.yaml$/).map(({ bytes }) => bytes.toString());
  return { scores: folders.flatMap((folder) => files(folder, /\.(musicxml|xml|mxl)$/)), briefs: [...briefs, BRIEF] };
}

/** A brief that says a little of everything. */
const BRIEF = `tuning: zhengdiao
transpose: -2
hand: medium
temperament: just
tempo: 72
string-numbers: guqin
thumb-stroke: ti-tuo
passages:
  - {bars: "#1", character: calm}
  - bars: 1-2
    harmonics: true
pins:
  - {bar: "#1", beat: 1, string: 4}
  - bar: 1
    beat: 1
    note: 1
    finger: thumb
    position: 9
accept:
  - rule: stretch
    bars: 1
    reason: meant
weights:
  stretch: 0.5
parameters:
  stretch: {}
`;

/** What is tried. */
type Command = "check" | "fit" | "compare";

const ajv = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false });
const schemaOf = (command: Command) =>
  ajv.compile(JSON.parse(readFileSync(new URL(`reports/schema/${command}.schema.json`, ROOT), "utf8")));
const SCHEMAS = { check: schemaOf("check"), fit: schemaOf("fit"), compare: schemaOf("compare") };
/** `fit` tries these. */
const TUNINGS = "zhengdiao,ruibin";

/** What takes time and is done for some mutants only. */
export interface More {
  readonly command: Command;
  readonly long: boolean;
  readonly page: boolean;
}

/**
 * Runs a command on a mutant in this process, and holds what comes of it against what must hold.
 *
 * @param folder an empty folder of its own
 * @param more   which command, whether to search long lines too, and whether to make the page, which takes most of the time
 */
export async function tried(mutant: Mutant, folder: string, more: More): Promise<Verdict> {
  const start = process.cpuUsage();
  const out = `${folder}/out`;
  mkdirSync(out, { recursive: true });
  const score = `${folder}/mutant.xml`;
  writeFileSync(score, mutant.score);
  if (mutant.brief !== null) writeFileSync(`${folder}/brief.yaml`, mutant.brief);
  const call: CheckCall = {
    ...mutant.options,
    score,
    ...(mutant.brief === null ? {} : { brief: `${folder}/brief.yaml` }),
    report: more.page ? `${out}/a.html` : "none",
    json: `${out}/a.json`,
    annotated: `${out}/a.musicxml`,
  };
  let ended: string;
  let defect: string | null = null;
  try {
    ended = "read";
    defect = more.command === "check" ? await read(mutant, call, out, more) : await others(call, out, more.command);
  } catch (error) {
    ended = error instanceof InputProblem ? error.code : "crash";
    defect = error instanceof InputProblem ? refused(error, out) : crash(error);
  }
  rmSync(out, { recursive: true });
  const used = process.cpuUsage(start);
  const cpuSeconds = (used.user + used.system) / 1e6;
  if (cpuSeconds > LONGEST_SECONDS) defect ??= `it took ${cpuSeconds.toFixed(1)} s of processor time`;
  return { ended, defect, cpuSeconds };
}

const crash = (error: unknown): string => `crash: ${error instanceof Error ? error.stack : String(error)}`;

function refused({ message, what, cure }: InputProblem, out: string): string | null {
  const left = readdirSync(out);
  if (left.length > 0) return `refused, but it left ${left.join(", ")}`;
  return message.trim() === "" || what === "" || cure === "" ? "refused without a reason" : null;
}

async function read(mutant: Mutant, call: CheckCall, out: string, { long, page }: More): Promise<string | null> {
  const { part, voice, bars } = call;
  const options: ReadOptions = Object.fromEntries(
    Object.entries({ part, voice, bars }).filter(([, value]) => value !== undefined),
  );
  const plain = mutant.brief === null;
  const notes = plain ? notesOf(mutant.score, options) : [];
  const isLong = notes.length > SEARCHED_NOTES;
  if (!same(notes, plain ? notesOf(mutant.score, options) : [])) return "reading twice gives two melodies";
  if (isLong && !long && !page) return null;
  const broken = told(await runCheck(isLong ? { ...call, bars: "#1" } : call, "0.0.0"), out, "check");
  if (broken !== null) return broken;
  const annotated = plain ? notesOf(readFileSync(`${out}/a.musicxml`), options) : [];
  return same(notes, annotated) ? null : "the annotated score has other notes";
}

/** The commands that search often: on one bar, with what they share with `check`. */
async function others(call: CheckCall, out: string, command: "fit" | "compare"): Promise<string | null> {
  const { tuning, transpose, objective, ways, sameFigures, failOn, annotated, ...shared } = call;
  const short = { ...shared, bars: call.bars ?? "#1" };
  if (command === "fit") return told(await runFit({ ...short, tunings: TUNINGS, top: "2" }, "0.0.0"), out, command);
  const sides = {
    ...short,
    ...(tuning === undefined ? {} : { tuning }),
    ...(transpose === undefined ? {} : { transpose }),
  };
  const other = call.brief === undefined ? { scoreB: call.score, tuningB: "ruibin" } : {};
  return told(await runCompare({ ...sides, ...other }, "0.0.0"), out, command);
}

/** What is wrong with what a command tells. */
function told({ code, complaint }: Outcome, out: string, command: Command): string | null {
  if (code === 3) return `crash: ${complaint}`;
  const keepsSchema = SCHEMAS[command];
  const json: unknown = JSON.parse(readFileSync(`${out}/a.json`, "utf8"));
  return keepsSchema(json) ? null : `the JSON breaks its schema: ${JSON.stringify(keepsSchema.errors?.[0])}`;
}

/** What sounds when, as text. */
function notesOf(bytes: Uint8Array, options: ReadOptions): readonly string[] {
  return readScore(bytes, "mutant.xml", options).score.notes.map(({ id, onset, duration, sounding }) =>
    [id, onset.toFraction(), duration.toFraction(), JSON.stringify(sounding)].join(" "),
  );
}

function same(a: readonly string[], b: readonly string[]): boolean {
  try {
    deepStrictEqual(a, b);
    return true;
  } catch {
    return false;
  }
}
