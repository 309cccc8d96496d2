// SPDX-License-Identifier: AGPL-3.0-or-later
// A light, safe element tree that remembers where each element stands in the text.
import { SaxesParser } from "saxes";
import { InputProblem } from "../problem.js";
import {
  MAX_ASIDE_CHARACTERS,
  MAX_ATTRIBUTE_CHARACTERS,
  MAX_ATTRIBUTES,
  MAX_CHILDREN,
  MAX_DEPTH,
  MAX_ELEMENTS,
  MAX_TEXT_CHARACTERS,
} from "./limits.js";

/** One attribute, shaped as the element parsers expect it. */
class XmlAttribute {
  constructor(
    readonly name: string,
    readonly value: string,
  ) {}

  get nodeType(): 2 {
    return 2;
  }

  get ATTRIBUTE_NODE(): 2 {
    return 2;
  }
}

/** What a document has most of, elements without elements inside, keeps no list of its own. */
const NO_ELEMENTS: readonly XmlElement[] = [];

/** One element. It has the few members of a DOM element that the element parsers touch, and its place in the text. */
export class XmlElement {
  /** the text directly inside, pieces joined */
  text = "";
  /** offset just behind the closing tag; together with `start` it cuts the element out of the document */
  end = 0;

  /**
   * @param nodeName   the tag's name
   * @param attributes in file order
   * @param line       of the opening tag, from 1
   * @param start      offset of the opening `<`
   * @param children   the elements directly inside; the parser knows them when the element closes
   */
  constructor(
    readonly nodeName: string,
    readonly attributes: readonly XmlAttribute[],
    readonly line: number,
    readonly start: number,
    public children: readonly XmlElement[] = NO_ELEMENTS,
  ) {}

  get nodeType(): 1 {
    return 1;
  }

  get ATTRIBUTE_NODE(): 2 {
    return 2;
  }

  /** All text inside; MusicXML never mixes text and elements, so their order does not matter. */
  get textContent(): string {
    if (this.children.length === 0) return this.text;
    return this.children.reduce((text, inner) => text + inner.textContent, this.text);
  }

  /** An attribute's value, or null where there is none. */
  getAttribute(name: string): string | null {
    for (const attribute of this.attributes) if (attribute.name === name) return attribute.value;
    return null;
  }
}

/** The first child of that name. */
export function child(element: XmlElement, name: string): XmlElement | null {
  // Asked of every note some dozens of times: a plain loop takes half the time that a search by a function does.
  for (const inner of element.children) if (inner.nodeName === name) return inner;
  return null;
}

/** All children of that name. */
export function children(element: XmlElement, name: string): readonly XmlElement[] {
  let found: XmlElement[] | null = null;
  for (const inner of element.children)
    if (inner.nodeName === name) {
      if (found === null) found = [inner];
      else found.push(inner);
    }
  return found ?? NONE;
}

const NONE: readonly XmlElement[] = [];

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
  /** by depth: the elements so far inside the one that is open there */
  const inner: XmlElement[][] = [];
  const name = internedNames();
  let root: XmlElement | null = null;
  let elements = 0;
  let start = 0;
  const here = (): string => `${file} line ${parser.line}`;
  const write = (inside: XmlElement, piece: string): void => {
    if (inside.text.length + piece.length > MAX_TEXT_CHARACTERS)
      throw beyond(
        here(),
        `the text of <${inside.nodeName}> is longer than the limit of ${MAX_TEXT_CHARACTERS} characters`,
      );
    inside.text += piece;
  };
  guardAsides(text, file);
  parser.on("error", (error) => {
    throw notXml(here(), error.message.slice(error.message.lastIndexOf(": ") + 2));
  });
  parser.on("doctype", (declaration) => guardDoctype(declaration, here()));
  parser.on("opentagstart", () => {
    start = text.lastIndexOf("<", parser.position - 1);
    if (open.length >= MAX_DEPTH) throw beyond(here(), `elements nest deeper than the limit of ${MAX_DEPTH} levels`);
  });
  parser.on("opentag", (tag) => {
    const attributes = attributesOf(tag.attributes, here);
    elements += 1 + attributes.length;
    if (elements > MAX_ELEMENTS)
      throw beyond(here(), `it holds more than the limit of ${MAX_ELEMENTS} elements and attributes`);
    const element = new XmlElement(name(tag.name), attributes, parser.line, start);
    const around = open.at(-1);
    const siblings = inner[open.length - 1];
    if (around !== undefined && (siblings?.push(element) ?? 0) > MAX_CHILDREN && !HOLDS_MANY.has(around.nodeName))
      throw beyond(here(), `<${around.nodeName}> holds more than the limit of ${MAX_CHILDREN} elements`);
    root ??= element;
    if (open.push(element) > inner.length) inner.push([]);
  });
  parser.on("text", (piece) => {
    const inside = open.at(-1);
    if (inside !== undefined && (inner[open.length - 1]?.length === 0 || piece.trim() !== "")) write(inside, piece);
  });
  parser.on("cdata", (piece) => {
    const inside = open.at(-1);
    if (inside !== undefined) write(inside, piece);
  });
  parser.on("closetag", () => {
    const closed = open.pop();
    if (closed === undefined) return;
    closed.end = parser.position;
    const within = inner[open.length];
    if (within === undefined || within.length === 0) return;
    // A list that grew has room to spare; its copy has none, and stays.
    closed.children = within.slice();
    within.length = 0;
  });
  parser.write(text).close();
  if (root === null) throw notXml(file, "it holds no element");
  return root;
}

/** Names of elements that are kept; MusicXML has fewer. */
const MOST_NAMES = 1_000;

/**
 * One string for each name: the parser makes a new one each time, and searches compare names most of the time. As a key of
 * an object a name is stored where two equal ones are one.
 */
function internedNames(): (name: string) => string {
  const known = new Map<string, string>();
  return (name) => {
    const before = known.get(name);
    if (before !== undefined) return before;
    const [interned = name] = Object.keys({ [name]: true });
    if (known.size < MOST_NAMES) known.set(interned, interned);
    return interned;
  };
}

/** What holds the music itself, or one element for each part. */
const HOLDS_MANY: ReadonlySet<string> = new Set([
  "score-partwise",
  "score-timewise",
  "part-list",
  "part",
  "measure",
  "miscellaneous",
]);

const ASIDES: readonly (readonly [opening: string, closing: string, name: string])[] = [
  ["<![CDATA[", "]]>", "a CDATA section"],
  ["<!--", "-->", "a comment"],
  ["<!", ">", "the document type declaration"],
  ["<?", "?>", "a processing instruction"],
];

/**
 * Long asides are refused before they are parsed: the parser builds some of them character by character. Behind one
 * that does not end nothing is looked at, since the parser stops there too.
 */
function guardAsides(text: string, file: string): void {
  const openings = /<[!?]/g;
  for (let found = openings.exec(text); found !== null; found = openings.exec(text)) {
    const at = found.index;
    const [opening, closing, name] = ASIDES.find(([start]) => text.startsWith(start, at)) as (typeof ASIDES)[number];
    const closed = text.indexOf(closing, at + opening.length);
    const end = closed < 0 ? text.length : closed;
    if (end - at > MAX_ASIDE_CHARACTERS)
      throw beyond(file, `${name} is longer than the limit of ${MAX_ASIDE_CHARACTERS} characters`);
    openings.lastIndex = end;
  }
}

/** @param here where the element stands, for messages */
function attributesOf(found: Readonly<Record<string, string>>, here: () => string): readonly XmlAttribute[] {
  const names = Object.keys(found);
  if (names.length === 0) return NO_ATTRIBUTES;
  if (names.length > MAX_ATTRIBUTES)
    throw beyond(here(), `an element has more than the limit of ${MAX_ATTRIBUTES} attributes`);
  return names.map((name) => {
    const value = found[name] as string;
    if (value.length > MAX_ATTRIBUTE_CHARACTERS)
      throw beyond(here(), `an attribute is longer than the limit of ${MAX_ATTRIBUTE_CHARACTERS} characters`);
    return new XmlAttribute(name, value);
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
