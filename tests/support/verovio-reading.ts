// SPDX-License-Identifier: AGPL-3.0-or-later
// An independent reader of MusicXML: Verovio 6.3 (RISM Digital, LGPL-3.0-or-later). Onsets and durations are its exact
// fractions with repeats not expanded, pitches its MIDI values as they sound.
import { enableLog, LOG_OFF, VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { type Quarters, quarters } from "../../src/model/time.js";
import { child, children, type XmlElement } from "../../src/read/xml.js";

/** A note as Verovio hears it. */
export interface HeardNote {
  readonly onset: Quarters;
  /** with the notes tied to it */
  readonly duration: Quarters;
  /** MIDI number; 60 is middle C */
  readonly semitone: number;
  /** whether it is tied to the note before it, and so does not sound anew */
  readonly continues: boolean;
}

/** What the notes of a document sound like, by the offset of their element; null where Verovio does not know a note. */
export type Hearing = (note: XmlElement) => HeardNote | null;

/** Verovio, started once. */
export class IndependentReader {
  private constructor(readonly toolkit: VerovioToolkit) {}

  static async open(): Promise<IndependentReader> {
    const module = await createVerovioModule();
    const toolkit = new VerovioToolkit(module);
    // Only once a toolkit stands can the log be silenced; what Verovio warns of shows in what it hears.
    enableLog(LOG_OFF, module);
    toolkit.setOptions({ expandNever: true, transposeToSoundingPitch: true, breaks: "none" });
    return new IndependentReader(toolkit);
  }

  /**
   * Lets Verovio read a document and asks it about notes.
   *
   * @throws Error when Verovio refuses the document or traps; after that it can go on
   */
  hear(text: string, use: (hearing: Hearing) => void): void {
    if (!this.toolkit.loadData(text)) throw new Error("Verovio does not read the document");
    this.toolkit.renderToTimemap({});
    use((note) => heard(this.toolkit, nameOf(note)));
  }
}

function heard(toolkit: VerovioToolkit, id: string): HeardNote | null {
  const times = toolkit.getTimesForElement(id);
  const [[on], [length], [tied]] = [times.qfracOn ?? [], times.qfracDuration ?? [], times.qfracTiedDuration ?? []];
  const { pitch } = toolkit.getMIDIValuesForElement(id);
  if (on === undefined || length === undefined || tied === undefined || pitch === undefined) return null;
  const continues = tied[0] < 0;
  return {
    onset: quarters(...on),
    duration: continues ? quarters(...length) : quarters(...length).add(quarters(...tied)),
    semitone: pitch,
    continues,
  };
}

/** What a copy for Verovio leaves out, so that it keeps the printed time. */
export type LeftOutForTime = "grace" | "arpeggiate";

/**
 * The document as Verovio takes it: each note named by its offset, a timewise score turned into a partwise one.
 *
 * @param leaveOut grace notes and signs of broken chords: Verovio takes their time from the notes around them
 */
export function forVerovio(text: string, root: XmlElement, leaveOut: readonly LeftOutForTime[]): string {
  const cut = (element: XmlElement): boolean =>
    (leaveOut.includes("grace") && isGrace(element)) ||
    (leaveOut.includes("arpeggiate") && /^(non-)?arpeggiate$/.test(element.nodeName));
  const pieces: string[] = [];
  let at = 0;
  const copy = (element: XmlElement): void => {
    if (cut(element)) {
      pieces.push(text.slice(at, element.start));
      at = element.end;
    } else if (element.nodeName === "note") {
      const close = text.indexOf(">", element.start);
      const opening = text.slice(element.start + "<note".length, close).replace(/\sid\s*=\s*("[^"]*"|'[^']*')/, "");
      pieces.push(text.slice(at, element.start), `<note id="${nameOf(element)}"${opening}`);
      at = close;
      for (const inner of element.children) copy(inner);
    } else for (const inner of element.children) copy(inner);
  };
  /** The copy of an element's own text, its tags included. */
  const copied = (element: XmlElement): string => {
    at = element.start;
    pieces.length = 0;
    copy(element);
    return pieces.join("") + text.slice(at, element.end);
  };
  return root.nodeName === "score-timewise" ? partwise(text, root, copied) : copied(root);
}

/** A timewise score part by part: Verovio reads only partwise ones. */
function partwise(text: string, root: XmlElement, copied: (element: XmlElement) => string): string {
  const list = child(root, "part-list") as XmlElement;
  const measures = children(root, "measure");
  const parts = children(list, "score-part").map((part) => {
    const id = part.getAttribute("id") ?? "";
    const shares = measures.map((measure) => {
      const share = children(measure, "part").find((one) => one.getAttribute("id") === id);
      const inner = share === undefined ? "" : copied(share).replace(/^<part\b[^>]*>|<\/part\s*>$/g, "");
      return `<measure number="${measure.getAttribute("number")}">${inner}</measure>`;
    });
    return `<part id="${id}">${shares.join("")}</part>`;
  });
  return `<score-partwise version="4.0">${text.slice(list.start, list.end)}${parts.join("")}</score-partwise>`;
}

/** Whether an element is a grace note. */
export function isGrace(element: XmlElement): boolean {
  return element.nodeName === "note" && child(element, "grace") !== null;
}

function nameOf(note: XmlElement): string {
  return `at-${note.start}`;
}
