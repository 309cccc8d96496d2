// SPDX-License-Identifier: AGPL-3.0-or-later
// The piece's title and its maker, from the header or, where an editor leaves that empty, from what the page prints.
import { child, children, childText, type XmlElement } from "./xml.js";

/** The work's title, else the movement's, else the one that is printed on the first page. */
export function titleOf(root: XmlElement): string | null {
  const work = child(root, "work");
  const title = (work === null ? null : childText(work, "work-title")) ?? childText(root, "movement-title");
  return oneLine(title ?? printedTitle(root));
}

/** The composer, else whoever is named first, else the composer that is printed. */
export function creatorOf(root: XmlElement): string | null {
  const identification = child(root, "identification");
  const creators = identification === null ? [] : children(identification, "creator");
  const chosen = creators.find((creator) => creator.getAttribute("type") === "composer") ?? creators[0];
  return oneLine(chosen?.textContent.trim() || wordsOf(creditOf(root, "composer")));
}

/** The credit that is called the title; where no credit is called anything, the largest on the first page. */
function printedTitle(root: XmlElement): string | null {
  const named = wordsOf(creditOf(root, "title"));
  const credits = children(root, "credit");
  if (named !== null || credits.some((credit) => child(credit, "credit-type") !== null)) return named;
  const largest = credits.filter((credit) => (credit.getAttribute("page") ?? "1") === "1").sort(bySize)[0];
  return largest !== undefined && sizeOf(largest) > 0 ? wordsOf(largest) : null;
}

function creditOf(root: XmlElement, type: string): XmlElement | undefined {
  const isCalled = (credit: XmlElement): boolean =>
    children(credit, "credit-type").some((one) => one.textContent.trim().toLowerCase() === type);
  return children(root, "credit").find(isCalled);
}

function bySize(a: XmlElement, b: XmlElement): number {
  return sizeOf(b) - sizeOf(a);
}

/** The size of a credit's letters in points; 0 where it says none, so that nothing is guessed. */
function sizeOf(credit: XmlElement): number {
  return Number(child(credit, "credit-words")?.getAttribute("font-size") ?? 0) || 0;
}

function wordsOf(credit: XmlElement | undefined): string | null {
  const words = credit === undefined ? [] : children(credit, "credit-words");
  return (
    words
      .map((one) => one.textContent)
      .join(" ")
      .trim() || null
  );
}

function oneLine(text: string | null): string | null {
  return text?.replace(/\s+/gu, " ") ?? null;
}
