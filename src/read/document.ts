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
  readonly abbreviation: string | null;
  /** names of its instruments, and their sounds as the standard names them, such as `strings.violin` */
  readonly instruments: readonly string[];
  /** all its MIDI channels are the tenth, that of drums */
  readonly drums: boolean;
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
  const heads = partHeads(root);
  const bars = root.nodeName === "score-partwise" ? partwiseBars(root, file) : timewiseBars(root);
  const parts = [...bars].map(([id, list], index) => ({
    number: index + 1,
    id,
    ...(heads.get(id) ?? NO_HEAD),
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

/** What the list of parts says of one. */
type PartHead = Pick<PartElements, "name" | "abbreviation" | "instruments" | "drums">;

/** Of a part that the list does not name. */
const NO_HEAD: PartHead = { name: null, abbreviation: null, instruments: [], drums: false };

/** The MIDI channel of drums, counted from 1 as MusicXML does. */
const DRUM_CHANNEL = "10";

function partHeads(root: XmlElement): Map<string, PartHead> {
  const list = child(root, "part-list");
  const heads = new Map<string, PartHead>();
  for (const part of list === null ? [] : children(list, "score-part")) {
    const single = (text: string | null): string | null => text?.replace(/\s+/g, " ") ?? null;
    const instruments = children(part, "score-instrument").flatMap((instrument) =>
      ["instrument-name", "instrument-sound"].flatMap((name) => childText(instrument, name) ?? []),
    );
    const channels = children(part, "midi-instrument").flatMap((midi) => childText(midi, "midi-channel") ?? []);
    heads.set(part.getAttribute("id") ?? "", {
      name: single(childText(part, "part-name") ?? displayName(part)),
      abbreviation: single(childText(part, "part-abbreviation")),
      instruments,
      drums: channels.length > 0 && channels.every((channel) => channel === DRUM_CHANNEL),
    });
  }
  return heads;
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
