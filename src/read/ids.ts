// SPDX-License-Identifier: AGPL-3.0-or-later
// Names of notes: the file's own where it is good, else made from the note's place.

import { phrase } from "../words.js";
import type { MusicDocument, PartElements } from "./document.js";
import type { UnreadList } from "./unread.js";
import type { XmlElement } from "./xml.js";

/** What an id may look like: an XML name of usable length. */
const USABLE = /^[\p{L}_][\p{L}\p{N}_.-]{0,63}$/u;
/** What a made id looks like: a file's own id of that look could be taken for another note's. */
const MADE = /^p\d+b\d+n\d+$/;
const NAMED_AT_MOST = 5;

/** Gives each note of a part its id, the same whatever part of the file is read. */
export class NoteIds {
  readonly #uses = new Map<string, number>();
  readonly #counted = new Map<string, number>();
  readonly #part: number;

  constructor(document: MusicDocument, part: PartElements, unread: UnreadList) {
    this.#part = part.number;
    for (const { bars } of document.parts)
      for (const { element } of bars)
        for (const note of element.children) {
          const id = note.nodeName === "note" ? note.getAttribute("id") : null;
          if (id !== null) this.#uses.set(id, (this.#uses.get(id) ?? 0) + 1);
        }
    const bad = [...this.#uses].filter(([id, uses]) => uses > 1 || !usable(id)).map(([id]) => `"${id.slice(0, 40)}"`);
    if (bad.length === 0) return;
    const named = [...bad.slice(0, NAMED_AT_MOST), ...(bad.length > NAMED_AT_MOST ? ["..."] : [])].join(", ");
    unread.addWhole(
      phrase(
        `note ids that are not unique or not usable are replaced: ${named}`,
        `重复或不能用的音符编号已换掉：${named}`,
      ),
    );
  }

  /** The id of the next note element that is no rest. @param bar its bar's index */
  next(note: XmlElement, bar: number, voice: string | null): string {
    const place = `${bar}/${voice ?? ""}`;
    const number = (this.#counted.get(place) ?? 0) + 1;
    this.#counted.set(place, number);
    const own = note.getAttribute("id");
    if (own !== null && usable(own) && this.#uses.get(own) === 1) return own;
    return `p${this.#part}b${bar + 1}n${number}`;
  }
}

function usable(id: string): boolean {
  return USABLE.test(id) && !MADE.test(id);
}
