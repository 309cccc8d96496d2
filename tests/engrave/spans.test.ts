// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import { drawSpans, spansOf } from "../../src/engrave/spans.js";
import type { NoteJson } from "../../src/report.js";
import { sampleReport } from "../reports/sample.js";

const [sample] = sampleReport().json.fingering.notes as [NoteJson];
const notes = (...wishes: readonly Partial<NoteJson>[]): readonly NoteJson[] =>
  wishes.map((wish, i) => ({
    ...sample,
    sound: "stopped",
    arrival: "plucked",
    planted: null,
    ...wish,
    id: `n${i + 1}`,
  }));

describe("what holds over several notes", () => {
  test("harmonics in a row are one phrase; a single one is none", () => {
    const line = notes({ sound: "harmonic" }, {}, { sound: "harmonic" }, { sound: "harmonic" }, { sound: "open" });
    expect(spansOf(line).map(({ kind, notes: ids }) => [kind, ids])).toEqual([["harmonics", ["n3", "n4"]]]);
  });

  test("a finger waits as long as it stays on one string", () => {
    const line = notes({ planted: 4 }, { planted: 4 }, { planted: 3 }, { planted: 3 }, {}, { planted: 3 });
    expect(spansOf(line).map(({ notes: ids, string }) => [ids, string])).toEqual([
      [["n1", "n2"], 4],
      [["n3", "n4"], 3],
    ]);
  });

  test("slides begin at the note that they leave, and turn into another where they turn back", () => {
    const line = notes(
      { position: 10 },
      { position: 9, arrival: "slid" },
      { position: 7.9, arrival: "slid" },
      { position: 9, arrival: "slid" },
    );
    expect(spansOf(line).map(({ notes: ids, up }) => [ids, up])).toEqual([
      [["n1", "n2", "n3"], true],
      [["n3", "n4"], false],
    ]);
  });
});

describe("the drawing", () => {
  const spans = spansOf(notes({ planted: 4 }, { planted: 4, sound: "harmonic" }, { planted: 4, sound: "harmonic" }));
  const all = new Map([
    ["n1", 1000],
    ["n2", 2000],
    ["n3", 3000],
  ]);

  test("has one row for each kind", () => {
    const { elements, height } = drawSpans(spans, all, 100);
    expect(elements.map(({ attributes }) => attributes.class)).toEqual(["span harmonics", "span planted"]);
    expect(height).toBe(2 * drawSpans(spans.slice(0, 1), all, 100).height);
    expect(drawSpans([], all, 100)).toEqual({ elements: [], height: 0 });
  });

  test("goes on beyond the first and last note of a line of music, without their marks", () => {
    const [whole] = drawSpans(spans.slice(1), all, 0).elements;
    const [cut] = drawSpans(spans.slice(1), new Map([["n2", 500]]), 0).elements;
    expect(whole?.children).toHaveLength(3);
    expect(cut?.children).toHaveLength(1);
    expect(JSON.stringify(cut)).toContain("M240 115H760");
  });
});
