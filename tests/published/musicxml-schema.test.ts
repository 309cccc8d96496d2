// SPDX-License-Identifier: AGPL-3.0-or-later
// Annotated scores against the W3C XML Schema of MusicXML 4.0 (repository w3c/musicxml, W3C Community Final Specification
// Agreement). The schema is not copied into the project: where it is missing the test says so.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import * as fc from "fast-check";
import {
  XmlBufferInputProvider,
  XmlDocument,
  XmlLibError,
  XsdValidator,
  xmlCleanupInputProvider,
  xmlRegisterInputProvider,
} from "libxml2-wasm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { InputProblem } from "../../src/problem.js";
import { annotated } from "../support/annotated.js";
import { type DocumentFile, FIXTURES, randomDocument, SUITE } from "../support/documents.js";
import { EVERYTHING } from "./elements/everything.js";

const folder = fileURLToPath(new URL("../../../shared/corpora/musicxml-4.0-schema/", import.meta.url));
const isThere = existsSync(folder);
if (!isThere) console.warn(`SKIPPED: the MusicXML 4.0 schema is not at ${folder}`);

describe.skipIf(!isThere)("MusicXML 4.0 schema", () => {
  let schema: XmlDocument;
  let validator: XsdValidator;

  beforeAll(() => {
    // The schema imports these two by their public addresses; nothing is fetched.
    const imported = {
      "http://www.musicxml.org/xsd/xml.xsd": "xml.xsd",
      "http://www.musicxml.org/xsd/xlink.xsd": "xlink.xsd",
    };
    const files = Object.entries(imported).map(([url, name]) => [url, readFileSync(folder + name)] as const);
    xmlRegisterInputProvider(new XmlBufferInputProvider(Object.fromEntries(files)));
    schema = XmlDocument.fromBuffer(readFileSync(`${folder}musicxml.xsd`), { url: "musicxml.xsd" });
    validator = XsdValidator.fromDoc(schema);
  });

  afterAll(() => {
    validator.dispose();
    schema.dispose();
    xmlCleanupInputProvider();
  });

  /** What the schema says against a document, without line numbers; empty for a valid one. */
  function faults(text: string): string[] {
    const document = XmlDocument.fromString(text);
    try {
      validator.validate(document);
      return [];
    } catch (error) {
      if (!(error instanceof XmlLibError)) throw error;
      return error.details.map(({ message }) => message.trim());
    } finally {
      document.dispose();
    }
  }

  /** Annotating must not add to the faults. */
  function compare(bytes: Uint8Array, file: string): { before: number } {
    const { read, text } = annotated(bytes, file);
    const before = faults(read.source.text);
    expect(faults(text)).toEqual(before);
    return { before: before.length };
  }

  test("a fault is found at all", () => {
    expect(faults('<score-partwise version="4.0"><part-list/></score-partwise>')).not.toEqual([]);
  });

  test("the document of elements without bearing is valid", () => {
    expect(faults(EVERYTHING)).toEqual([]);
  });

  test.each(FIXTURES)("$name is valid, and stays so", ({ name, bytes }) => {
    expect(compare(bytes, name)).toEqual({ before: 0 });
  });

  test.each(SUITE)("$name of the public suite gets no new fault", ({ name, bytes }: DocumentFile) => {
    try {
      compare(bytes, name);
    } catch (error) {
      if (!(error instanceof InputProblem)) throw error;
      expect(error.code).toBe("no-notes");
    }
  });

  test("nor do random lines", { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(randomDocument, (text) => {
        compare(new TextEncoder().encode(text), "random.musicxml");
      }),
      { numRuns: 60, seed: 1525 },
    );
  });
});
