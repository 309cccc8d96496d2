// SPDX-License-Identifier: AGPL-3.0-or-later
// How long bars are where the melody's part does not fill them: bars begin together in all parts.
import { type Quarters, quarters } from "../model/time.js";
import { InputProblem } from "../problem.js";
import type { MusicDocument, PartElements } from "./document.js";
import { UnreadList } from "./unread.js";
import { type WalkedPart, walkPart } from "./walk.js";

/**
 * The reaches of a part's bars, each at least as long as the longest of the other parts. An editor may leave out the rests
 * of a part, and a piece may begin with an upbeat in which this part is silent.
 *
 * @param wanted whether a bar may be longer than it reaches in this part
 */
export function alignedLengths(
  document: MusicDocument,
  part: PartElements,
  { lengths }: WalkedPart,
  wanted: (bar: number) => boolean,
  file: string,
): readonly Quarters[] {
  if (!lengths.some((_, bar) => wanted(bar))) return lengths;
  const aligned = [...lengths];
  for (const other of document.parts.filter((one) => one !== part))
    for (const [bar, length] of lengthsOf(other, file).slice(0, aligned.length).entries())
      if (wanted(bar) && length.sub(aligned[bar] as Quarters).compare(ROUNDING) > 0) aligned[bar] = length;
  return aligned;
}

/** Differences up to a 64th note come from tuplets in whole divisions. */
const ROUNDING = quarters(1, 16);

/** A part that cannot be read is none of the melody's business. */
function lengthsOf(part: PartElements, file: string): readonly Quarters[] {
  try {
    return walkPart(part, file, new UnreadList()).lengths;
  } catch (error) {
    if (error instanceof InputProblem) return [];
    throw error;
  }
}
