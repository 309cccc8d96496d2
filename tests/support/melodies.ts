// SPDX-License-Identifier: AGPL-3.0-or-later
// The melodies of fixtures/melodies, read.
import { readdirSync, readFileSync } from "node:fs";
import type { Score } from "../../src/model/score.js";
import { readScore } from "../../src/read/score.js";

const FOLDER = new URL("../../fixtures/melodies/", import.meta.url);

/** Names of all melodies, without ending. */
export const MELODIES: readonly string[] = readdirSync(FOLDER)
  .filter((file) => file.endsWith(".musicxml"))
  .map((file) => file.replace(/\.musicxml$/, ""))
  .sort();

/** The bytes of a melody's file. */
function melodyBytes(name: string): Uint8Array {
  return readFileSync(new URL(`${name}.musicxml`, FOLDER));
}

/** Reads a melody. */
export function readMelody(name: string): Score {
  return readScore(melodyBytes(name), `${name}.musicxml`).score;
}
