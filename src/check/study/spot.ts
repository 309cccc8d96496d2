// SPDX-License-Identifier: AGPL-3.0-or-later
// What studies are made of: places, and the scale that they stay in.
import type { Setting } from "../../model/setting.js";

/** A place on a string: hui and tenths, 14 for the open string, the hui of a harmonic. */
export interface Spot {
  readonly string: number;
  readonly position: number;
}

/** The name of a spot in a map. */
export function spotKey({ string, position }: Spot): string {
  return `${string} ${position}`;
}

/** A setting with the scale that is practised. */
export interface StudySetting extends Setting {
  /** pitch class of its tone 1 */
  readonly scale: number;
}
