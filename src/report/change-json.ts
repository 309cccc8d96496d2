// SPDX-License-Identifier: AGPL-3.0-or-later
// What two fingerings differ in, as a shape: the page's values are made of it.
import type { Said } from "../words.js";

/** One cost minus another; both parts may be negative. Effort in spare moves, thousandths as a decimal. */
export interface DifferenceJson {
  readonly blocked: number;
  readonly effort: number;
}

/** What one rule charges less, or more, and at which notes. */
export interface ShareJson {
  readonly rule: string;
  readonly notes: readonly string[];
  readonly difference: DifferenceJson;
}

/** Notes in a row that are played another way, with what follows from them in the notes after. */
export interface ChangeJson {
  readonly fromBar: string;
  readonly fromBeat: string;
  readonly toBar: string;
  readonly toBeat: string;
  /** ids of the notes whose readings differ; none where only a waiting finger or the setting differs */
  readonly notes: readonly string[];
  readonly difference: DifferenceJson;
  readonly saves: readonly ShareJson[];
  readonly costs: readonly ShareJson[];
  /** where the notes lie that are played another way: "Bar 2, beats 1 to 3" */
  readonly place: Said;
  /** what is played instead, and what that saves and costs; ends with a full stop */
  readonly rest: Said;
  /** the place, a colon and the rest */
  readonly sentence: Said;
}
