// SPDX-License-Identifier: AGPL-3.0-or-later
// Bars, their meter, key, length and repeats; tempo.
import { describe, expect, test } from "vitest";
import { documentOf, quarter, readBar, readFixture, readText } from "./helpers.js";

describe("bars", () => {
  test("repeat signs and endings are kept and not followed", () => {
    const { bars, notes, unread } = readFixture("repeats.musicxml");
    expect(bars.map(({ repeatStart, repeatTimes, endings }) => ({ repeatStart, repeatTimes, endings }))).toEqual([
      { repeatStart: true, repeatTimes: null, endings: [] },
      { repeatStart: false, repeatTimes: 3, endings: [1, 2] },
      { repeatStart: false, repeatTimes: null, endings: [3] },
      { repeatStart: false, repeatTimes: null, endings: [] },
    ]);
    expect(notes).toHaveLength(4);
    expect(unread).toEqual([
      {
        bar: "2",
        what: '3 repeats or jumps are not followed: the music is read once, as printed, in bars 2 and 3 ("ending 1, 2", "repeat sign", "ending 3")',
      },
    ]);
  });

  test("jumps in words, in barlines and in sounds are told once each; a sound that says no is none", () => {
    const words = (text: string): string =>
      `<direction><direction-type><words>${text}</words></direction-type></direction>`;
    const told = (music: string) => readBar(music + quarter("C", 4)).unread.map(({ what }) => what);
    const once = (name: string): string =>
      `a repeat or jump is not followed: the music is read once, as printed ("${name}")`;
    for (const text of ["D.C. al Fine", "D. S.", "Da Capo", "To Coda", "Fine"])
      expect(told(words(text))).toEqual([once(text)]);
    expect(told(words("a fine evening"))).toEqual([]);
    expect(told('<sound dacapo="no"/>')).toEqual([]);
    expect(told('<barline location="left"><segno/></barline><sound segno="segno"/>')).toEqual([once("segno")]);
  });

  test("a jump alone is told as well", () => {
    const jump = '<direction><direction-type><words>D.C.</words></direction-type><sound dacapo="yes"/></direction>';
    expect(readBar(jump + quarter("C", 4)).unread[0]?.what).toMatch(/da capo/);
  });

  test.each([
    ["<time><beats>3+2</beats><beat-type>8</beat-type></time>", { beats: 5, beatType: 8 }],
    [
      "<time><beats>2</beats><beat-type>4</beat-type><beats>3</beats><beat-type>8</beat-type></time>",
      { beats: 7, beatType: 8 },
    ],
    ["<time><senza-misura/></time>", null],
  ])("meter %s", (time, meter) => {
    expect(readBar(`<attributes>${time}</attributes>${quarter("C", 4)}`).bars[0]?.meter).toEqual(meter);
  });

  test("key and mode; a key of single accidentals is told", () => {
    expect(readFixture("transposing.musicxml").bars[0]?.key).toEqual({ fifths: 2, mode: "major" });
    const odd = "<attributes><key><key-step>C</key-step><key-alter>1</key-alter></key></attributes>";
    const score = readBar(odd + quarter("C", 4));
    expect(score.bars[0]?.key).toEqual({ fifths: 0, mode: null });
    expect(score.unread[0]?.what).toMatch(/key signature/);
  });

  test("a bar that the part does not fill lasts as long as in the other parts", () => {
    const head = "<divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time>";
    const bar = (notes: number, number: number): string =>
      `<measure number="${number}"><attributes>${number === 0 ? head : ""}</attributes>${quarter("C", 4).repeat(notes)}</measure>`;
    const other = (counts: readonly number[]): string => `<part id="P2">${counts.map(bar).join("")}</part>`;
    const onsets = (ours: readonly number[], theirs: readonly number[]) =>
      readText(documentOf(ours.map(bar).join("")).replace("</score-partwise>", `${other(theirs)}</score-partwise>`), {
        part: "P1",
      }).bars.map(({ onset, firstBeat }) => `${onset} from ${firstBeat}`);
    expect(onsets([1, 4], [4, 4])).toEqual(["0 from 1", "4 from 1"]);
    expect(onsets([0, 4], [1, 4])).toEqual(["0 from 4", "1 from 1"]);
    expect(onsets([1, 4], [1, 4])).toEqual(["0 from 4", "1 from 1"]);
    expect(onsets([2, 2, 4], [4])).toEqual(["0 from 1", "4 from 1", "6 from 1"]);
  });

  test("a whole note's rest for a whole bar does not lengthen it", () => {
    const head =
      "<attributes><divisions>1</divisions><time><beats>3</beats><beat-type>4</beat-type></time></attributes>";
    const rest = '<note><rest measure="yes"/><duration>4</duration><voice>1</voice></note>';
    const { bars } = readText(
      documentOf(`<measure>${head}${rest}</measure><measure>${quarter("C", 4).repeat(3)}</measure>`),
    );
    expect(bars.map(({ length }) => String(length))).toEqual(["3", "3"]);
  });

  test("a key within a bar holds from the next, which is told; at the end of a bar that is plain", () => {
    const key = "<attributes><key><fifths>2</fifths></key></attributes>";
    const read = (first: string) =>
      readText(
        documentOf(
          `<measure><attributes><divisions>1</divisions></attributes>${first}</measure><measure>${quarter("C", 4)}</measure>`,
        ),
      );
    const within = read(quarter("C", 4) + key + quarter("C", 4));
    expect(within.bars.map((bar) => bar.key.fifths)).toEqual([0, 2]);
    expect(within.unread.map(({ what }) => what)).toEqual([
      "a key or time signature within a bar is read from the next bar on",
    ]);
    expect(read(quarter("C", 4) + quarter("C", 4) + key).unread).toEqual([]);
  });

  test("bars without numbers are named by their order, and empty ones last as long as their meter", () => {
    const head =
      "<attributes><divisions>1</divisions><time><beats>3</beats><beat-type>4</beat-type></time></attributes>";
    const three = quarter("C", 4).repeat(3);
    const { bars } = readText(documentOf(`<measure>${head}${three}</measure><measure/><measure>${three}</measure>`));
    expect(bars.map(({ label, onset }) => `${label} ${onset}`)).toEqual(["1 0", "2 3", "3 6"]);
  });
});

describe("tempo", () => {
  test("the played tempo counts over the printed; dotted units; free sound elements", () => {
    const { tempos } = readFixture("tempos.musicxml");
    expect(tempos.map(({ onset, quartersPerMinute }) => [onset.valueOf(), quartersPerMinute])).toEqual([
      [0, 90],
      [3, 70],
      [4.5, 50],
    ]);
  });

  test("a part without a tempo takes that of another part", () => {
    const { tempos } = readFixture("two-parts.musicxml", { part: "Qin" });
    expect(tempos.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual([80]);
  });

  test("beats that are tied count together", () => {
    const beat =
      "<beat-unit>quarter</beat-unit><beat-unit-dot/><beat-unit-tied><beat-unit>eighth</beat-unit></beat-unit-tied>";
    const mark = `<direction><direction-type><metronome>${beat}<per-minute>c. 30</per-minute></metronome></direction-type></direction>`;
    expect(readBar(mark + quarter("C", 4)).tempos.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual([60]);
  });

  test("where two values are set equal the played tempo counts, and without one the mark is told", () => {
    const equal = "<metronome><beat-unit>quarter</beat-unit><beat-unit>half</beat-unit></metronome>";
    const read = (sound: string) =>
      readBar(`<direction><direction-type>${equal}</direction-type>${sound}</direction>${quarter("C", 4)}`);
    expect(read('<sound tempo="96"/>').tempos.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual([96]);
    expect(read("").unread[0]?.what).toMatch(/metronome mark/);
  });

  test("a sound's tempo holds from its own offset, the first time through, with any number of decimals", () => {
    const read = (attributes: string, offset = "") =>
      readBar(`<sound ${attributes}>${offset}</sound>${quarter("C", 4)}${quarter("D", 4)}`);
    const late = read('tempo="60"', "<offset>1</offset>").tempos;
    expect(late.map(({ onset, quartersPerMinute }) => [onset.valueOf(), quartersPerMinute])).toEqual([[1, 60]]);
    expect(read('tempo="60" time-only="1,2"').tempos).toHaveLength(1);
    expect(read('tempo="60" time-only="2"')).toMatchObject({
      tempos: [],
      unread: [{ bar: "1", what: "a tempo for a repeat only is not read" }],
    });
    expect(read('tempo="66.666666666666667"').tempos[0]?.quartersPerMinute).toBeCloseTo(66.667, 3);
    expect(read('tempo="120,5"').unread[0]?.what).toMatch(/metronome mark/);
  });

  test("a mark without a number is told", () => {
    const mark =
      "<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>fast</per-minute></metronome></direction-type></direction>";
    const score = readBar(mark + quarter("C", 4));
    expect(score.tempos).toEqual([]);
    expect(score.unread[0]?.what).toMatch(/metronome mark/);
  });
});
