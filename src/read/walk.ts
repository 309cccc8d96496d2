// SPDX-License-Identifier: AGPL-3.0-or-later
// Where in its bar each element of a part stands, in exact time.
import { type Quarters, quarters, ZERO } from "../model/time.js";
import { InputProblem } from "../problem.js";
import type { PartElements } from "./document.js";
import { MAX_BAR_QUARTERS, MAX_DENOMINATOR } from "./limits.js";
import { valueQuarters } from "./metronome.js";
import type { UnreadList } from "./unread.js";
import { child, childText, type XmlElement } from "./xml.js";

/** An element of the music with its moment. */
export interface Placed {
  readonly element: XmlElement;
  /** index of the bar */
  readonly bar: number;
  /** from the start of the bar, as the file's position stands; of a chord note that of its chord */
  readonly at: Quarters;
  /** of a note; else nothing */
  readonly duration: Quarters;
  /** divisions of the quarter note in force */
  readonly divisions: Quarters;
}

/** A part's elements in file order, and how far each bar reaches. */
export interface WalkedPart {
  readonly placed: readonly Placed[];
  readonly lengths: readonly Quarters[];
}

/** A plain decimal: MusicXML allows fractions of a division, but neither exponents nor other bases. */
const DECIMAL = /^\+?\d{1,12}(\.\d{1,9})?$/;

/** Beyond this part of a quarter note rounded tuplets stay as they are counted. */
const FINEST_ROUNDED = 1_000_000n;

/** What a note's value, dots and tuplet say of its length; null where they do not. */
function shownLength(note: XmlElement): Quarters | null {
  const value = valueQuarters(childText(note, "type"));
  const tuplet = child(note, "time-modification");
  const [actual, normal] = ["actual-notes", "normal-notes"].map((name) =>
    tuplet === null ? 0 : Number(childText(tuplet, name) ?? 0),
  ) as [number, number];
  const isPlain = [actual, normal].every((count) => Number.isInteger(count) && count > 0 && count <= 1024);
  if (value === null || !isPlain) return null;
  const dots = note.children.filter((inner) => inner.nodeName === "dot").length;
  const dotted = quarters(2).sub(quarters(1, 2 ** dots));
  return dots > 4
    ? null
    : quarters(256 * value, 256)
        .mul(dotted)
        .mul(quarters(normal, actual));
}

/**
 * Follows the file's position through a part: durations, backup and forward, divisions.
 *
 * @throws InputProblem on a duration or divisions that are no positive number, with the line
 */
export function walkPart(part: PartElements, file: string, unread: UnreadList): WalkedPart {
  const walker = new Walker(file, unread);
  const lengths = part.bars.map(({ element }, bar) => walker.walkBar(element, bar));
  return { placed: walker.placed, lengths };
}

class Walker {
  readonly placed: Placed[] = [];
  #divisions: Quarters | null = null;
  /** of the durations met since the divisions last changed, by their text: a score has few */
  readonly #lengths = new Map<string, Quarters>();
  #cursor: Quarters = ZERO;
  #reach: Quarters = ZERO;
  #lastNoteAt: Quarters = ZERO;
  /** of all bars so far */
  #sum: Quarters = ZERO;
  /** how far rounded tuplets have left the file's position behind the exact one */
  #rounding: Quarters = ZERO;

  constructor(
    readonly file: string,
    readonly unread: UnreadList,
  ) {}

  walkBar(element: XmlElement, bar: number): Quarters {
    this.#cursor = ZERO;
    this.#reach = ZERO;
    this.#lastNoteAt = ZERO;
    this.#rounding = ZERO;
    for (const inner of element.children) this.#step(inner, bar);
    this.#sum = this.#sum.add(this.#reach);
    this.#guardFineness(this.#sum, element);
    return this.#reach;
  }

  #step(element: XmlElement, bar: number): void {
    switch (element.nodeName) {
      case "note":
        this.#note(element, bar);
        return;
      case "backup": {
        const back = this.#cursor.sub(this.#rounding).sub(this.#length(element, bar, true));
        this.#rounding = ZERO;
        if (back.compare(ZERO) < 0) this.unread.add("backupBeyond", bar);
        this.#cursor = back.compare(ZERO) < 0 ? ZERO : back;
        return;
      }
      case "forward":
        this.#advance(this.#length(element, bar, true), element);
        return;
      case "attributes":
        this.#readDivisions(element);
        break;
    }
    this.#place(element, bar, this.#cursor, ZERO);
  }

  #note(element: XmlElement, bar: number): void {
    if (child(element, "grace") !== null) {
      this.#place(element, bar, this.#cursor, ZERO);
      return;
    }
    const counted = this.#length(element, bar, false);
    const length = this.#exactTuplet(element, counted) ?? counted;
    const inChord = child(element, "chord") !== null;
    if (!inChord) this.#lastNoteAt = this.#cursor;
    this.#place(element, bar, this.#lastNoteAt, length);
    if (inChord) return;
    if (length !== counted) this.#rounding = this.#rounding.add(length.sub(counted));
    this.#advance(length, element);
  }

  /**
   * The exact length of a tuplet's note whose duration had to be rounded to whole divisions: seven notes in two beats of
   * 480 divisions are written with 137 each, which leaves the beat one division short. Null where nothing was rounded.
   */
  #exactTuplet(element: XmlElement, counted: Quarters): Quarters | null {
    if (child(element, "time-modification") === null) return null;
    const shown = shownLength(element);
    if (shown === null || shown.equals(counted)) return null;
    const divisions = this.#divisions ?? quarters(1);
    const isWhole = shown.mul(divisions).d === 1n;
    const isNear = shown.sub(counted).mul(divisions).abs().compare(1) < 0;
    const isFine = this.#sum.add(this.#cursor).add(shown).d <= FINEST_ROUNDED;
    return !isWhole && isNear && isFine ? shown : null;
  }

  #place(element: XmlElement, bar: number, at: Quarters, duration: Quarters): void {
    this.placed.push({ element, bar, at, duration, divisions: this.#divisions ?? quarters(1) });
  }

  #advance(length: Quarters, element: XmlElement): void {
    this.#cursor = this.#cursor.add(length);
    if (this.#cursor.compare(this.#reach) > 0) this.#reach = this.#cursor;
    if (this.#reach === this.#cursor && this.#reach.compare(MAX_BAR_QUARTERS) > 0)
      throw new InputProblem(
        "too-large",
        `${this.file} line ${element.line}`,
        `the bar is longer than the limit of ${MAX_BAR_QUARTERS} quarter notes`,
        "correct the duration",
      );
    this.#guardFineness(this.#cursor, element);
  }

  /** Fractions whose denominators only ever grow would take more time with every note. */
  #guardFineness(moment: Quarters, element: XmlElement): void {
    if (moment.d <= MAX_DENOMINATOR) return;
    throw new InputProblem(
      "too-large",
      `${this.file} line ${element.line}`,
      `the time is cut finer than the limit of 1/${MAX_DENOMINATOR} of a quarter note`,
      "use one number of divisions throughout",
    );
  }

  #length(element: XmlElement, bar: number, mayBeZero: boolean): Quarters {
    if (this.#divisions === null) {
      this.#divisions = quarters(1);
      this.unread.add("noDivisions", bar);
    }
    const text = childText(element, "duration") ?? "";
    let length = this.#lengths.get(text);
    if (length === undefined) {
      length = this.#number(element, "duration").div(this.#divisions);
      this.#lengths.set(text, length);
    }
    if (length.n === 0n && !mayBeZero) throw this.#badNumber(element, "duration", "0");
    return length;
  }

  #readDivisions(element: XmlElement): void {
    const holder = child(element, "divisions");
    if (holder === null) return;
    const value = this.#number(element, "divisions");
    if (value.n === 0n) throw this.#badNumber(holder, "divisions", "0");
    this.#divisions = value;
    this.#lengths.clear();
  }

  #number(element: XmlElement, name: string): Quarters {
    const text = childText(element, name) ?? "";
    if (!DECIMAL.test(text)) throw this.#badNumber(child(element, name) ?? element, name, text);
    return quarters(text.replace("+", ""));
  }

  #badNumber(element: XmlElement, name: string, text: string): InputProblem {
    const what = text === "" ? `<${element.nodeName}> has no ${name}` : `the ${name} is "${text.slice(0, 40)}"`;
    return new InputProblem("bad-number", `${this.file} line ${element.line}`, what, "write a number above 0");
  }
}
