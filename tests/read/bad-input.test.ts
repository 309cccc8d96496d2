// SPDX-License-Identifier: AGPL-3.0-or-later
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strToU8, zipSync } from "fflate";
import { afterAll, describe, expect, test } from "vitest";
import { readBytes } from "../../src/read/file.js";
import { readScore } from "../../src/read/score.js";
import { documentOf, fixture, nameOf, problemOf, quarter, readFixture, readText } from "./helpers.js";

const folder = mkdtempSync(join(tmpdir(), "huipath-read-"));
afterAll(() => rmSync(folder, { recursive: true }));

describe("files", () => {
  test("one that does not exist", () => {
    expect(problemOf(() => readBytes(join(folder, "none.musicxml"))).code).toBe("no-file");
  });

  test("a folder", () => {
    expect(problemOf(() => readBytes(folder)).code).toBe("is-folder");
  });
});

describe("fixtures/bad", () => {
  test.each([
    ["not-xml.musicxml", "not-xml", /line 2: this is not well-formed XML/],
    ["truncated.musicxml", "not-xml", /line \d+: this is not well-formed XML/],
    ["other-xml.xml", "not-musicxml", /XML but not MusicXML \(its root is <svg>\)/],
    ["no-notes.musicxml", "no-notes", /it holds no notes/],
    ["entity-bomb.musicxml", "unsafe-xml", /line 2: the document type declaration defines/],
    ["external-entity.musicxml", "unsafe-xml", /line 2/],
    ["unknown-entity.musicxml", "not-xml", /undefined entity/],
    ["zero-divisions.musicxml", "bad-number", /line 9: the divisions is "0"; write a number above 0/],
    ["textual-divisions.musicxml", "bad-number", /line 9: the divisions is "four"/],
    ["negative-duration.musicxml", "bad-number", /line 10: the duration is "-4"/],
    ["zero-duration.musicxml", "bad-number", /line 10: the duration is "0"/],
    ["textual-duration.musicxml", "bad-number", /line 10: the duration is "12abc"/],
    ["exponent-duration.musicxml", "bad-number", /line 10: the duration is "1e21"/],
    ["missing-duration.musicxml", "bad-number", /line 10: <note> has no duration/],
    ["endless-duration.musicxml", "too-large", /line 10: the bar is longer than the limit of 100000 quarter notes/],
    ["bad-step.musicxml", "bad-pitch", /line 10/],
    ["bad-octave.musicxml", "bad-pitch", /line 10/],
    ["double-part-id.musicxml", "double-part", /two parts carry the id "P1"/],
    ["latin-1.musicxml", "bad-encoding", /not valid UTF-8; save it as UTF-8/],
    ["damaged.mxl", "broken-archive", /damaged/],
    ["no-score.mxl", "not-musicxml", /holds no MusicXML/],
  ])("%s is refused as %s", (name, code, message) => {
    const problem = problemOf(() => readScore(fixture(`bad/${name}`), name));
    expect(problem.code).toBe(code);
    expect(problem.message).toMatch(message);
    expect(problem.message).not.toContain("\n");
  });
});

describe("encodings", () => {
  const text = documentOf(`<measure>${quarter("C", 4)}</measure>`).replace("Line", "琴");

  test("UTF-8 with and UTF-16 with or without a byte order mark", () => {
    const little = Buffer.from(text, "utf16le");
    const big = Buffer.from(little).swap16();
    const forms = [
      Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), Buffer.from(text)]),
      Buffer.concat([Buffer.from([0xff, 0xfe]), little]),
      Buffer.concat([Buffer.from([0xfe, 0xff]), big]),
      little,
      big,
    ];
    for (const bytes of forms) {
      const { score, source } = readScore(bytes, "x.musicxml");
      expect(score.part.name).toBe("琴");
      expect(source.text).toBe(text);
    }
  });

  test("nothing at all", () => {
    expect(problemOf(() => readScore(new Uint8Array(), "x.xml")).message).toMatch(/the file is empty/);
  });
});

describe("archives", () => {
  test("the container names the score", () => {
    expect(readFixture("packed.mxl").notes.map(nameOf)).toEqual(["C4", "G3"]);
  });

  test("of several files that the container names the first score counts, whatever its type is called", () => {
    const score = (step: string): Uint8Array =>
      strToU8(documentOf(`<measure number="1">${quarter(step, 4)}</measure>`));
    const read = (type: string) => {
      const files = ["line.pdf", "one.xml", "two.xml"].map(
        (name) => `<rootfile full-path="${name}" media-type="${name.endsWith("pdf") ? "application/pdf" : type}"/>`,
      );
      const container = strToU8(`<container><rootfiles>${files.join("")}</rootfiles></container>`);
      // The order in the archive is not that of the container.
      const entries = { "META-INF/container.xml": container, "two.xml": score("D"), "one.xml": score("C") };
      return readScore(zipSync(entries), "x.mxl").score.notes.map(nameOf);
    };
    expect(read("application/vnd.recordare.musicxml+xml")).toEqual(["C4"]);
    expect(read("text/xml")).toEqual(["C4"]);
  });
});

describe("names", () => {
  test("a part named like a member of every object is a name like any other", () => {
    const text = documentOf(`<measure>${quarter("C", 4)}</measure>`).replaceAll("P1", "__proto__");
    expect(readText(text).part).toEqual({ id: "__proto__", name: "Line" });
  });
});
