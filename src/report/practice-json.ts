// SPDX-License-Identifier: AGPL-3.0-or-later
// What a fingering exercises, and a study of one sign, as shapes: the report value is made of them.
import type { Sign } from "../model/sign.js";

/** How often things come on strings 1 to 7. */
export interface PracticeJson {
  readonly strokes: readonly { readonly stroke: string; readonly strings: readonly number[] }[];
  /** hui and tenths; 14 for the open string */
  readonly places: readonly { readonly position: number; readonly strings: readonly number[] }[];
  readonly harmonics: readonly { readonly hui: number; readonly strings: readonly number[] }[];
  readonly pairs: readonly { readonly from: string; readonly to: string; readonly uses: number }[];
  readonly signs: readonly { readonly sign: Sign; readonly uses: number }[];
}

/** A study of one sign. */
export interface StudyJson {
  readonly sign: Sign;
  readonly uses: number;
  readonly strings: readonly { readonly string: number; readonly uses: number }[];
  readonly before: readonly { readonly sign: Sign; readonly uses: number }[];
  readonly after: readonly { readonly sign: Sign; readonly uses: number }[];
  readonly places: readonly { readonly string: number; readonly position: number; readonly uses: number }[];
  readonly lines: readonly {
    readonly notes: readonly { readonly pitch: string; readonly spoken: string }[];
    readonly total: { readonly blocked: number; readonly effort: number };
    readonly brings: {
      readonly strings: readonly number[];
      readonly before: readonly Sign[];
      readonly after: readonly Sign[];
      readonly places: readonly { readonly string: number; readonly position: number }[];
    };
  }[];
  /** places that the lines still leave out */
  readonly left: number;
}
