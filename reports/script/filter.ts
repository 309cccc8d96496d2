// SPDX-License-Identifier: AGPL-3.0-or-later
// Chooses findings by bar, beside the check boxes that the style sheet knows, and says how many are shown.
import { elementOf, filled } from "./data.js";

/** An open finding on the page. */
interface Place {
  readonly item: HTMLElement;
  readonly kind: string;
  readonly severity: string;
  /** indices of its first and last bar; null for the whole line, which every choice of bars shows */
  readonly bars: readonly [number, number] | null;
}

/** Sets the filter up, where the page has one. */
export function filterFindings(): void {
  const fieldset = document.getElementById("filter-bars");
  if (fieldset === null) return;
  const places = inOrder([...document.querySelectorAll<HTMLElement>("#findings li[data-bars]")]).map(placeOf);
  const [from, to] = [elementOf("filter-from", HTMLSelectElement), elementOf("filter-to", HTMLSelectElement)];
  to.selectedIndex = to.length - 1;
  fieldset.hidden = to.length < 2;
  const count = elementOf("filter-count", HTMLParagraphElement);
  const apply = (): void => {
    const shown = places.filter((place) => isChosen(place, Number(from.value), Number(to.value)));
    show(places, new Set(shown));
    const numbers = { n: String(shown.length), all: String(places.length) };
    count.textContent = filled(count.dataset.counted ?? "", numbers);
  };
  from.addEventListener("change", () => {
    if (from.selectedIndex > to.selectedIndex) to.selectedIndex = from.selectedIndex;
  });
  to.addEventListener("change", () => {
    if (to.selectedIndex < from.selectedIndex) from.selectedIndex = to.selectedIndex;
  });
  document.querySelector(".filter")?.addEventListener("change", apply);
  apply();
}

/** Places in the order of the melody: each leads to the next. */
function inOrder(items: readonly HTMLElement[]): readonly HTMLElement[] {
  const byId = new Map(items.map((item) => [`#${item.id}`, item]));
  const sorted: HTMLElement[] = [];
  let item = items.find((one) => one.querySelector("[rel=prev]") === null);
  while (item !== undefined) {
    sorted.push(item);
    item = byId.get(item.querySelector("[rel=next]")?.getAttribute("href") ?? "");
  }
  return sorted;
}

function placeOf(item: HTMLElement): Place {
  const named = (element: Element | null, prefix: string): string =>
    [...(element?.classList ?? [])].find((name) => name.startsWith(prefix))?.slice(prefix.length) ?? "";
  const [first, last] = (item.dataset.bars ?? "").split("-").map(Number);
  return {
    item,
    kind: named(item.closest(".group"), "kind-"),
    severity: named(item, "sev-"),
    bars: first === undefined || last === undefined ? null : [first, last],
  };
}

function isChosen({ kind, severity, bars }: Place, from: number, to: number): boolean {
  const isOn = (name: string): boolean => elementOf(`show-${name}`, HTMLInputElement).checked;
  return isOn(kind) && isOn(severity) && (bars === null || (bars[0] <= to && bars[1] >= from));
}

/** Hides what was not chosen, with the boxes that are left empty; steps lead from one shown place to the next. */
function show(places: readonly Place[], shown: ReadonlySet<Place>): void {
  const order = places.filter((place) => shown.has(place));
  const full = new Set(order.flatMap(({ item }) => boxesOf(item)));
  for (const { item } of places) for (const box of boxesOf(item)) box.classList.toggle("filtered", !full.has(box));
  order.forEach(({ item }, i) => {
    step(item.querySelector("[rel=prev]"), order[i - 1]);
    step(item.querySelector("[rel=next]"), order[i + 1]);
  });
}

/** A place with what it stands in. */
const boxesOf = (item: HTMLElement): readonly Element[] => [
  item,
  ...[".more", ".entry", ".group"].flatMap((selector) => item.closest(selector) ?? []),
];

function step(link: HTMLAnchorElement | null, to: Place | undefined): void {
  if (link === null) return;
  link.hidden = to === undefined;
  if (to !== undefined) link.href = `#${to.item.id}`;
}
