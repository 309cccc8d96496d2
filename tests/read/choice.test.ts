// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import { namedFor } from "../../src/read/part-names.js";
import type { ReadOptions } from "../../src/read/score.js";
import { choiceReason, lineSentences } from "../../src/report/line-words.js";
import { documentOf, nameOf, problemOf, quarter, readBar, readFixture, readText } from "./helpers.js";

/** The line that was chosen and what spoke for it. */
function chosenIn(name: string, options: ReadOptions = {}): readonly [part: string, voice: string | null, why: string] {
  const score = readFixture(name, options);
  return [score.part.name ?? score.part.id, score.voice, score.choice === null ? "-" : choiceReason(score.choice).en];
}

/** Two parts of one bar of quarter notes. */
function partsOf(...parts: readonly { readonly head: string; readonly notes: string }[]): string {
  const list = parts.map(({ head }, i) => `<score-part id="P${i + 1}">${head}</score-part>`).join("");
  const music = parts.map(({ notes }, i) => `<part id="P${i + 1}"><measure number="1">${notes}</measure></part>`);
  return `<score-partwise><part-list>${list}</part-list>${music.join("")}</score-partwise>`;
}

const named = (name: string, abbreviation = ""): string =>
  `<part-name>${name}</part-name>${abbreviation === "" ? "" : `<part-abbreviation>${abbreviation}</part-abbreviation>`}`;

describe("the line that looks like the melody", () => {
  // What an arranger would take: our judgement of our own fixtures, no source.
  test.each([
    [
      "piano-and-voice.musicxml",
      "Gesang",
      "1",
      "it carries the words, is named as a voice or melody and has mostly one note at a time",
    ],
    ["string-quartet.musicxml", "Violin I", "1", "it lies highest"],
    [
      "lead-sheet-with-drums.musicxml",
      "Lead",
      "1",
      "it is named as a voice or melody, has mostly one note at a time and is for an instrument that plays melodies",
    ],
    ["four-part-choir.musicxml", "Women", "1", "it lies highest and has its stems up"],
    ["two-parts.musicxml", "Qin", "1", "it is named for the guqin"],
    ["two-voices.musicxml", "Melody", "1", "it lies highest and moves in smaller steps"],
    ["timewise.musicxml", "Upper", "1", "it lies highest and moves in smaller steps"],
  ])("%s: %s, voice %s, since %s", (name, part, voice, why) => {
    expect(chosenIn(name)).toEqual([part, voice, why]);
  });

  test("a first part without notes is passed over", () => {
    expect(chosenIn("first-part-silent.musicxml")).toEqual(["Qin", "1", "-"]);
  });

  test("a pitch that is none stands in the way of its own line alone", () => {
    const good = { head: named("Part"), notes: quarter("C", 4) };
    const bad = { head: named("Part"), notes: quarter("H", 4) };
    expect(readText(partsOf(good, bad)).part.id).toBe("P1");
    expect(problemOf(() => readText(partsOf(bad, bad))).code).toBe("bad-pitch");
  });

  test("a score of one line has nothing to choose", () => {
    expect(readFixture("ties.musicxml").choice).toBeNull();
  });

  test("of lines that nothing sets apart the first is taken", () => {
    const part = { head: named("Part"), notes: quarter("C", 4) + quarter("D", 4) };
    const { part: chosen, choice } = readText(partsOf(part, part));
    expect([chosen.id, choice?.because]).toEqual(["P1", []]);
  });

  test("a fingering decides, wherever it stands", () => {
    const high = { head: named("Voice"), notes: quarter("C", 5, "<lyric><text>oh</text></lyric>") };
    const marks = "<notations><technical><pluck>gou</pluck></technical></notations>";
    const low = { head: named("Bass"), notes: quarter("C", 3, marks) };
    const lyric = { head: named("Bass"), notes: quarter("C", 3, "<lyric><text>san gou 1</text></lyric>") };
    const guitar = "<notations><technical><pluck>p</pluck><fingering>1</fingering></technical></notations>";
    const plucked = { head: named("Bass"), notes: quarter("C", 3, guitar) };
    expect(readText(partsOf(high, low)).choice?.because).toEqual(["fingering"]);
    expect(readText(partsOf(high, lyric)).part.id).toBe("P2");
    expect(readText(partsOf(high, plucked)).part.id).toBe("P1");
  });

  test("no line that is only played back, stands beside the score, or repeats it as tablature", () => {
    const staff = (sign: string, notes: string, details = ""): string =>
      `<attributes>${details}<clef><sign>${sign}</sign></clef></attributes>${notes}`;
    const notes = quarter("C", 5) + quarter("D", 5);
    const high = notes.replaceAll("<octave>5", "<octave>6");
    const shown = { head: named("A"), notes: staff("G", notes) };
    for (const first of [
      { head: named("A"), notes: high.replaceAll("<note>", '<note print-object="no">') },
      { head: named("A"), notes: staff("TAB", high) },
      { head: named("A"), notes: staff("percussion", high) },
      { head: named("A"), notes: staff("G", high, "<staff-details><staff-type>ossia</staff-type></staff-details>") },
    ])
      expect(readText(partsOf(first, shown)).part.id).toBe("P2");
  });

  test("a line of chords is said to be one", () => {
    expect(readFixture("piano-and-voice.musicxml", { part: "1" }).choice).toMatchObject({
      highest: true,
      chords: true,
    });
    expect(readFixture("piano-and-voice.musicxml").choice?.chords).toBe(false);
    expect(lineSentences(readFixture("piano-and-voice.musicxml", { part: "1" }))[1]?.en).toMatch(/^It has chords: /);
  });

  test("a line that goes on in another voice is told", () => {
    const { voice, unread } = readFixture("two-staves-in-turn.musicxml");
    expect(voice).toBe("1");
    expect(String(unread[0]?.what)).toMatch(
      /^voice 5 sounds only where voice 1 rests, so that one line may be written over both/,
    );
    expect(readFixture("two-voices.musicxml").unread).toEqual([]);
  });
});

describe("what a part is named for", () => {
  test.each(["Voice", "Vocals 1", "Gesang", "Voix", "Mélodie", "Canto", "主旋律", "独唱", "メロディ", "Голос"])(
    "%s is a melody",
    (name) => expect(namedFor([name])).toMatchObject({ melody: true, guqin: false }),
  );
  test.each(["Guqin", "古琴", "Qin 2", "gu-qin", "琴", "pluck.guqin"])("%s is the guqin", (name) =>
    expect(namedFor([name]).guqin).toBe(true),
  );
  test.each(["Yangqin", "Yang Qin", "钢琴", "小提琴", "Liuqin"])("%s is another instrument", (name) =>
    expect(namedFor([name]).guqin).toBe(false),
  );
  test.each(["Bass", "Double-Bass", "Begleitung", "伴奏", "Drums"])("%s is an accompaniment", (name) =>
    expect(namedFor([name]).accompaniment).toBe(true),
  );
});

describe("part", () => {
  test("the others are told with what takes them", () => {
    const score = readFixture("piano-and-voice.musicxml");
    expect(score.leftOut).toEqual([
      { part: "P1 (Klavier)", voice: "1", notes: 9, take: "--part P1 --voice 1" },
      { part: "P1 (Klavier)", voice: "5", notes: 7, take: "--part P1 --voice 5" },
    ]);
    expect(lineSentences(score).map(({ en }) => en)).toEqual([
      "Read: P2 (Gesang), voice 1, of 3 lines: it carries the words, is named as a voice or melody and has mostly one note at a time.",
      "Others: P1 (Klavier), voice 1 (--part P1 --voice 1); P1 (Klavier), voice 5 (--part P1 --voice 5).",
    ]);
  });

  test.each(["P2", "p2", "gesang", "GESÄNG", "Ges.", "2", "ges"])(
    "by id, name, abbreviation, number or beginning: %s",
    (part) => {
      expect(readFixture("piano-and-voice.musicxml", { part }).part.id).toBe("P2");
    },
  );

  test("a name counts before a number", () => {
    const text = partsOf({ head: named("2"), notes: quarter("C", 4) }, { head: named("1"), notes: quarter("D", 4) });
    expect(readText(text, { part: "2" }).part.id).toBe("P1");
  });

  test("one that does not exist is refused with those that do", () => {
    const problem = problemOf(() => readFixture("two-parts.musicxml", { part: "Horn" }));
    expect(problem.message).toBe(
      'two-parts.musicxml: there is no part "Horn"; the parts with notes are P1 (Flute), P2 (Qin)',
    );
  });

  test("a name that several parts answer to is refused with all of them", () => {
    const problem = problemOf(() => readFixture("string-quartet.musicxml", { part: "violin" }));
    expect(problem.message).toBe(
      'string-quartet.musicxml: 2 parts answer to "violin"; say the id or the number of one: P1 (Violin I) is 1, P2 (Violin II) is 2',
    );
    expect(readFixture("string-quartet.musicxml", { part: "violin ii" }).part.id).toBe("P2");
  });

  test("one without notes is refused", () => {
    const problem = problemOf(() => readFixture("first-part-silent.musicxml", { part: "Voice" }));
    expect(problem.message).toMatch(/the part "Voice" holds no notes; choose one with --part: P2 \(Qin\)/);
  });

  test("what takes another line takes it", () => {
    for (const name of [
      "piano-and-voice.musicxml",
      "four-part-choir.musicxml",
      "two-voices.musicxml",
      "lead-sheet-with-drums.musicxml",
    ])
      for (const { part, voice, notes, take } of readFixture(name).leftOut) {
        const [, id] = /--part (\S+)/.exec(take) ?? [];
        const [, wish] = /--voice (\S+)/.exec(take) ?? [];
        const read = readFixture(name, { ...(id && { part: id }), ...(wish && { voice: wish }) });
        expect(`${read.part.id} (${read.part.name})`).toBe(part);
        expect(read.voice).toBe(voice ?? "1");
        expect(read.choice).toBeNull();
        expect(read.leftOut.reduce((sum, one) => sum + one.notes, notes)).toBeGreaterThan(notes);
      }
  });

  test("an id that no shell takes is given by its number", () => {
    const text = partsOf({ head: named("Voice"), notes: quarter("C", 5) }, { head: "", notes: quarter("C", 3) });
    expect(readText(text.replaceAll("P2", "$(x)")).leftOut[0]?.take).toBe("--part 2");
  });

  test("timewise scores are read by part", () => {
    expect(readFixture("timewise.musicxml").notes.map(nameOf)).toEqual(["C4", "D4", "E4"]);
    expect(readFixture("timewise.musicxml", { part: "B" }).notes.map(nameOf)).toEqual(["C3", "G2", "C3"]);
  });
});

describe("voice", () => {
  test("the others are told", () => {
    const score = readFixture("two-voices.musicxml");
    expect(score.notes.map(nameOf)).toEqual(["E4", "F4", "G4", "E4"]);
    expect(score.leftOut).toEqual([{ part: "P1 (Melody)", voice: "2", notes: 3, take: "--voice 2" }]);
  });

  test("another by its name, with its own ids and moments", () => {
    const { notes } = readFixture("two-voices.musicxml", { voice: "2" });
    expect(notes.map((note) => `${nameOf(note)} ${note.id} ${note.onset}`)).toEqual([
      "C3 p1b1n1 0",
      "G3 p1b1n2 3",
      "C3 p1b2n1 6",
    ]);
  });

  test.each([
    ["5", "5"],
    ["2", "5"],
    ["staff 2", "5"],
    ["5 (staff 2)", "5"],
    ["Staff 1", "1"],
  ])("by name, order or staff: %s is voice %s", (wish, voice) => {
    expect(readFixture("piano-and-voice.musicxml", { part: "Klavier", voice: wish }).voice).toBe(voice);
  });

  test("one that does not exist is refused with those that do", () => {
    const problem = problemOf(() => readFixture("two-voices.musicxml", { voice: "9" }));
    expect(problem.message).toBe('two-voices.musicxml: part P1 (Melody) has no voice "9"; its voices are 1, 2');
  });

  test("without a part it is one of the part that looks like the melody's", () => {
    const problem = problemOf(() => readFixture("piano-and-voice.musicxml", { voice: "5" }));
    expect(problem.message).toMatch(/part P2 \(Gesang\) has no voice "5"; its voices are 1; for one of another part/);
  });

  test("a voice name that serves two staves at once is kept apart by staff", () => {
    const score = readBar(
      quarter("C", 5, "<staff>1</staff>") +
        "<backup><duration>1</duration></backup>" +
        quarter("C", 3, "<staff>2</staff>"),
    );
    expect(score.notes.map(nameOf)).toEqual(["C5"]);
    expect(score.leftOut).toEqual([
      { part: "P1 (Line)", voice: "1 (staff 2)", notes: 1, take: '--voice "1 (staff 2)"' },
    ]);
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
