// SPDX-License-Identifier: AGPL-3.0-or-later
// The fewest pins that cannot stand together, against trying all sets.
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { smallestContradiction } from "../../src/check/contradiction.js";
import type { Pin } from "../../src/model/brief.js";
import { NOTHING_GIVEN } from "../../src/model/fingering.js";

const pinsOf = (count: number): readonly Pin[] =>
  Array.from({ length: count }, (_, i) => ({ note: `n${i}`, given: NOTHING_GIVEN, place: `line ${i}`, text: "" }));

test("of several sets that cannot stand, a smallest is found", () => {
  const conflicts = fc.array(fc.uniqueArray(fc.nat(5), { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 3 });
  fc.assert(
    fc.property(conflicts, (sets) => {
      const pins = pinsOf(6);
      const fails = (some: readonly Pin[]): boolean =>
        sets.some((set) => set.every((i) => some.includes(pins[i] as Pin)));
      const found = smallestContradiction(pins, fails);
      expect(fails(found)).toBe(true);
      expect(found.length).toBe(Math.min(...sets.map((set) => set.length)));
      expect(found.map(({ note }) => note)).toEqual([...found.map(({ note }) => note)].sort());
    }),
    { numRuns: 300, seed: 31 },
  );
});
