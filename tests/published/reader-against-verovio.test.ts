// SPDX-License-Identifier: AGPL-3.0-or-later
// Reference: Verovio 6.3, an independent reader of MusicXML, over the unofficial MusicXML test suite (LilyPond repository,
// input/regression/musicxml, MIT; not copied into the project) and the fixtures. Every voice of every part is compared:
// pitch in the file as it stands, time in a copy without grace notes and signs of broken chords, to which Verovio gives
// time that is taken from other notes. reader-differences.ts explains where the two part.
import * as fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { InputProblem } from "../../src/problem.js";
import { readScore } from "../../src/read/score.js";
import { compareFile, readEveryVoice, type Tally } from "../support/agreement.js";
import { type DocumentFile, FIXTURES, SUITE } from "../support/documents.js";
import { randomScore } from "../support/random-score.js";
import { IndependentReader } from "../support/verovio-reading.js";
import {
  type DifferenceRow,
  FIXTURE_DIFFERENCES,
  REASONS,
  SUITE_DIFFERENCES,
  WITHOUT_NOTES,
} from "./reader-differences.js";

const RANDOM_SCORES = 40;

let verovio: IndependentReader;
beforeAll(async () => {
  verovio = await IndependentReader.open();
});

describe.each([
  { name: "fixtures", files: FIXTURES, rows: FIXTURE_DIFFERENCES, silent: [] },
  ...(SUITE.length === 0
    ? []
    : [{ name: "public suite", files: SUITE, rows: SUITE_DIFFERENCES, silent: WITHOUT_NOTES }]),
])("$name", ({ name, files, rows, silent }) => {
  const tally = emptyTally();

  test.each(files)("$name is heard as Verovio hears it, but for what the table explains", (file) => {
    const found = compareFile(file, verovio, tally).map(({ part, voice, differences }) => ({
      voice: `${part} ${voice}`,
      differences,
    }));
    expect(found).toEqual(explained(rows.filter((row) => row.file === file.name)));
  });

  test("the table names no other files", () => {
    const names = new Set(files.map((file) => file.name));
    expect(rows.filter((row) => !names.has(row.file))).toEqual([]);
  });

  test("each file is read, or refused because it holds no notes; ids are unique and lead to the elements", () => {
    const refused = files.filter(isRefused);
    expect(refused.map((file) => file.name)).toEqual(silent);
    expect(refused.flatMap(readEveryVoice)).toEqual([]);
    for (const { result } of files.flatMap(readEveryVoice)) {
      const ids = result.score.notes.flatMap(({ id, tiedIds }) => [id, ...tiedIds]);
      expect(new Set(ids).size).toBe(ids.length);
      expect([...result.source.notes.keys()].sort()).toEqual([...ids].sort());
    }
  });

  afterAll(() => console.info(figures(name, files.length, tally)));
});

test("random scores of several parts and voices are heard as Verovio hears them", () => {
  const tally = emptyTally();
  const compare = (text: string): void => {
    const file = { name: "random.musicxml", bytes: new TextEncoder().encode(text) };
    expect(compareFile(file, verovio, tally)).toEqual([]);
  };
  fc.assert(fc.property(randomScore, compare), { seed: 20_261_125, numRuns: RANDOM_SCORES });
  console.info(figures("random", RANDOM_SCORES, tally));
});

test("each reason of the table is used", () => {
  const used = [...SUITE_DIFFERENCES, ...FIXTURE_DIFFERENCES].map((row) => row.reason);
  expect([...new Set(used)].sort()).toEqual(Object.keys(REASONS).sort());
});

/** The rows of a file by voice: a voice has one row for each reason. */
function explained(rows: readonly DifferenceRow[]): { voice: string; differences: string[] }[] {
  return [...new Set(rows.map((row) => row.voice))].map((voice) => ({
    voice,
    differences: rows.filter((row) => row.voice === voice).flatMap((row) => row.differences),
  }));
}

function emptyTally(): Tally {
  return { voices: 0, notes: 0, pitches: 0, timed: 0, onsets: 0, durations: 0 };
}

function isRefused({ name, bytes }: DocumentFile): boolean {
  try {
    readScore(bytes, name);
    return false;
  } catch (error) {
    expect(error).toBeInstanceOf(InputProblem);
    expect((error as InputProblem).code).toBe("no-notes");
    return true;
  }
}

function figures(name: string, files: number, { voices, notes, pitches, timed, onsets, durations }: Tally): string {
  const percent = (agreed: number, of: number): string => `${((100 * agreed) / of).toFixed(2)} %`;
  const agreed = [percent(pitches, notes), percent(onsets, timed), percent(durations, timed)];
  return `${name}: ${files} files, ${voices} voices, ${notes} notes; agreement with Verovio before explanation: pitch ${agreed[0]}, onset ${agreed[1]}, duration ${agreed[2]}`;
}
