// SPDX-License-Identifier: AGPL-3.0-or-later
// A small element tree for the engraver's SVG: read, changed, written.
import { SaxesParser } from "saxes";

/** An element; children in order, texts as strings. */
export interface SvgElement {
  name: string;
  attributes: Record<string, string>;
  children: (SvgElement | string)[];
}

/**
 * Reads an SVG document.
 *
 * @throws Error when it is not well-formed
 */
export function parseSvg(text: string): SvgElement {
  const root: SvgElement = { name: "root", attributes: {}, children: [] };
  const open: SvgElement[] = [root];
  const parser = new SaxesParser();
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", (tag) => {
    const element: SvgElement = { name: tag.name, attributes: { ...tag.attributes }, children: [] };
    open.at(-1)?.children.push(element);
    open.push(element);
  });
  parser.on("closetag", () => {
    open.pop();
  });
  parser.on("text", (content) => {
    if (content.trim() !== "") open.at(-1)?.children.push(content);
  });
  parser.write(text).close();
  const first = elementsOf(root)[0];
  if (first === undefined) throw new Error("an empty SVG document");
  return first;
}

/** The children that are elements. */
export function elementsOf(element: SvgElement): readonly SvgElement[] {
  return element.children.filter((child): child is SvgElement => typeof child !== "string");
}

/** All elements below and including this one, in document order. */
export function* descendants(element: SvgElement): Generator<SvgElement> {
  yield element;
  for (const child of elementsOf(element)) yield* descendants(child);
}

/** All text below an element. */
export function textOf(element: SvgElement): string {
  return element.children.map((child) => (typeof child === "string" ? child : textOf(child))).join("");
}

/** Writes an element and what is in it; every text is escaped. */
export function writeSvg(element: SvgElement): string {
  const attributes = Object.entries(element.attributes)
    .map(([name, value]) => ` ${name}="${escapeMarkup(value)}"`)
    .join("");
  if (element.children.length === 0) return `<${element.name}${attributes}/>`;
  const content = element.children.map((child) => (typeof child === "string" ? escapeMarkup(child) : writeSvg(child)));
  return `<${element.name}${attributes}>${content.join("")}</${element.name}>`;
}

/** Text made safe for markup and double-quoted attributes. */
function escapeMarkup(text: string): string {
  return text.replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}
