// SPDX-License-Identifier: AGPL-3.0-or-later
// Small documents for the reader's tests.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Score, ScoreNote } from "../../src/model/score.js";
import { InputProblem } from "../../src/problem.js";
import { type ReadOptions, readScore } from "../../src/read/score.js";
import { inWords } from "../../src/words.js";

/** A score whose sentences on what was not read are in English. */
interface EnglishScore extends Score {
  readonly unread: readonly { readonly bar: string | null; readonly what: string }[];
}

function inEnglish(score: Score): EnglishScore {
  return { ...score, unread: score.unread.map(({ bar, what }) => ({ bar, what: inWords(what, "en") })) };
}

/** The bytes of a file under fixtures/. */
export function fixture(path: string): Uint8Array {
  return readFileSync(fileURLToPath(new URL(`../../fixtures/${path}`, import.meta.url)));
}

/** Reads a file of fixtures/musicxml. */
export function readFixture(name: string, options: ReadOptions = {}): EnglishScore {
  return inEnglish(readScore(fixture(`musicxml/${name}`), name, options).score);
}

/** A one-part document around the given measures. */
export function documentOf(measures: string, root = "score-partwise"): string {
  return `<${root}><part-list><score-part id="P1"><part-name>Line</part-name></score-part></part-list><part id="P1">${measures}</part></${root}>`;
}

/** A quarter note of one division, with what stands before and behind its pitch. */
export function quarter(step: string, octave: number, behind = "", before = ""): string {
  return `<note>${before}<pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>1</duration><voice>1</voice>${behind}</note>`;
}

/** Reads text as a score. */
export function readText(text: string, options: ReadOptions = {}): EnglishScore {
  return inEnglish(readScore(new TextEncoder().encode(text), "line.musicxml", options).score);
}

/** Reads one bar in four quarters with the given content. */
export function readBar(content: string): EnglishScore {
  const head = "<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";
  return readText(documentOf(`<measure number="1">${head}${content}</measure>`));
}

/** Step, alter and octave in scientific notation. */
export function nameOf({ written }: ScoreNote): string {
  const { step, alter, octave } = written;
  return step + (alter > 0 ? "#".repeat(alter) : "b".repeat(-alter)) + octave;
}

/** What a reading is refused with. */
export function problemOf(read: () => unknown): InputProblem {
  try {
    read();
  } catch (error) {
    if (error instanceof InputProblem) return error;
    throw error;
  }
  throw new Error("it was read");
}
