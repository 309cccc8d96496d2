// SPDX-License-Identifier: AGPL-3.0-or-later
// A document's parts and bars, whether it is written part by part or bar by bar.
import { InputProblem } from "../problem.js";
import { creatorOf, titleOf } from "./titles.js";
import { child, children, childText, XmlElement } from "./xml.js";

/** One bar of one part as it stands in the file. */
interface BarElements {
  /** the measure, or in a timewise score the part's share of it, whose children are the music */
  readonly element: XmlElement;
  /** the measure, which carries number and other attributes */
  readonly measure: XmlElement;
}

/** One part. */
export interface PartElements {
  /** from 1, in the order of the file */
  readonly number: number;
  readonly id: string;
  readonly name: string | null;
  readonly bars: readonly BarElements[];
}

/** A MusicXML document by its parts. */
export interface MusicDocument {
  readonly title: string | null;
  readonly creator: string | null;
  readonly parts: readonly PartElements[];
}

/**
 * Finds the parts of a document.
 *
 * @throws InputProblem when the root is not a MusicXML score, or two parts carry one id
 */
export function musicDocument(root: XmlElement, file: string): MusicDocument {
  if (root.nodeName !== "score-partwise" && root.nodeName !== "score-timewise") throw notMusicXml(root, file);
  const names = partNames(root);
  const bars = root.nodeName === "score-partwise" ? partwiseBars(root, file) : timewiseBars(root);
  const parts = [...bars].map(([id, list], index) => ({
    number: index + 1,
    id,
    name: names.get(id) ?? null,
    bars: list,
  }));
  return { title: titleOf(root), creator: creatorOf(root), parts };
}

function notMusicXml(root: XmlElement, file: string): InputProblem {
  const name = root.nodeName.slice(0, 40);
  const what =
    name === "opus" ? "this is a list of scores, not a score" : `this is XML but not MusicXML (its root is <${name}>)`;
  return new InputProblem("not-musicxml", file, what, "export the score as MusicXML");
}

function partNames(root: XmlElement): Map<string, string> {
  const list = child(root, "part-list");
  const names = new Map<string, string>();
  for (const part of list === null ? [] : children(list, "score-part")) {
    const name = childText(part, "part-name") ?? displayName(part);
    if (name !== null) names.set(part.getAttribute("id") ?? "", name.replace(/\s+/g, " "));
  }
  return names;
}

function displayName(part: XmlElement): string | null {
  const display = child(part, "part-name-display");
  return display === null ? null : childText(display, "display-text");
}

function partwiseBars(root: XmlElement, file: string): Map<string, BarElements[]> {
  const parts = new Map<string, BarElements[]>();
  for (const part of children(root, "part")) {
    const id = part.getAttribute("id") ?? "";
    if (parts.has(id))
      throw new InputProblem(
        "double-part",
        `${file} line ${part.line}`,
        `two parts carry the id "${id}"`,
        "give each part its own id",
      );
    parts.set(
      id,
      children(part, "measure").map((measure) => ({ element: measure, measure })),
    );
  }
  return parts;
}

/** In a timewise score a bar that has no share of a part is silent there. */
function timewiseBars(root: XmlElement): Map<string, BarElements[]> {
  const measures = children(root, "measure").map((measure) => ({
    measure,
    shares: new Map(children(measure, "part").map((part) => [part.getAttribute("id") ?? "", part])),
  }));
  const ids = new Set(measures.flatMap(({ shares }) => [...shares.keys()]));
  return new Map(
    [...ids].map((id) => [
      id,
      measures.map(({ measure, shares }) => ({
        element: shares.get(id) ?? new XmlElement("part", [], measure.line, measure.start),
        measure,
      })),
    ]),
  );
}
