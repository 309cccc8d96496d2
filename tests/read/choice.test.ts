// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import { documentOf, nameOf, problemOf, quarter, readBar, readFixture, readText } from "./helpers.js";

describe("part", () => {
  test("the first without a wish; the others are told", () => {
    const score = readFixture("two-parts.musicxml");
    expect(score.part).toEqual({ id: "P1", name: "Flute" });
    expect(score.leftOut).toEqual([{ part: "P2 (Qin)", voice: null, notes: 1 }]);
  });

  test.each(["P2", "qin", "2"])("by id, name or number: %s", (part) => {
    expect(readFixture("two-parts.musicxml", { part }).part.id).toBe("P2");
  });

  test("one that does not exist is refused with those that do", () => {
    const problem = problemOf(() => readFixture("two-parts.musicxml", { part: "Violin" }));
    expect(problem.message).toBe(
      'two-parts.musicxml: there is no part "Violin"; the parts with notes are P1 (Flute), P2 (Qin)',
    );
  });

  test("timewise scores are read by part", () => {
    expect(readFixture("timewise.musicxml").notes.map(nameOf)).toEqual(["C4", "D4", "E4"]);
    expect(readFixture("timewise.musicxml", { part: "B" }).notes.map(nameOf)).toEqual(["C3", "G2", "C3"]);
  });
});

describe("voice", () => {
  test("the first that has notes without a wish; the others are told", () => {
    const score = readFixture("two-voices.musicxml");
    expect(score.voice).toBe("1");
    expect(score.notes.map(nameOf)).toEqual(["E4", "F4", "G4", "E4"]);
    expect(score.leftOut).toEqual([{ part: "P1 (Melody)", voice: "2", notes: 3 }]);
  });

  test("another by its name, with its own ids and moments", () => {
    const { notes } = readFixture("two-voices.musicxml", { voice: "2" });
    expect(notes.map((note) => `${nameOf(note)} ${note.id} ${note.onset}`)).toEqual([
      "C3 p1b1n1 0",
      "G3 p1b1n2 3",
      "C3 p1b2n1 6",
    ]);
  });

  test("one that does not exist is refused with those that do", () => {
    const problem = problemOf(() => readFixture("two-voices.musicxml", { voice: "9" }));
    expect(problem.message).toBe('two-voices.musicxml: part P1 (Melody) has no voice "9"; its voices are 1, 2');
  });

  test("a voice name that serves two staves at once is kept apart by staff", () => {
    const score = readBar(
      quarter("C", 5, "<staff>1</staff>") +
        "<backup><duration>1</duration></backup>" +
        quarter("C", 3, "<staff>2</staff>"),
    );
    expect(score.notes.map(nameOf)).toEqual(["C5"]);
    expect(score.leftOut).toEqual([{ part: "P1 (Line)", voice: "1 (staff 2)", notes: 1 }]);
  });
});

describe("bars", () => {
  const ten = (label: (n: number) => string): string =>
    documentOf(
      Array.from({ length: 4 }, (_, i) => `<measure number="${label(i + 1)}">${quarter("C", 4)}</measure>`).join(""),
    );

  test("a span keeps its notes and bars, and moments stay as they are", () => {
    const score = readText(ten(String), { bars: "2-3" });
    expect(score.bars.map(({ label, index }) => `${label} ${index}`)).toEqual(["2 0", "3 1"]);
    expect(score.notes.map(({ bar, onset }) => `${bar} ${onset}`)).toEqual(["0 1", "1 2"]);
  });

  test("by order, and labels with hyphens", () => {
    expect(readText(ten(String), { bars: "#2-#4" }).bars).toHaveLength(3);
    expect(
      readText(
        ten((n) => `A-${n}`),
        { bars: "A-2-A-3" },
      ).bars.map(({ label }) => label),
    ).toEqual(["A-2", "A-3"]);
    expect(
      readText(
        ten((n) => `A-${n}`),
        { bars: "A-2" },
      ).bars,
    ).toHaveLength(1);
  });

  test.each([
    ["9", 'there is no bar "9"; say FROM-TO within 1 to 4, or by order #1 to #4'],
    ["2-9", 'there is no bar "9"; say FROM-TO within 1 to 4, or by order #1 to #4'],
    ["#5", 'there is no bar "#5"; say FROM-TO within 1 to 4, or by order #1 to #4'],
    ["3-2", "bar 3 comes after bar 2; say 2-3"],
  ])("%s is refused", (bars, message) => {
    expect(problemOf(() => readText(ten(String), { bars })).message).toBe(`line.musicxml: ${message}`);
  });

  test("a label that two bars carry is refused with their orders", () => {
    const problem = problemOf(() =>
      readText(
        ten((n) => String(n % 2)),
        { bars: "1" },
      ),
    );
    expect(problem.message).toBe('line.musicxml: two bars carry the label "1"; say #1 or #3, by their order');
  });

  test("only what is unread in the span is told", () => {
    const cue = quarter("G", 4, "", "<cue/>");
    const text = documentOf(
      `<measure number="1"><attributes><divisions>1</divisions></attributes>${quarter("C", 4)}</measure>` +
        `<measure number="2">${quarter("C", 4)}${cue}</measure>`,
    );
    expect(readText(text, { bars: "1" }).unread).toEqual([]);
    expect(readText(text, { bars: "2" }).unread).toEqual([{ bar: "2", what: "a cue note is left out" }]);
  });
});
