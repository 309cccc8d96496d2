// SPDX-License-Identifier: AGPL-3.0-or-later
// A light, safe element tree that remembers where each element stands in the text.
import { SaxesParser } from "saxes";
import { InputProblem } from "../problem.js";
import { MAX_ATTRIBUTE_CHARACTERS, MAX_ATTRIBUTES, MAX_DEPTH, MAX_ELEMENTS } from "./limits.js";

/** One attribute, shaped as the element parsers expect it. */
export interface XmlAttribute {
  readonly name: string;
  readonly value: string;
  readonly nodeType: 2;
  readonly ATTRIBUTE_NODE: 2;
}

/** One element. It has the few members of a DOM element that the element parsers touch, and its place in the text. */
export class XmlElement {
  readonly nodeType = 1;
  readonly ATTRIBUTE_NODE = 2;
  readonly children: XmlElement[] = [];
  /** the text directly inside, pieces joined */
  text = "";
  /** offset just behind the closing tag; together with `start` it cuts the element out of the document */
  end = 0;

  /**
   * @param nodeName   the tag's name
   * @param attributes in file order
   * @param line       of the opening tag, from 1
   * @param start      offset of the opening `<`
   */
  constructor(
    readonly nodeName: string,
    readonly attributes: readonly XmlAttribute[],
    readonly line: number,
    readonly start: number,
  ) {}

  /** All text inside; MusicXML never mixes text and elements, so their order does not matter. */
  get textContent(): string {
    return this.children.reduce((text, inner) => text + inner.textContent, this.text);
  }

  /** An attribute's value, or null where there is none. */
  getAttribute(name: string): string | null {
    return this.attributes.find((attribute) => attribute.name === name)?.value ?? null;
  }
}

/** The first child of that name. */
export function child(element: XmlElement, name: string): XmlElement | null {
  return element.children.find((inner) => inner.nodeName === name) ?? null;
}

/** All children of that name. */
export function children(element: XmlElement, name: string): XmlElement[] {
  return element.children.filter((inner) => inner.nodeName === name);
}

/** The trimmed text of the first child of that name; null where there is none or it is empty. */
export function childText(element: XmlElement, name: string): string | null {
  return child(element, name)?.textContent.trim() || null;
}

/**
 * Reads a document. No entity but the five predefined is known, nothing outside is fetched.
 *
 * @param text the decoded document
 * @param file names the place in messages
 * @throws InputProblem when it is not well-formed, declares entities of its own, or exceeds a limit
 */
export function parseXml(text: string, file: string): XmlElement {
  const parser = new SaxesParser<{ xmlns: false; fileName: string; position: true }>({
    xmlns: false,
    fileName: file,
    position: true,
  });
  const open: XmlElement[] = [];
  let root: XmlElement | null = null;
  let elements = 0;
  let start = 0;
  const here = (): string => `${file} line ${parser.line}`;
  parser.on("error", (error) => {
    throw notXml(here(), error.message.slice(error.message.lastIndexOf(": ") + 2));
  });
  parser.on("doctype", (declaration) => guardDoctype(declaration, here()));
  parser.on("opentagstart", () => {
    start = text.lastIndexOf("<", parser.position - 1);
    if (open.length >= MAX_DEPTH) throw beyond(here(), `elements nest deeper than the limit of ${MAX_DEPTH} levels`);
    if (++elements > MAX_ELEMENTS) throw beyond(here(), `it holds more than the limit of ${MAX_ELEMENTS} elements`);
  });
  parser.on("opentag", (tag) => {
    const element = new XmlElement(tag.name, attributesOf(tag.attributes, here()), parser.line, start);
    open.at(-1)?.children.push(element);
    root ??= element;
    open.push(element);
  });
  parser.on("text", (piece) => {
    const inside = open.at(-1);
    if (inside !== undefined && (inside.children.length === 0 || piece.trim() !== "")) inside.text += piece;
  });
  parser.on("cdata", (piece) => {
    const inside = open.at(-1);
    if (inside !== undefined) inside.text += piece;
  });
  parser.on("closetag", () => {
    const closed = open.pop();
    if (closed !== undefined) closed.end = parser.position;
  });
  parser.write(text).close();
  if (root === null) throw notXml(file, "it holds no element");
  return root;
}

function attributesOf(found: Readonly<Record<string, string>>, place: string): readonly XmlAttribute[] {
  const entries = Object.entries(found);
  if (entries.length === 0) return NO_ATTRIBUTES;
  if (entries.length > MAX_ATTRIBUTES)
    throw beyond(place, `an element has more than the limit of ${MAX_ATTRIBUTES} attributes`);
  return entries.map(([name, value]) => {
    if (value.length > MAX_ATTRIBUTE_CHARACTERS)
      throw beyond(place, `an attribute is longer than the limit of ${MAX_ATTRIBUTE_CHARACTERS} characters`);
    return { name, value, nodeType: 2, ATTRIBUTE_NODE: 2 };
  });
}

const NO_ATTRIBUTES: readonly XmlAttribute[] = [];

/** A declaration that names an outside definition is ignored; one that defines things itself is refused. */
function guardDoctype(declaration: string, place: string): void {
  if (!declaration.includes("[")) return;
  throw new InputProblem(
    "unsafe-xml",
    place,
    "the document type declaration defines entities or elements of its own",
    "remove the part in square brackets, or export the score again",
  );
}

function notXml(place: string, why: string): InputProblem {
  return new InputProblem("not-xml", place, `this is not well-formed XML (${why})`, "export the score as MusicXML");
}

function beyond(place: string, what: string): InputProblem {
  return new InputProblem("too-large", place, what, "export the melody's part alone");
}
