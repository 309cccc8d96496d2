// SPDX-License-Identifier: AGPL-3.0-or-later
// Pins that cannot be played together are named, the fewest of them, with bar, beat and line.
import { expect, test } from "vitest";
import { NO_BRIEF, type Pin } from "../../src/model/brief.js";
import { type GivenFingering, NOTHING_GIVEN } from "../../src/model/fingering.js";
import { searchLine } from "../../src/run/judge.js";
import { settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const score = shortScore("F3 G3 A3 G3", [], 90);

const pin = (note: number, given: Partial<GivenFingering>): Pin => ({
  note: score.notes[note - 1]?.id ?? "",
  given: { ...NOTHING_GIVEN, ...given },
  place: `brief.yaml, line ${note + 1}`,
  text: `- pin ${note}`,
});

const searched = (...pins: readonly Pin[]) => searchLine(score, settingOf(), { ...NO_BRIEF, pins });

test("two pins that each can be played, but not together", () => {
  const from = pin(2, { string: 5 });
  const to = pin(3, { string: 7, arrival: "slid" });
  expect(searched(from).played.lefts[1]?.strings.outer).toBe(5);
  expect(searched(to).played.lefts[2]?.arrival).toBe("slid");
  expect(() => searched(pin(1, { string: 6 }), from, to, pin(4, { stroke: "gou" }))).toThrow(
    'brief.yaml, line 3: these pins cannot be played together: bar 1, beat 2 (line 3: "- pin 2") and bar 1, beat 3 (line 4: "- pin 3"); change one of them or leave it out',
  );
});

test("a pin that cannot be played by itself is named alone", () => {
  expect(() => searched(pin(1, { string: 6 }), pin(3, { string: 1, position: 3 }))).toThrow(/line 4.*cannot sound A3/);
});
