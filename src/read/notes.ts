// SPDX-License-Identifier: AGPL-3.0-or-later
// The note elements of a part as notes with pitch, moment and id.
import type { Pitch } from "../model/pitch.js";
import type { Bar } from "../model/score.js";
import type { Quarters } from "../model/time.js";
import { InputProblem } from "../problem.js";
import { parseAttributes } from "./bridge.js";
import type { DirectionFacts } from "./directions.js";
import type { PartElements } from "./document.js";
import type { NoteIds } from "./ids.js";
import { type OwnElements, ownElements } from "./own.js";
import { byOctaves, filePitch, moved, Transpositions } from "./pitches.js";
import { tellPlaying, tellRestMarks } from "./playing.js";
import { isMelodic, staffOf } from "./survey.js";
import type { UnreadList } from "./unread.js";
import type { Placed, WalkedPart } from "./walk.js";
import { child, children, type XmlElement } from "./xml.js";

/** A pitched note element of the part, in any voice. */
export interface ReadNote {
  readonly id: string;
  readonly element: XmlElement;
  /** its `<notations>`, found once: most notes have none, and many questions go to them */
  readonly notations: readonly XmlElement[];
  /** what stands in them, technical marks aside */
  readonly marks: readonly XmlElement[];
  /** what of it huipath wrote */
  readonly own: OwnElements;
  /** index among the walked elements: the order of the file */
  readonly order: number;
  readonly bar: number;
  /** from the start of the piece */
  readonly onset: Quarters;
  readonly duration: Quarters;
  readonly grace: boolean;
  readonly staff: string;
  readonly voice: string | null;
  /** equal for the notes that one chord joins */
  readonly group: number;
  readonly written: Pitch;
  readonly sounding: Pitch;
}

/** What reading notes needs beside the elements. */
export interface NoteContext {
  readonly file: string;
  readonly part: PartElements;
  readonly walked: WalkedPart;
  readonly bars: readonly Bar[];
  readonly voices: readonly (string | null)[];
  readonly directions: readonly DirectionFacts[];
  readonly ids: NoteIds;
  /** the document keeps a setting, so that huipath's own elements may stand in it */
  readonly annotated: boolean;
  readonly unread: UnreadList;
}

/**
 * Reads every pitched note of the part.
 *
 * @param voice notes of this voice that are left out are told
 * @throws InputProblem on a note that is neither pitched, unpitched nor a rest
 */
export function readNotes(context: NoteContext, voice: string | null): ReadNote[] {
  const reader = new NoteReader(context, voice);
  for (const [order, placed] of context.walked.placed.entries()) reader.read(placed, order);
  return reader.notes;
}

class NoteReader {
  readonly notes: ReadNote[] = [];
  readonly #transpositions = new Transpositions();
  /** octaves above the print, by staff; "" for signs that name none */
  readonly #octaves = new Map<string, number>();
  readonly #directions: ReadonlyMap<number, DirectionFacts>;
  #group = 0;

  constructor(
    readonly context: NoteContext,
    readonly voice: string | null,
  ) {
    this.#directions = new Map(context.directions.map((direction) => [direction.order, direction]));
  }

  read(placed: Placed, order: number): void {
    const direction = this.#directions.get(order);
    if (direction?.octaves !== null && direction !== undefined)
      this.#octaves.set(direction.staff ?? "", direction.octaves);
    if (placed.element.nodeName === "attributes") this.#readAttributes(placed);
    if (placed.element.nodeName === "note") this.#readNote(placed, order);
  }

  #readAttributes({ element, bar }: Placed): void {
    if (child(element, "transpose") !== null && this.#transpositions.read(element, parseAttributes(element)))
      this.context.unread.add("doubled", bar);
  }

  #readNote(placed: Placed, order: number): void {
    const { element, bar } = placed;
    const voice = this.context.voices[order] ?? null;
    if (child(element, "rest") !== null) {
      if (voice === this.voice) tellRestMarks(element, bar, this.context.unread);
      return;
    }
    const id = this.context.ids.next(element, bar, voice);
    if (child(element, "chord") === null) this.#group++;
    if (!isMelodic(element)) {
      this.#leaveOut(element, bar, voice);
      return;
    }
    const onset = (this.context.bars[bar] as Bar).onset.add(placed.at);
    const pitch = filePitch(element, this.context.file);
    const staff = staffOf(element);
    const octaves = this.#octaves.get(staff) ?? this.#octaves.get("") ?? 0;
    const grace = child(element, "grace") !== null;
    const notations = children(element, "notations");
    this.notes.push({
      id,
      element,
      notations,
      marks: marksIn(notations),
      own: ownElements(element, this.context.annotated),
      order,
      bar,
      onset,
      duration: placed.duration,
      grace,
      staff,
      voice,
      group: this.#group,
      written: byOctaves(pitch, -octaves),
      sounding: moved(pitch, this.#transpositions.on(staff)),
    });
    if (voice === this.voice) this.#tell(element, bar);
  }

  #tell(element: XmlElement, bar: number): void {
    if (element.getAttribute("time-only") !== null) this.context.unread.add("timeOnly", bar);
    tellPlaying(element, bar, this.context.unread);
  }

  #leaveOut(element: XmlElement, bar: number, voice: string | null): void {
    if (child(element, "cue") !== null) {
      if (voice === this.voice) this.context.unread.add("cue", bar);
      return;
    }
    if (child(element, "unpitched") === null)
      throw new InputProblem(
        "bad-note",
        `${this.context.file} line ${element.line}`,
        "this note has neither a pitch nor a rest",
        "correct it or export the score again",
      );
    if (voice === this.voice) this.context.unread.add("unpitched", bar);
  }
}

function marksIn(notations: readonly XmlElement[]): readonly XmlElement[] {
  if (notations.length === 0) return UNMARKED;
  const marks = notations.flatMap((one) => one.children.filter(({ nodeName }) => nodeName !== "technical"));
  return marks.length === 0 ? UNMARKED : marks;
}

const UNMARKED: readonly XmlElement[] = [];
