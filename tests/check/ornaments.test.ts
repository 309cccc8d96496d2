// SPDX-License-Identifier: AGPL-3.0-or-later
// Ornaments and rare compounds from a written form to the report: kept and shown, without a charge of their own. What they
// are is said by the right-hand term list at yueqixuexi.com (yuan lou, quan fu); the ornaments are common practice, no source.
import { describe, expect, test } from "vitest";
import { ORNAMENTS } from "../../src/model/fingering.js";
import { judge } from "../../src/run/judge.js";
import { settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const report = (melody: string, fingering: readonly string[]) =>
  judge(shortScore(melody, fingering), settingOf(), "0.0.0").json;
const unread = (json: ReturnType<typeof report>) =>
  json.findings.filter(({ rule }) => rule === "unread-fingering").map(({ message }) => String(message));

describe("an ornament", () => {
  test.each(ORNAMENTS)("%s is shown and changes nothing", (ornament) => {
    const plain = report("C3 D3", ["ming 10 gou 4", "da 9 tiao 4"]);
    const adorned = report("C3 D3", [`ming 10 gou 4 ${ornament}`, "da 9 tiao 4"]);
    expect(adorned.fingering.notes[0]?.spoken).toBe(`ming 10 gou 4 ${ornament}`);
    expect(adorned.fingering.notes[0]?.given).toContain("ornament");
    expect(adorned.fingering.total).toEqual(plain.fingering.total);
    expect(unread(adorned)).toEqual([]);
  });

  test("alone is no fingering, and stays with its note wherever that is stopped", () => {
    const { fingering } = report("F#3", ["nao"]);
    expect(fingering.source).toBe("searched");
    expect(fingering.notes[0]?.spoken).toMatch(/ nao$/);
  });

  test("is not said of an open string", () => {
    expect(report("C2", ["yin"]).fingering.notes[0]?.spoken).toMatch(/^san \w+ 1$/);
  });
});

describe("yuan lou", () => {
  test("is played where the score asks for it", () => {
    const { notes } = report("F2+G2", ["san yuan lou 3 4", "-"]).fingering;
    expect(notes.map(({ compound, stroke, string }) => [compound, stroke, string])).toEqual([
      ["yuan-lou", "gou", 3],
      ["yuan-lou", "mo", 4],
    ]);
  });

  test("is read back from its two strokes", () => {
    const { notes } = report("F2+G2", ["san gou 3", "san mo 4"]).fingering;
    expect(notes.map(({ compound }) => compound)).toEqual(["yuan-lou", "yuan-lou"]);
  });

  test.each([
    ["-", "-"],
    ["san gou 3", "-"],
    ["san cuo 3 4", "-"],
  ])("is not chosen for %s and %s", (low, high) => {
    expect(report("F2+G2", [low, high]).fingering.notes.map(({ compound }) => compound)).not.toContain("yuan-lou");
  });
});

test("quan fu goes over two strings with four attacks", () => {
  const { notes } = report("D2", ["san quan fu 1 2"]).fingering;
  expect(notes[0]).toMatchObject({ compound: "quan-fu", stroke: "mo", string: 2, spoken: "san quan fu 1 2" });
});

test("wang lai slides there and back twice", () => {
  const json = report("C3:2 D3:1/2 C3:1/2 D3:1/2 C3", ["ming 10 gou 4 wang lai 9"]);
  expect(json.fingering.notes.map(({ arrival }) => arrival)).toEqual(["plucked", "slid", "slid", "slid", "slid"]);
  expect(unread(json)).toEqual([]);
});

test("a technique that is not judged is named with what was read", () => {
  expect(unread(report("C3 D3 C3", ["xu yan 10", "-", "? jian gou 3 4"]))).toEqual([
    '"xu yan 10" asks for xu yan, a tap of the thumb that sounds without a pluck before it. Nothing here judges such a sound, so the note was taken as a plucked one, and "da 10" was read.',
    '"jian gou 3 4" asks for jian gou, index and middle finger by turns on two or three strings. The handbooks differ on its notes, so it was not judged: write each note\'s own stroke and string.',
  ]);
});
