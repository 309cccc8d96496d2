// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Sound } from "../src/model/fingering.js";
import type { Spot } from "../src/model/where.js";

/** One place of `huipath where --json`; the schema stands in schema/where.schema.json. */
export interface WhereJson {
  readonly string: number;
  readonly sound: Sound;
  readonly position: number | null;
  /** above the open string, to a thousandth */
  readonly cents: number;
  readonly pitch: string;
}

/** The places as JSON prints them, in the order given. */
export function whereJson(spots: readonly Spot[]): readonly WhereJson[] {
  return spots.map(({ string, sound, position, cents, pitch }) => ({
    string,
    sound,
    position,
    cents: Math.round(cents * 1000) / 1000,
    pitch,
  }));
}
