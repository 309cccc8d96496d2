// SPDX-License-Identifier: AGPL-3.0-or-later
// Every element of MusicXML 4.0 by name (W3C XML Schema musicxml.xsd, repository w3c/musicxml, W3C Community Final
// Specification Agreement): taken into the melody, told as left out, or without bearing on what a melody sounds and where.
// The schema is not copied into the project: where it is missing the test says so.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { InputProblem } from "../../src/problem.js";
import { readScore } from "../../src/read/score.js";
import { parseXml, type XmlElement } from "../../src/read/xml.js";
import { documentOf, readBar, readText } from "../read/helpers.js";
import { FIXTURES, SUITE } from "../support/documents.js";
import { EVERYTHING } from "./elements/everything.js";
import { NAMED } from "./elements/named.js";
import { NO_BEARING } from "./elements/no-bearing.js";
import { READ, READ_ELSEWHERE } from "./elements/read.js";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const SCHEMA = fileURLToPath(new URL("../../../shared/corpora/musicxml-4.0-schema/musicxml.xsd", import.meta.url));
const isThere = existsSync(SCHEMA);
if (!isThere) console.warn(`SKIPPED: the MusicXML 4.0 schema is not at ${SCHEMA}`);

const withoutBearing = Object.values(NO_BEARING).flat();
/** Names that a test shows to bear on the melody; some stand in several rows, such as those that hold others. */
const shown = new Set([...READ, ...NAMED, ...READ_ELSEWHERE].flatMap(({ elements }) => elements));

function read(music: string) {
  if (music.startsWith("<score")) return readText(music);
  return music.startsWith("<measure") ? readText(documentOf(music)) : readBar(music);
}

/** The names of elements that a row speaks of and that its music does not hold. */
function missingIn(music: string, elements: readonly string[]): string[] {
  return elements.filter((name) => !new RegExp(`<${name}[ />]`).test(music));
}

describe.skipIf(!isThere)("the table", () => {
  test("names every element of the schema and no other, each once", () => {
    const names = [...readFileSync(SCHEMA, "utf8").matchAll(/<xs:element name="([^"]+)"/g)].map((match) => match[1]);
    expect([...shown, ...withoutBearing].sort()).toEqual([...new Set(names)].sort());
  });
});

describe("taken into the melody", () => {
  test.each(READ)("$elements", ({ elements, music, shows, as }) => {
    expect(missingIn(music, elements)).toEqual([]);
    expect(shows(read(music))).toEqual(as);
  });

  test.each(READ_ELSEWHERE)("$elements: $file", ({ file, test: title }) => {
    expect(readFileSync(ROOT + file, "utf8")).toContain(title);
  });
});

describe("told", () => {
  test.each(NAMED)("$elements", ({ elements, music, told }) => {
    expect(missingIn(music, elements)).toEqual([]);
    expect(read(music).unread.map(({ what }) => what)).toContain(told);
  });
});

describe("without bearing", () => {
  /** A document without the elements that have no bearing; the pieces between them are put together again. */
  function stripped(text: string): string {
    const cuts: [number, number][] = [];
    const visit = (element: XmlElement): void => {
      if (withoutBearing.includes(element.nodeName)) cuts.push([element.start, element.end]);
      else element.children.forEach(visit);
    };
    visit(parseXml(text, "score.musicxml"));
    let from = 0;
    const kept = cuts.map(([start, end]) => {
      const piece = text.slice(from, start);
      from = end;
      return piece;
    });
    return kept.join("") + text.slice(from);
  }

  test("one document holds them all, and nothing of it is told", () => {
    expect(missingIn(EVERYTHING, withoutBearing)).toEqual([]);
    const { score } = readScore(new TextEncoder().encode(EVERYTHING), "everything.musicxml");
    expect(score.unread).toEqual([]);
    expect(score.notes.map(({ onset }) => onset.valueOf())).toEqual([0, 1, 2, 3]);
  });

  const everything = { name: "everything.musicxml", bytes: new TextEncoder().encode(EVERYTHING) };
  test.each([everything, ...FIXTURES, ...SUITE])("$name says the same without them", ({ name, bytes }) => {
    try {
      const { score, source } = readScore(bytes, name);
      const wish = { part: score.part.id, ...(score.voice === null ? {} : { voice: score.voice }) };
      // What is written again is UTF-8, whatever the declaration says.
      const bare = new TextEncoder().encode(stripped(source.text).replace(/^<\?xml[^>]*\?>/, ""));
      expect(readScore(bare, name, wish).score).toEqual(readScore(bytes, name, wish).score);
    } catch (error) {
      if (!(error instanceof InputProblem)) throw error;
      expect(error.code).toBe("no-notes");
    }
  });
});
