// SPDX-License-Identifier: AGPL-3.0-or-later
// Follows the sound in the score: marks what sounds, and keeps it in view.
import type { LineNote } from "../../src/sound/line.js";

/** Class of everything that belongs to a note that is heard now. */
const HEARD = "is-heard";

/** The page's score. */
export class ScoreFollower {
  /** what belongs to each note: head, cell, reading */
  private readonly parts: readonly (readonly Element[])[];
  private lit: readonly number[] = [];
  private line: Element | null = null;

  constructor(notes: readonly LineNote[]) {
    const drawn = new Map<string, Element[]>();
    for (const element of document.querySelectorAll("#score [data-note]")) {
      const id = element.getAttribute("data-note") ?? "";
      drawn.set(id, [...(drawn.get(id) ?? []), element]);
    }
    // Readings stand in the order of the notes, one each.
    const readings = document.querySelectorAll("#score :is(.readings, .plain-bars) [id^='note-']");
    this.parts = notes.map(({ id }, i) => [...(readings[i] ? [readings[i]] : []), ...(drawn.get(id) ?? [])]);
  }

  /** Marks these notes alone. @param keepInView brings their line of music into view when it is another than before */
  mark(notes: readonly number[], keepInView: boolean): void {
    if (notes.join() === this.lit.join()) return;
    for (const note of this.lit) for (const part of this.parts[note] ?? []) part.classList.remove(HEARD);
    for (const note of notes) for (const part of this.parts[note] ?? []) part.classList.add(HEARD);
    this.lit = notes;
    if (!keepInView) this.line = null;
    const [first] = notes;
    const here = first === undefined ? undefined : this.parts[first];
    if (keepInView && here !== undefined) this.show(here);
  }

  private show(parts: readonly Element[]): void {
    const [reading] = parts;
    const cell = parts.find((part) => part.classList.contains("cell")) ?? reading;
    const system = reading?.closest(".system") ?? reading ?? null;
    const behavior = matchMedia("(prefers-reduced-motion: reduce)").matches ? "instant" : "smooth";
    const strip = reading?.closest(".systems") ?? null;
    if (strip !== null && cell !== undefined && strip.scrollWidth > strip.clientWidth + 1) {
      const box = strip.getBoundingClientRect();
      const { left, right } = cell.getBoundingClientRect();
      if (left < box.left + 20 || right > box.right - 20)
        strip.scrollBy({ left: left - box.left - box.width / 4, behavior });
    }
    if (system === null || system === this.line) return;
    this.line = system;
    const { top, bottom } = system.getBoundingClientRect();
    const listen = document.querySelector(".listen.is-playing");
    const sticks = listen !== null && getComputedStyle(listen).position === "sticky";
    const bar = sticks ? listen.getBoundingClientRect().height : 0;
    if (top < bar || bottom > innerHeight)
      scrollBy({ top: top - bar - Math.max(16, (innerHeight - bar - (bottom - top)) / 3), behavior });
  }
}
