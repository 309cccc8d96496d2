// SPDX-License-Identifier: AGPL-3.0-or-later
// Where in the score something stands, as sentences say it.
import { type Phrase, phrase } from "../words.js";

/** A beat of a bar, by printed labels. @example barAndBeat("3", "2") // "bar 3, beat 2", "第3小节第2拍" */
export function barAndBeat(bar: string, beat: string): Phrase {
  return phrase(`bar ${bar}, beat ${beat}`, `第${bar}小节第${beat}拍`);
}

/** Bars in a row, by printed labels. @example barsFromTo("3", "4") // "bars 3 to 4", "第3至4小节" */
export function barsFromTo(from: string, to: string): Phrase {
  if (from === to) return phrase(`bar ${from}`, `第${from}小节`);
  return phrase(`bars ${from} to ${to}`, `第${from}至${to}小节`);
}
