// SPDX-License-Identifier: AGPL-3.0-or-later
// Which holds the search proposes by itself (common practice, no source).
import { expect, test } from "vitest";
import fingerAndPlace from "../rules/efficiency/finger-and-place.js";
import { placementsOf } from "../src/candidates/placements.js";
import { momentsOf } from "../src/model/moments.js";
import type { Placed } from "../src/model/playing.js";
import { settingOf } from "./support/playing.js";
import { shortScore } from "./support/shorthand.js";

const setting = settingOf();
const rule = fingerAndPlace.make(setting);

/** Holds of a note on a string, as "finger contact". */
function proposed(pitch: string, string: number, withheld: (placed: Placed) => boolean): readonly string[] {
  const [moment] = momentsOf(shortScore(pitch), setting);
  const note = moment?.notes[0];
  if (note === undefined) throw new Error(`no note ${pitch}`);
  return placementsOf(note, 0, setting, withheld)
    .filter((placed) => placed.string === string && placed.sound === "stopped")
    .map(({ finger, contact }) => `${finger} ${contact}`);
}

test.each([
  ["A2", 4, "at 13.1", ["thumb tip", "middle tip", "ring tip", "ring joint"]],
  ["D3", 4, "at 9", ["thumb tip", "thumb joint", "middle tip", "ring tip", "ring joint"]],
  ["A3", 4, "at 6.4", ["thumb tip", "thumb joint", "middle tip", "ring tip", "ring kneeling"]],
  ["D4", 4, "at 5", ["thumb tip", "thumb joint", "middle tip", "ring tip", "ring kneeling"]],
  ["E4", 4, "at 4.6", ["thumb tip", "thumb joint", "middle tip", "ring kneeling"]],
  ["A4", 4, "at 3.4", ["thumb tip", "thumb joint", "ring kneeling"]],
] as const)("%s on string %i, %s", (pitch, string, _place, holds) => {
  if (rule.reach !== "place" || rule.withholds === undefined) throw new Error("it withholds nothing");
  expect(proposed(pitch, string, rule.withholds)).toEqual(holds);
});
