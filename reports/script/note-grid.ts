// SPDX-License-Identifier: AGPL-3.0-or-later
// The notes of the score as buttons over what is drawn: one tab stop, arrow keys from note to note.

/** What the grid tells of its notes. */
export interface GridListener {
  /** a note was clicked, or Enter or Space pressed on it. @param again it stood open before the click brought the focus */
  chosen(note: NoteCell, by: "pointer" | "keyboard", again: boolean): void;
  focused(note: NoteCell): void;
  left(): void;
}

/** One note as a button. */
export interface NoteCell {
  readonly id: string;
  readonly button: HTMLButtonElement;
  /** the glyph that it plays, as `<use>` names it */
  readonly glyph: string;
  readonly system: HTMLElement;
}

/** Where a note's button stands in its drawing, in percent of it. */
interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The grid over all lines of music. */
export class NoteGrid {
  readonly cells: readonly NoteCell[];
  private readonly rows: readonly (readonly NoteCell[])[];

  /**
   * @param label names each line of the grid
   * @param nameOf names a note
   */
  constructor(
    label: string,
    nameOf: (id: string) => string,
    private readonly listener: GridListener,
  ) {
    const systems = [...document.querySelectorAll<HTMLElement>("#score .system")];
    this.rows = systems.map((system) => rowOf(system, label, nameOf)).filter((row) => row.length > 0);
    this.cells = this.rows.flat();
    for (const cell of this.cells) this.connect(cell);
    this.cells[0]?.button.setAttribute("tabindex", "0");
  }

  private connect(cell: NoteCell): void {
    let again = false;
    cell.button.onpointerdown = () => {
      again = cell.button.getAttribute("aria-expanded") === "true";
    };
    cell.button.onclick = (event) => this.listener.chosen(cell, event.detail === 0 ? "keyboard" : "pointer", again);
    cell.button.onfocus = () => {
      for (const one of this.cells) one.button.tabIndex = one === cell ? 0 : -1;
      this.listener.focused(cell);
    };
    cell.button.onkeydown = (event) => {
      if (event.altKey || event.metaKey || event.shiftKey) return;
      if (event.key === "Escape") this.listener.left();
      const next = this.nextOf(cell, event.key, event.ctrlKey);
      if (next === null) return;
      event.preventDefault();
      next?.button.focus();
    };
  }

  /** Where a key leads; null for a key that leads nowhere, nothing where there is no more note that way. */
  private nextOf(cell: NoteCell, key: string, ctrl: boolean): NoteCell | undefined | null {
    const at = this.cells.indexOf(cell);
    const row = this.rows.findIndex((one) => one.includes(cell));
    const end = ctrl ? this.cells : (this.rows[row] ?? []);
    if (key === "Home") return end[0];
    if (key === "End") return end.at(-1);
    if (ctrl) return null;
    if (key === "ArrowRight") return this.cells[at + 1];
    if (key === "ArrowLeft") return this.cells[at - 1];
    if (key === "ArrowDown") return nearest(cell, this.rows[row + 1]);
    if (key === "ArrowUp") return nearest(cell, this.rows[row - 1]);
    return null;
  }
}

/** The note of another line that stands most nearly above or below. */
function nearest(cell: NoteCell, row: readonly NoteCell[] = []): NoteCell | undefined {
  const x = (one: NoteCell): number => Number.parseFloat(one.button.style.left);
  return [...row].sort((a, b) => Math.abs(x(a) - x(cell)) - Math.abs(x(b) - x(cell)))[0];
}

function rowOf(system: HTMLElement, label: string, nameOf: (id: string) => string): readonly NoteCell[] {
  const drawing = system.querySelector(".drawing");
  const svg = drawing?.querySelector("svg");
  if (!drawing || !svg) return [];
  const uses = [...svg.querySelectorAll<SVGUseElement>("use.cell[data-note]")];
  const grid = document.createElement("div");
  grid.className = "note-cells";
  grid.setAttribute("role", "grid");
  grid.setAttribute("aria-label", label);
  const row = document.createElement("div");
  row.setAttribute("role", "row");
  grid.append(row);
  const cells = uses.map((use) => {
    const id = use.getAttribute("data-note") ?? "";
    const button = document.createElement("button");
    button.type = "button";
    button.className = "note-cell";
    button.tabIndex = -1;
    button.setAttribute("aria-label", nameOf(id));
    button.setAttribute("aria-expanded", "false");
    for (const [side, percent] of Object.entries(boxOf(use, uses, svg)))
      button.style.setProperty(side, `${percent.toFixed(2)}%`);
    const gridCell = document.createElement("div");
    gridCell.setAttribute("role", "gridcell");
    gridCell.append(button);
    row.append(gridCell);
    return { id, button, glyph: use.getAttribute("href") ?? "", system };
  });
  drawing.append(grid);
  return cells;
}

/** The glyph, and above the uppermost of a chord's all that stands over it. */
function boxOf(use: SVGUseElement, uses: readonly SVGUseElement[], svg: SVGSVGElement): Box {
  const of = (one: SVGUseElement) => ({
    x: one.x.baseVal.value,
    y: one.y.baseVal.value,
    width: one.width.baseVal.value,
    height: one.height.baseVal.value,
  });
  const { x, y, width, height } = of(use);
  const view = svg.viewBox.baseVal;
  const above = uses.map(of).some((one) => one.y < y && Math.abs(one.x + one.width / 2 - x - width / 2) < width / 2);
  const top = above ? y : view.y;
  return {
    left: (100 * (x - view.x)) / view.width,
    top: (100 * (top - view.y)) / view.height,
    width: (100 * width) / view.width,
    height: (100 * (y + height - top)) / view.height,
  };
}
