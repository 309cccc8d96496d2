// SPDX-License-Identifier: AGPL-3.0-or-later
// Strings by number: counted from the highest, as MusicXML does (W3C MusicXML 4.0, data type string-number), or as players
// do, from the lowest (J. Thompson, silkqin.com), if the brief says so; and what is said where only the other way fits.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import type { Score, StringNumbers } from "../../src/model/score.js";
import { play } from "../support/playing.js";
import { documentOf, quarter, readText } from "./helpers.js";

const technical = (marks: string): string => `<notations><technical>${marks}</technical></notations>`;
const lyric = (text: string): string => `<lyric number="1"><text>${text}</text></lyric>`;
const line = (...notes: readonly string[]): string =>
  documentOf(`<measure number="1"><attributes><divisions>1</divisions></attributes>${notes.join("")}</measure>`);

/** C2, G2 and C3 open, numbered from the lowest string, with the spoken form below. */
const AS_PLAYERS_DO = line(
  quarter("C", 2, technical("<string>1</string><pluck>gou</pluck>") + lyric("san gou 1")),
  quarter("G", 2, technical("<string>4</string>") + lyric("san tiao 4")),
  quarter("C", 3, technical("<string>6</string><pluck>gou</pluck>") + lyric("san gou 6")),
);

const found = (score: Score) =>
  play(score).verdicts.findings.filter(({ rule }) => rule === "strings-counted-backwards");
const strings = (text: string, stringNumbers: StringNumbers) =>
  readText(text, { stringNumbers }).notes.map((note) => note.given.string);

describe("the count", () => {
  test("turns technical marks and leaves spoken forms as they are", () => {
    const marks = line(quarter("C", 2, technical("<string>1</string>")), quarter("D", 2, lyric("san gou 2")));
    expect(strings(marks, "musicxml")).toEqual([7, 2]);
    expect(strings(marks, "guqin")).toEqual([1, 2]);
  });

  test("leaves a spoken form among the technical marks as it is", () => {
    const marks = line(quarter("D", 2, technical("<other-technical>san gou 2</other-technical>")));
    expect(strings(marks, "guqin")).toEqual([2]);
  });

  test("names the marks as they count where a spoken form among them contradicts them", () => {
    const marks = line(quarter("F", 2, technical("<string>5</string><other-technical>san gou 3</other-technical>")));
    expect(readText(marks, { stringNumbers: "musicxml" }).oddMarks).toEqual([]);
    const turned = readText(marks, { stringNumbers: "guqin" });
    expect(turned.oddMarks).toMatchObject([{ trouble: "contradicted", text: "san gou 3", nearest: "string 5" }]);
    expect(turned.notes[0]?.given.text).toBe("string 5");
  });

  test("is that of players where the spoken forms agree", () => {
    expect(readText(AS_PLAYERS_DO, { stringNumbers: "guqin" }).oddMarks).toEqual([]);
    expect(readText(AS_PLAYERS_DO).oddMarks.map(({ trouble }) => trouble)).toEqual(["contradicted", "contradicted"]);
  });
});

describe("numbers that fit from the other side only", () => {
  test("are told as one finding of the whole line", () => {
    expect(found(readText(AS_PLAYERS_DO))).toMatchObject([
      {
        notes: [],
        severity: "problem",
        measured: 2,
        message: { en: expect.stringMatching(/^All 3 string numbers fit .*: say string-numbers: guqin/) },
      },
    ]);
    expect(found(readText(AS_PLAYERS_DO, { stringNumbers: "guqin" }))).toEqual([]);
  });

  test("are told where the marks stand alone", () => {
    const marks = ["1", "4", "6"].map((number, i) =>
      quarter(["C", "G", "C"][i] as string, [2, 2, 3][i] as number, technical(`<string>${number}</string>`)),
    );
    expect(found(readText(line(...marks)))).toHaveLength(1);
  });

  test("are told the other way round where the brief is wrong", () => {
    const standard = line(
      quarter("C", 2, technical("<string>7</string>")),
      quarter("D", 2, technical("<string>6</string>")),
    );
    expect(found(readText(standard))).toEqual([]);
    expect(found(readText(standard, { stringNumbers: "guqin" })).map(({ message }) => String(message))).toEqual([
      "Both string numbers fit their notes when they are counted from the highest string, as MusicXML does: take string-numbers: guqin out of the brief. Counted as players do, from the lowest, neither does.",
    ]);
  });

  test("are not blamed on the count where one fits neither way", () => {
    const slip = line(
      quarter("C", 2, technical("<string>1</string>")),
      quarter("C", 2, technical("<string>3</string>")),
    );
    expect(found(readText(slip))).toEqual([]);
  });
});

test("the command line takes string-numbers from the brief", () => {
  const folder = mkdtempSync(join(tmpdir(), "huipath-strings-"));
  const cli = fileURLToPath(new URL("../../dist/src/cli.js", import.meta.url));
  writeFileSync(join(folder, "line.musicxml"), AS_PLAYERS_DO);
  writeFileSync(join(folder, "brief.yaml"), "string-numbers: guqin\n");
  const check = (...more: readonly string[]) => {
    const call = [cli, "check", "line.musicxml", "--report", "none", "--json", "-", ...more];
    const { stdout } = spawnSync(process.execPath, call, { cwd: folder, encoding: "utf8" });
    return JSON.parse(stdout);
  };
  const stringsOf = (json: { fingering: { notes: { string: number | null }[] } }) =>
    json.fingering.notes.map(({ string }) => string);
  try {
    expect(stringsOf(check("--brief", "brief.yaml"))).toEqual([1, 4, 6]);
    expect(stringsOf(check())).not.toEqual([1, 4, 6]);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
