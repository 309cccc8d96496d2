// SPDX-License-Identifier: AGPL-3.0-or-later
import { closest, distance } from "fastest-levenshtein";

/**
 * "did you mean X? " for a word that was probably mistyped; empty where no known word is near.
 *
 * @example didYouMean("zhengdia", ["zhengdiao", "ruibin"]) // "did you mean zhengdiao? "
 */
export function didYouMean(
  word: string,
  known: readonly string[],
  name: (found: string) => string = (found) => found,
): string {
  if (known.length === 0) return "";
  const found = closest(word, [...known]);
  return distance(word, found) <= Math.max(2, Math.floor(found.length / 2)) ? `did you mean ${name(found)}? ` : "";
}
