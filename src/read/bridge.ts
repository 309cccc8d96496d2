// SPDX-License-Identifier: AGPL-3.0-or-later
// The element parsers of musicxml-interfaces, fed with elements of our own tree.
//
// As published the package cannot parse: its parsers walk `Element.children`, which the DOM library that it brings does
// not have. Handing over text would also lose the line numbers and offsets that we need. So while the package loads it
// is given a DOMParser that passes an element through untouched; nobody else sees that class.
import { createRequire } from "node:module";
import type { Attributes, Barline } from "musicxml-interfaces";
import { XmlElement } from "./xml.js";

type Library = typeof import("musicxml-interfaces");

/** Stands in for a DOMParser: "parses" an element into a document that holds it. */
class PassThrough {
  parseFromString(element: XmlElement): { documentElement: XmlElement } {
    return { documentElement: element };
  }
}

function load(): Library {
  const require = createRequire(import.meta.url);
  const inner = createRequire(require.resolve("musicxml-interfaces"));
  const dom = inner("@xmldom/xmldom") as { DOMParser: unknown };
  const original = dom.DOMParser;
  dom.DOMParser = PassThrough;
  try {
    return require("musicxml-interfaces") as Library;
  } finally {
    dom.DOMParser = original;
  }
}

/** The package: its enumerations are read from here. */
export const musicxml = load();

/** The parsers are declared for text; what they are given is the element that {@link PassThrough} hands on. */
function asText(element: XmlElement): string {
  return element as unknown as string;
}

/** `<attributes>`. */
export function parseAttributes(element: XmlElement): Attributes {
  return musicxml.parseAttributes(asText(element));
}

/** `<barline>`. */
export function parseBarline(element: XmlElement): Barline {
  return musicxml.parseBarline(asText(element));
}

/** A later version of the package that loads otherwise must be noticed at once, not in somebody's score. */
function selfTest(): void {
  const fifths = new XmlElement("fifths", [], 1, 0);
  fifths.text = "-3";
  const key = new XmlElement("key", [], 1, 0, [fifths]);
  const attributes = new XmlElement("attributes", [], 1, 0, [key]);
  if (parseAttributes(attributes).keySignatures?.[0]?.fifths !== -3)
    throw new Error("musicxml-interfaces does not read our element tree: src/read/bridge.ts must be adapted to it");
}

selfTest();
