// SPDX-License-Identifier: AGPL-3.0-or-later

/** The value of a data block of the page; null where the page has none. The page is written by the same version of huipath. */
export function dataOf<T>(id: string): T | null {
  const block = document.getElementById(id);
  return block === null ? null : (JSON.parse(block.textContent ?? "null") as T);
}

/** The page's own element of a kind. @throws Error where the page has none */
export function elementOf<T extends HTMLElement>(id: string, kind: new () => T): T {
  const element = document.getElementById(id);
  if (!(element instanceof kind)) throw new Error(`no ${kind.name} #${id}`);
  return element;
}

/** A sentence with its names in braces filled in. @example filled("bar {bar}", { bar: "7" }) // "bar 7" */
export function filled(sentence: string, values: Readonly<Record<string, string>>): string {
  return sentence.replace(/\{(\w+)\}/g, (_, name: string) => values[name] ?? "");
}
