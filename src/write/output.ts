// SPDX-License-Identifier: AGPL-3.0-or-later
// Outputs reach the disk whole or not at all, and replace only what huipath made.
import { closeSync, existsSync, openSync, readSync, statSync } from "node:fs";
import { dirname, resolve } from "node:path";
import writeFileAtomic from "write-file-atomic";
import { SETTING_FIELD } from "../model/annotation.js";
import { InputProblem } from "../problem.js";
import { WAV_SOFTWARE } from "../sound/wav.js";

/** A file to be written. */
export interface Output {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** Says that huipath made a file, where the file has no place for another mark. */
export const MADE_BY = "<!-- made by huipath -->";

/** A file that huipath made says so within its first bytes. */
const MARKS = [
  '<meta name="generator" content="huipath',
  '"tool":{"name":"huipath"',
  '"tool": {\n    "name": "huipath"',
  MADE_BY,
  "# made by huipath",
  `<miscellaneous-field name="${SETTING_FIELD}">`,
];
const MARK_WITHIN_BYTES = 16_384;
/** A sound file of ours says so where the format has a place for it, after its own name and before the sound. */
const SOUND_FILE = new RegExp(`^RIFF.{1,4}WAVEfmt .*?INFOISFT.{1,4}${WAV_SOFTWARE}`, "s");
/** The list of places of `where --json`: its published form leaves no room for a mark, but is like no other. */
const PLACE_LIST = /^\[\{"string":[1-7],"sound":"(?:open|stopped|harmonic)","position":/;

/**
 * Makes sure that every output can be written, before any is: its folder exists, and what it replaces is huipath's own.
 *
 * @throws InputProblem naming the first that cannot
 */
export function checkOutputs(paths: readonly string[], force: boolean): void {
  const seen = new Set<string>();
  for (const path of paths) {
    const full = resolve(path);
    if (seen.has(full)) throw new InputProblem("same-output", path, "two outputs go to one file", "give each its own");
    seen.add(full);
    checkOutput(path, force);
  }
}

function checkOutput(path: string, force: boolean): void {
  if (path.trim() === "") throw new InputProblem("no-name", "an output", "its name is empty", "name a file");
  const folder = dirname(path);
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    throw new InputProblem(
      "no-folder",
      path,
      `the folder ${folder} does not exist`,
      "make it first, or choose another",
    );
  if (!existsSync(path)) return;
  if (statSync(path).isDirectory()) throw new InputProblem("is-folder", path, "this is a folder", "name a file in it");
  if (!statSync(path).isFile())
    throw new InputProblem("no-file", path, "this is no plain file", "name one, or - for standard output");
  if (!force && !isOurs(path))
    throw new InputProblem(
      "not-ours",
      path,
      "this file exists and huipath did not make it",
      "choose another name, or say --force to replace it",
    );
}

function isOurs(path: string): boolean {
  const head = Buffer.alloc(MARK_WITHIN_BYTES);
  const file = openSync(path, "r");
  try {
    const length = readSync(file, head, 0, head.length, 0);
    // The marks are ASCII: without its empty bytes UTF-16 reads the same.
    const text = head.toString("latin1", 0, length).replaceAll("\0", "");
    return MARKS.some((mark) => text.includes(mark)) || PLACE_LIST.test(text) || SOUND_FILE.test(text);
  } finally {
    closeSync(file);
  }
}

/**
 * Writes a file beside its place and renames it.
 *
 * @throws InputProblem when the system refuses (rights, space)
 */
export async function writeOutput(output: Output): Promise<void> {
  try {
    await writeFileAtomic(output.path, bytesOf(output.content));
  } catch (error) {
    if (!(error instanceof Error) || !("code" in error)) throw error;
    throw new InputProblem("cannot-write", output.path, `it cannot be written (${error.code})`, "choose another place");
  }
}

function bytesOf(content: string | Uint8Array): string | Buffer {
  return typeof content === "string" ? content : Buffer.from(content.buffer, content.byteOffset, content.byteLength);
}
