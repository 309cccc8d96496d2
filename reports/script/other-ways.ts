// SPDX-License-Identifier: AGPL-3.0-or-later
// Other ways to play the note that is chosen in the score: a panel that lists them, and the pins that one takes from it.
// All its texts stand in the page, which says the same without a script.
import { unpackPins } from "../pin-pack.js";
import { elementOf, filled } from "./data.js";
import { type NoteCell, NoteGrid } from "./note-grid.js";

/** Makes the notes of the score buttons, where the page has a drawn score. */
export function otherWays(): void {
  const panel = document.getElementById("ways-panel");
  if (panel === null || document.querySelector("#score .system use.cell") === null) return;
  new WaysPanel(panel);
}

/** Another way as the page lists it. */
interface Way {
  readonly said: string;
  readonly cost: string;
  readonly pin: string | null;
}

interface NoteWays {
  readonly place: string;
  readonly said: string;
  readonly sum: string;
  readonly given: string;
  readonly elsewhere: readonly Way[];
  readonly here: readonly Way[];
}

const textOf = (element: Element | null | undefined): string => element?.textContent?.trim() ?? "";

class WaysPanel {
  private readonly sources = new Map<string, HTMLElement>();
  private readonly grid: NoteGrid;
  private readonly taken = elementOf("ways-taken", HTMLElement);
  private readonly status = elementOf("ways-status", HTMLElement);
  /** below the way that is chosen: its pin, and a button that copies it */
  private readonly line = elementOf("ways-line", HTMLElement);
  private readonly pinLine = elementOf("ways-pin", HTMLElement);
  private readonly pinList = elementOf("ways-pins", HTMLElement);
  /** the way that is chosen for a note, by its id */
  private readonly chosen = new Map<string, Way>();
  private open: NoteCell | null = null;

  constructor(private readonly panel: HTMLElement) {
    for (const source of document.querySelectorAll<HTMLElement>("#other-ways [data-of]"))
      this.sources.set(source.dataset.of ?? "", source);
    for (const hint of document.querySelectorAll<HTMLElement>(".ways-scripted")) hint.hidden = false;
    this.grid = new NoteGrid(this.words("grid"), (id) => this.nameOf(id), {
      chosen: (cell, by, again) => this.openFor(cell, by, again),
      focused: (cell) => {
        if (this.open !== null && this.open !== cell) this.show(cell);
      },
      left: () => this.close(),
    });
    const hint = elementOf("ways-hint", HTMLElement);
    hint.hidden = false;
    document.querySelector("#score .systems")?.before(hint);
    this.connect();
  }

  private connect(): void {
    this.panel.onkeydown = (event) => {
      if (event.key === "Escape") this.close();
    };
    elementOf("ways-close", HTMLButtonElement).onclick = () => this.close();
    elementOf("ways-copy", HTMLButtonElement).onclick = () => this.copy(this.pinLine);
    elementOf("ways-copy-all", HTMLButtonElement).onclick = () => this.copy(this.pinList);
    elementOf("ways-clear", HTMLButtonElement).onclick = () => {
      this.chosen.clear();
      for (const cell of this.grid.cells) this.markPinned(cell);
      if (this.open !== null) this.show(this.open);
      this.focusFirst();
    };
  }

  private words(name: string): string {
    return this.panel.dataset[name] ?? "";
  }

  /** "Bar 3, beat 2: F3 da 7 gou 3". */
  private nameOf(id: string): string {
    const { place, said } = this.waysOf(id, false);
    return `${place} ${said}`;
  }

  /** What the page lists of a note. @param whole with the ways, which take time to read */
  private waysOf(id: string, whole: boolean): NoteWays {
    const source = this.sources.get(id);
    const [place, said, sum] = source?.querySelector("summary")?.children ?? [];
    const bar = textOf(source?.parentElement?.querySelector(":scope > summary"));
    const head = { place: `${bar}${this.words("between")}${textOf(place)}`, said: textOf(said), sum: textOf(sum) };
    if (!whole || source === undefined) return { ...head, given: "", elsewhere: [], here: [] };
    const pins = unpackPins(source.dataset.pins ?? "");
    const [elsewhere = [], here = []] = [...source.querySelectorAll("ul")].map((list) => [...list.children]);
    const wayOf = (item: Element, at: number): Way => {
      const [named = "", cost = ""] = item.firstChild?.textContent?.split("\t") ?? [];
      return { said: named.trim(), cost: cost.trim(), pin: pins[at] ?? null };
    };
    return {
      ...head,
      given: textOf(source.querySelector(":scope > .ways-given")),
      elsewhere: elsewhere.map(wayOf),
      here: here.map((item, i) => wayOf(item, elsewhere.length + i)),
    };
  }

  private openFor(cell: NoteCell, by: "pointer" | "keyboard", again: boolean): void {
    if (by === "pointer" && again) {
      this.close();
      return;
    }
    this.show(cell);
    if (by === "keyboard") this.focusFirst();
  }

  private focusFirst(): void {
    const first = this.panel.querySelector<HTMLElement>("li > button") ?? elementOf("ways-close", HTMLButtonElement);
    first.focus();
  }

  private close(): void {
    const cell = this.open;
    if (cell === null) return;
    this.open = null;
    this.panel.hidden = true;
    cell.button.setAttribute("aria-expanded", "false");
    cell.button.focus();
  }

  private show(cell: NoteCell): void {
    const moved = this.open?.system !== cell.system || this.panel.hidden;
    this.open?.button.setAttribute("aria-expanded", "false");
    cell.button.setAttribute("aria-expanded", "true");
    this.open = cell;
    const ways = this.waysOf(cell.id, true);
    elementOf("ways-place", HTMLElement).textContent = ways.place;
    elementOf("ways-note", HTMLElement).textContent = `${ways.said} · ${ways.sum}`;
    elementOf("ways-given", HTMLElement).textContent = ways.given;
    this.panel.querySelector("#ways-glyph use")?.setAttribute("href", cell.glyph);
    this.list("ways-elsewhere", ways.elsewhere, cell);
    this.list("ways-here", ways.here, cell);
    this.status.textContent = "";
    this.showTaken(cell);
    if (moved) this.place(cell);
  }

  /** Below the line of music; where the lines stand beside each other, below all of them. */
  private place({ system }: NoteCell): void {
    const strip = system.parentElement ?? system;
    const beside = getComputedStyle(strip).display === "flex";
    (beside ? strip : system).after(this.panel);
    this.panel.hidden = false;
    const behavior = matchMedia("(prefers-reduced-motion: reduce)").matches ? "instant" : "smooth";
    const { top } = this.panel.getBoundingClientRect();
    // The note itself stays in sight: only as much of the panel is brought into view as leaves room for it.
    if (top > innerHeight * 0.75) scrollBy({ top: top - innerHeight * 0.55, behavior });
  }

  private list(id: string, ways: readonly Way[], cell: NoteCell): void {
    const part = elementOf(id, HTMLElement);
    part.hidden = ways.length === 0;
    const items = ways.map((way) => {
      const button = document.createElement("button");
      button.type = "button";
      const [said, cost] = [document.createElement("span"), document.createElement("i")];
      said.textContent = way.said;
      cost.textContent = way.cost;
      button.append(said, " ", cost);
      button.setAttribute("aria-pressed", String(this.chosen.get(cell.id)?.pin === way.pin && way.pin !== null));
      button.onclick = () => this.choose(way, cell);
      const item = document.createElement("li");
      item.append(button);
      return { item, way };
    });
    part.querySelector("ul")?.replaceChildren(...items.map(({ item }) => item));
  }

  /** Takes a way for the brief, or no longer. */
  private choose(way: Way, cell: NoteCell): void {
    if (way.pin === null) {
      this.status.textContent = this.words("unwritten");
      return;
    }
    const off = this.chosen.get(cell.id)?.pin === way.pin;
    if (off) this.chosen.delete(cell.id);
    else this.chosen.set(cell.id, way);
    const { elsewhere, here } = this.waysOf(cell.id, true);
    const all = [...elsewhere, ...here];
    for (const [i, button] of this.panel.querySelectorAll("li > button").entries())
      button.setAttribute("aria-pressed", String(!off && all[i]?.pin === way.pin));
    this.markPinned(cell);
    this.showTaken(cell);
    this.status.textContent = off ? "" : `${way.said}: ${filled(this.words("cost"), { cost: way.cost })}`;
  }

  private markPinned({ id, button }: NoteCell): void {
    const way = this.chosen.get(id);
    button.classList.toggle("is-pinned", way !== undefined);
    const pinned = way === undefined ? "" : `${this.words("between") || "，"}${this.words("pinned")} ${way.said}`;
    button.setAttribute("aria-label", this.nameOf(id) + pinned);
  }

  /** The line for this note, and all that were taken in the order of the score. */
  private showTaken(cell: NoteCell): void {
    const mine = this.chosen.get(cell.id);
    this.pinLine.textContent = mine?.pin ?? "";
    this.line.hidden = mine === undefined;
    const chosen = this.panel.querySelector('li > button[aria-pressed="true"]');
    if (chosen === null) this.panel.append(this.line);
    else chosen.after(this.line);
    const ids = [...this.sources.keys()].filter((id) => this.chosen.has(id));
    this.pinList.textContent = ["pins:", ...ids.map((id) => `  ${this.chosen.get(id)?.pin}`)].join("\n");
    this.taken.hidden = ids.length === 0;
  }

  /** To the clipboard; where the browser does not let it, the text is selected. */
  private copy(text: HTMLElement): void {
    const select = (): void => {
      getSelection()?.selectAllChildren(text);
      this.status.textContent = this.words("select");
    };
    if (navigator.clipboard)
      navigator.clipboard.writeText(`${text.textContent}\n`).then(() => {
        this.status.textContent = this.words("copied");
      }, select);
    else select();
  }
}
