// SPDX-License-Identifier: AGPL-3.0-or-later
// Which keys lie well. No source ranks them: the counts are computed, here from hand-made tables of this project's study
// of the instrument, made by another program. What they count is published: strings after J. Thompson, silkqin.com,
// 08anal/tuning.htm, hui after Yuguzhai qinpu (1855), section v29.
import { describe, expect, test } from "vitest";
import { rankKeys } from "../../src/model/key-ranking.js";
import { findTuning, STANDARD } from "../../src/model/tuning.js";

/** key, open degrees, of the five, open strings in it, pure degrees, hits of 21, of 42, tonic, degrees between hui */
const STANDARD_KEYS = [
  ["F", "D", 5, 5, 7, 7, 21, 32, "open", ""],
  ["C", "A", 5, 4, 7, 6, 20, 33, "open", "B"],
  ["Bb", "G", 5, 4, 7, 6, 20, 30, "hui", "Eb"],
  ["G", "E", 4, 3, 6, 5, 17, 31, "open", "B F#"],
  ["Eb", "C", 4, 3, 6, 5, 17, 25, "between", "Eb Ab"],
  ["D", "B", 3, 2, 4, 4, 13, 27, "open", "F# B C#"],
  ["Ab", "F", 3, 2, 4, 4, 13, 21, "between", "Ab Db Eb"],
  ["A", "F#", 2, 1, 3, 3, 8, 23, "open", "B C# F# G#"],
  ["Db", "Bb", 2, 1, 3, 3, 8, 19, "between", "Db Eb Gb Ab"],
  ["E", "C#", 1, 0, 1, 2, 4, 20, "hui", "F# G# B C# D#"],
  ["F#", "D#", 1, 0, 1, 2, 4, 17, "between", "F# G# B C# D#"],
  ["B", "G#", 0, 0, 0, 2, 2, 16, "between", "B C# D# F# G#"],
] as const;

describe("standard tuning", () => {
  test.each(STANDARD_KEYS.map((row, i) => [i + 1, ...row] as const))(
    "%i. %s major (%s minor)",
    (rank, major, minor, openDegrees, openCoreDegrees, openStrings, pureDegrees, pureStops, nearStops, tonic, between) => {
      const key = rankKeys(STANDARD)[rank - 1];
      expect(key).toMatchObject({ rank, major, minor, openDegrees, openCoreDegrees, openStrings });
      expect(key).toMatchObject({ pureDegrees, pureStops, nearStops, tonic });
      const sorted = (names: readonly string[]): readonly string[] => [...names].sort();
      const expected = between.split(" ").filter((name) => name !== "");
      expect(sorted(key?.between ?? [])).toEqual(sorted(expected));
    },
  );
});

/** The best keys of each tuning: open degrees / degrees open or on hui 7, 9 or 10. */
const BEST = [
  ["zhengdiao", "F 5/7, C 5/6, Bb 5/6, G 4/5, Eb 4/5"],
  ["ruibin", "Bb 5/7, F 5/6, Eb 5/6, C 4/5, Ab 4/5"],
  ["manjue", "C 5/7, G 5/6, F 5/6, D 4/5, Bb 4/5"],
  ["mangong", "G 5/7, D 5/6, C 5/6, F 4/5, A 4/5"],
  ["yizejun", "Ab 5/7, Eb 5/6, Db 5/6, F# 4/5, Bb 4/5"],
  ["qingshang", "Eb 5/7, Bb 5/6, Ab 5/6, F 4/5, Db 4/5"],
  ["qiliang", "Eb 6/7, Bb 6/7, F 5/6, Ab 5/6, Db 4/5"],
  ["huangzhong", "Bb 5/7, F 5/6, Eb 5/6, C 4/5, Ab 4/5"],
  ["manshang", "F 5/7, C 5/6, Bb 5/6, G 4/5, Eb 4/5"],
  ["yunu", "G 6/7, C 6/7, F 5/6, D 5/6, Bb 4/5"],
  ["qingdiao", "Eb 6/7, Bb 6/7, F 5/6, Ab 5/6, Db 4/5"],
  ["ceshang", "G 6/7, D 5/7, C 5/7, A 5/6, F 4/6"],
  ["wumei", "G 6/7, C 6/7, F 5/6, D 5/6, Bb 4/5"],
] as const;

test.each(BEST)("%s", (tuning, best) => {
  const keys = rankKeys(findTuning(tuning));
  const counts = (n: number): readonly string[] =>
    keys.slice(0, n).map((key) => `${key.major} ${key.openDegrees}/${key.pureDegrees}`);
  for (const one of best.split(", ")) expect(counts(12)).toContain(one);
  // Keys with equal counts may stand in either order, so the sixth may be one that is counted like the fifth.
  const bare = (key: string): string => key.replace(/^.* /, "");
  expect(counts(5).map(bare)).toEqual(best.split(", ").map(bare));
});
