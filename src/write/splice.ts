// SPDX-License-Identifier: AGPL-3.0-or-later
// Changes to a text that leave every other character as it is, and where in an XML document to make them.
import type { XmlElement } from "../read/xml.js";

/** One change of a text. */
export interface Edit {
  /** offset of the first character that is replaced, or before which something is put in */
  readonly at: number;
  /** how many characters go */
  readonly remove: number;
  readonly insert: string;
}

/**
 * The text with all changes made; what changes at one place stands in the order given.
 *
 * @throws RangeError when two changes overlap
 */
export function spliced(text: string, edits: readonly Edit[]): string {
  const pieces: string[] = [];
  let from = 0;
  for (const { at, remove, insert } of [...edits].sort((a, b) => a.at - b.at)) {
    if (at < from) throw new RangeError(`two changes overlap at ${at}`);
    pieces.push(text.slice(from, at), insert);
    from = at + remove;
  }
  return pieces.join("") + text.slice(from);
}

/** Text as it may stand between tags. */
export function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

/** Puts something in at an offset. */
export function insertion(at: number, insert: string): Edit {
  return { at, remove: 0, insert };
}

/** Puts something in the place of an element. */
export function replacement({ start, end }: XmlElement, insert: string): Edit {
  return { at: start, remove: end - start, insert };
}

/** Takes an element out, with the line break and indentation before it. */
export function removal(text: string, element: XmlElement): Edit {
  const at = element.start - leadOf(text, element).length;
  return { at, remove: element.end - at, insert: "" };
}

/** A line break with the white space behind it, at the end of a text. */
const LEAD = /(?:\r\n|\n|\r)[ \t]*$/;
/** Indentations are looked for in so many characters before a tag. */
const LEAD_WITHIN = 200;

/** The line break and indentation before an element; empty where none stand there. */
export function leadOf(text: string, element: XmlElement): string {
  return LEAD.exec(text.slice(Math.max(0, element.start - LEAD_WITHIN), element.start))?.[0] ?? "";
}

/** Puts a first child into an element that has none. */
export function intoEmpty(text: string, element: XmlElement, insert: string): Edit {
  if (text.startsWith("/>", element.end - 2))
    return { at: element.end - 2, remove: 1, insert: `>${insert}</${element.nodeName}` };
  return insertion(text.lastIndexOf("</", element.end), insert);
}
