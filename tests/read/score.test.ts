// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, test } from "vitest";
import { pitchName } from "../../src/model/pitch.js";
import type { ScoreNote } from "../../src/model/score.js";
import { readScore } from "../../src/read/score.js";
import { documentOf, fixture, nameOf, quarter, readBar, readFixture, readText } from "./helpers.js";

/** Pitch, onset, duration and beat of each note in one line. */
function line(notes: readonly ScoreNote[]): string[] {
  return notes.map(
    (note) => `${nameOf(note)} ${note.onset.toFraction()}+${note.duration.toFraction()} beat ${note.beat}`,
  );
}

describe("time", () => {
  test("notes that are tied are one, with the ids of their continuations", () => {
    const { notes } = readFixture("ties.musicxml");
    expect(line(notes)).toEqual(["C4 0+1 beat 1", "D4 1+2 beat 2", "E4 3+4 beat 4", "G4 7+1 beat 4"]);
    expect(notes[2]?.id).toBe("p1b1n3");
    expect(notes[2]?.tiedIds).toEqual(["p1b2n1", "p1b2n2"]);
  });

  test("a tie that meets no note of its pitch is told, and the note stays as written", () => {
    const { notes, unread } = readBar(quarter("C", 4, '<notations><tied type="start"/></notations>') + quarter("D", 4));
    expect(line(notes)).toEqual(["C4 0+1 beat 1", "D4 1+1 beat 2"]);
    expect(unread.map(({ what }) => what)).toContain("a tie that meets no note of its pitch in this voice is not read");
  });

  test("notes of a broken chord that are tied into the full chord sound through", () => {
    const tied = (type: string): string => `<notations><tied type="${type}"/></notations>`;
    const { notes } = readBar(
      quarter("C", 3, tied("start")) +
        quarter("G", 3, tied("start")) +
        quarter("C", 3, tied("stop")) +
        quarter("G", 3, tied("stop"), "<chord/>"),
    );
    expect(line(notes)).toEqual(["C3 0+3 beat 1", "G3 1+2 beat 2"]);
  });

  test("tuplets are exact", () => {
    const { notes } = readFixture("tuplets.musicxml");
    expect(line(notes)).toEqual([
      "C4 0+1/3 beat 1",
      "D4 1/3+1/3 beat 1.333",
      "E4 2/3+1/3 beat 1.667",
      "F4 1+1 beat 2",
      "G4 2+2 beat 3",
    ]);
  });

  test("tuplets whose durations were rounded to whole divisions fill their bar", () => {
    const seventh = quarter(
      "C",
      4,
      "<type>16th</type><time-modification><actual-notes>7</actual-notes><normal-notes>8</normal-notes></time-modification>",
    );
    const music = (duration: number): string =>
      `<attributes><divisions>480</divisions></attributes>${seventh.replace("<duration>1<", `<duration>${duration}<`).repeat(7)}`;
    const back = "<backup><duration>959</duration></backup>";
    const { notes, bars } = readBar(music(137) + back + quarter("E", 4).replace("<voice>1", "<voice>2"));
    expect(notes.filter((note) => nameOf(note) === "C4").map(({ onset }) => onset.toFraction())).toEqual([
      "0",
      "2/7",
      "4/7",
      "6/7",
      "8/7",
      "10/7",
      "12/7",
    ]);
    expect(String(bars[0]?.length)).toBe("2");
    // A duration that is off by more than rounding is what it says.
    expect(readBar(music(120)).notes[1]?.onset.toFraction()).toBe("1/4");
  });

  test("divisions may change and may be fractions", () => {
    const change = "<attributes><divisions>2.5</divisions></attributes>";
    const { notes } = readBar(quarter("C", 4) + change + quarter("D", 4) + quarter("E", 4));
    expect(line(notes)).toEqual(["C4 0+1 beat 1", "D4 1+2/5 beat 2", "E4 7/5+2/5 beat 2.4"]);
  });

  test("missing divisions are one to the quarter note, and told", () => {
    const { notes, unread } = readText(documentOf(`<measure>${quarter("C", 4)}${quarter("D", 4)}</measure>`));
    expect(line(notes)).toEqual(["C4 0+1 beat 1", "D4 1+1 beat 2"]);
    expect(unread).toEqual([
      { bar: "1", what: "a bar without divisions is read with one division to the quarter note" },
    ]);
  });

  test("grace notes stand before their main note and take no time; at the end of a bar too", () => {
    const { notes } = readFixture("grace-notes.musicxml");
    expect(
      notes.map((note) => `${nameOf(note)} ${note.grace ? "grace" : "main"} ${note.onset} beat ${note.beat}`),
    ).toEqual([
      "D4 grace 0 beat 1",
      "C4 main 0 beat 1",
      "E4 grace 2 beat 3",
      "F4 grace 2 beat 3",
      "G4 main 2 beat 3",
      "A4 main 3 beat 4",
      "G4 grace 4 beat 5",
      "C5 grace 4 beat 1",
      "E5 grace 4 beat 1",
      "D5 main 4 beat 1",
    ]);
    expect(notes.map(({ chord }) => chord)).toEqual([
      null,
      null,
      null,
      null,
      null,
      null,
      null,
      "p1b2n1",
      "p1b2n1",
      null,
    ]);
  });

  test("a pickup bar begins late, and so does a bar that completes the one before it", () => {
    const { bars, notes } = readFixture("pickup.musicxml");
    expect(bars.map(({ label, firstBeat, length }) => `${label}: ${firstBeat} ${length}`)).toEqual([
      "0: 3 1",
      "1: 1 3",
      "2: 1 2",
      "X1: 3 1",
      "3: 1 3",
    ]);
    expect(notes[0]?.beat).toBe("3");
  });

  test("beats count in the meter's lower number", () => {
    const { notes } = readFixture("tempos.musicxml");
    expect(notes.map(({ beat }) => beat)).toEqual(["1", "4", "1", "4"]);
  });
});

describe("chords", () => {
  test("stand lowest first and share the lowest note's id", () => {
    const { notes } = readFixture("chords.musicxml");
    expect(notes.map((note) => `${nameOf(note)} ${note.id} ${note.chord}`)).toEqual([
      "C3 p1b1n2 p1b1n2",
      "G3 p1b1n1 p1b1n2",
      "E3 p1b1n3 p1b1n3",
      "G3 p1b1n5 p1b1n3",
      "B3 p1b1n4 p1b1n3",
    ]);
  });
});

describe("pitch", () => {
  test("a transposing part sounds elsewhere than it is written, spelled by its steps", () => {
    const { notes } = readFixture("transposing.musicxml");
    expect(notes.map(nameOf)).toEqual(["D4", "F#4", "A4", "C#5"]);
    expect(notes.map(({ sounding }) => pitchName(sounding))).toEqual(["C4", "E4", "G4", "B4"]);
  });

  test("a transposition may change, and may be of whole octaves", () => {
    const { notes } = readFixture("transposing-change.musicxml");
    expect(notes.map(({ sounding }) => pitchName(sounding))).toEqual(["C4", "D3"]);
  });

  test("a transposition without steps takes the usual interval", () => {
    const by = "<attributes><transpose><chromatic>3</chromatic></transpose></attributes>";
    expect(readBar(by + quarter("C", 4)).notes.map(({ sounding }) => pitchName(sounding))).toEqual(["Eb4"]);
  });

  test("a doubling of the part is told", () => {
    const by = "<attributes><transpose><chromatic>0</chromatic><double/></transpose></attributes>";
    expect(readBar(by + quarter("C", 4)).unread[0]?.what).toMatch(/octave doubling/);
  });

  test("under an octave sign the print lies below or above the sound (MusicXML 4.0, octave-shift)", () => {
    const { notes } = readFixture("octave-signs.musicxml");
    expect(notes.map(nameOf)).toEqual(["C4", "E4", "G4", "C4", "C4", "C4"]);
    expect(notes.map(({ sounding }) => pitchName(sounding))).toEqual(["C4", "E5", "G5", "C4", "C2", "C4"]);
  });

  test("a clef with an octave number does not transpose", () => {
    const clef =
      "<attributes><clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef></attributes>";
    expect(readBar(clef + quarter("C", 4)).notes.map(({ sounding }) => pitchName(sounding))).toEqual(["C4"]);
  });

  test("a note of two pitches is its first", () => {
    const second = "<pitch><step>A</step><octave>5</octave></pitch>";
    const { notes } = readBar(quarter("C", 4).replace("</pitch>", `</pitch>${second}`));
    expect(notes.map(nameOf)).toEqual(["C4"]);
  });

  test("microtones are kept", () => {
    const note =
      "<note><pitch><step>E</step><alter>-0.5</alter><octave>4</octave></pitch><duration>1</duration></note>";
    expect(readBar(note).notes[0]?.written.alter).toBe(-0.5);
  });
});

describe("marks", () => {
  test("articulations, dynamics, words, lyrics", () => {
    const { notes } = readFixture("marks.musicxml");
    const on = (index: number) => notes[index] as ScoreNote;
    expect(on(0)).toMatchObject({ dynamic: "p", words: ["Calmly"], marks: { staccato: true } });
    expect(on(1)).toMatchObject({ dynamic: "p", marks: { vibrato: true, staccato: false, others: ["trill-mark"] } });
    expect(on(2)).toMatchObject({ dynamic: "sfz", marks: { others: ["accent"] } });
    expect(on(3)).toMatchObject({ dynamic: "p", marks: { fermata: true } });
    expect(on(4)).toMatchObject({ dynamic: "f", marks: { slideTo: false } });
    expect(on(5)).toMatchObject({ marks: { slideTo: true } });
    expect(on(6)).toMatchObject({ marks: { letRing: true } });
    expect(on(7)).toMatchObject({ marks: { harmonic: true }, given: { sound: null, written: false } });
    expect(on(8)).toMatchObject({ words: ["with vibrato"], marks: { vibrato: true } });
    expect(on(8).lyrics).toEqual([
      { verse: "1", text: "far off" },
      { verse: "2", text: "near" },
    ]);
  });

  test("slurs count the melody's notes: ties joined, rests none", () => {
    expect(readFixture("slurs.musicxml").slurs).toEqual([
      { from: "p1b1n2", to: "p1b1n3", count: 2 },
      { from: "p1b1n1", to: "p1b2n2", count: 4 },
    ]);
  });

  test("a slur without its other end is told", () => {
    const { slurs, unread } = readBar(quarter("C", 4, '<notations><slur type="start"/></notations>') + quarter("D", 4));
    expect(slurs).toEqual([]);
    expect(unread[0]?.what).toMatch(/slur without its other end/);
  });

  test("a hairpin stands over the notes that begin before its end", () => {
    const wedge = (type: string, offset = ""): string =>
      `<direction><direction-type><wedge type="${type}"/></direction-type>${offset}</direction>`;
    const [c, d] = [quarter("C", 4), quarter("D", 4)];
    const over = (music: string) => readBar(music).wedges;
    expect(over(wedge("crescendo") + c + wedge("stop") + d)).toEqual([
      { from: "p1b1n1", to: "p1b1n1", kind: "crescendo" },
    ]);
    expect(over(c + wedge("diminuendo") + d + c + wedge("stop"))).toEqual([
      { from: "p1b1n2", to: "p1b1n3", kind: "diminuendo" },
    ]);
    // Notation programs print an end behind the place where the direction stands.
    expect(over(wedge("crescendo") + c + wedge("stop", "<offset>1</offset>") + d)).toEqual([
      { from: "p1b1n1", to: "p1b1n2", kind: "crescendo" },
    ]);
  });

  test("equal things that are not read are told once, with their number and the first bar", () => {
    const chord = "<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>";
    const wedge = '<direction><direction-type><wedge type="crescendo"/></direction-type></direction>';
    const cue = quarter("G", 4, "", "<cue/>");
    const drum =
      "<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>1</duration></note>";
    const score = readBar(chord + quarter("C", 4) + chord + wedge + cue + drum);
    expect(score.notes).toHaveLength(1);
    expect(score.unread).toEqual([
      { bar: "1", what: "a cue note is left out" },
      { bar: "1", what: "a note without pitch is left out" },
      { bar: "1", what: "2 chord symbols are not part of the melody, both in bar 1" },
      {
        bar: "1",
        what: "a crescendo or diminuendo wedge without both ends at notes of this voice is not read",
      },
    ]);
  });

  test("the bars of equal things are named", () => {
    const cue = quarter("G", 4, "", "<cue/>");
    const bar = (number: number): string => `<measure number="${number}">${quarter("C", 4)}${cue}</measure>`;
    const head = '<measure number="1"><attributes><divisions>1</divisions></attributes>';
    const told = (bars: number) =>
      readText(
        documentOf(
          `${head}${quarter("C", 4)}${cue}</measure>${Array.from({ length: bars }, (_, i) => bar(i + 2)).join("")}`,
        ),
      ).unread[0]?.what;
    expect(told(1)).toBe("2 cue notes are left out, in bars 1 and 2");
    expect(told(3)).toBe("4 cue notes are left out, in bars 1, 2, 3 and 4");
    expect(told(20)).toMatch(/, in bars 1, 2, 3, .*, 12 and 9 more$/);
  });

  test("bars whose notes a repeat sign stands for are told where they are empty, and read where they are not", () => {
    const sign = (type: string): string =>
      `<attributes><measure-style><measure-repeat type="${type}">1</measure-repeat></measure-style></attributes>`;
    const rest = '<note><rest measure="yes"/><duration>1</duration><voice>1</voice></note>';
    const bars = (second: string, third: string): string =>
      documentOf(
        [
          `<attributes><divisions>1</divisions></attributes>${quarter("C", 4)}`,
          sign("start") + second,
          third,
          sign("stop") + rest,
          quarter("D", 4),
        ]
          .map((music, i) => `<measure number="${i + 1}">${music}</measure>`)
          .join(""),
      );
    const empty =
      "2 bars with repeat signs in place of their notes are read without them: write the notes out to have them fingered";
    expect(readText(bars(rest, "")).unread).toEqual([{ bar: "2", what: `${empty}, in bars 2 and 3` }]);
    expect(readText(bars(quarter("C", 4), quarter("C", 4))).unread).toEqual([]);
  });

  test("what stands at a rest is told, how it is counted is not", () => {
    const notations =
      '<notations><fermata/><tuplet type="start"/><articulations><breath-mark/></articulations></notations>';
    const rest = `<note><rest/><duration>1</duration><voice>1</voice>${notations}</note>`;
    expect(readBar(quarter("C", 4) + rest).unread).toEqual([
      { bar: "1", what: '2 marks on rests are not read, both in bar 1 ("fermata", "breath-mark")' },
    ]);
  });

  test("hidden notes, notes in slashes and grace notes that add time are read and told", () => {
    const grace = quarter("E", 4, "", '<grace make-time="1"/>').replace("<duration>1</duration>", "");
    const hidden = quarter("D", 4).replace("<note>", '<note print-object="no">');
    const { notes, unread } = readBar(quarter("C", 4, "<notehead>slash</notehead>") + grace + hidden);
    expect(notes.map(nameOf)).toEqual(["C4", "E4", "D4"]);
    expect(unread.map(({ what }) => what)).toEqual([
      "a note or passage in slashes or crosses is read with the pitches that the file gives",
      "a grace note that adds time is read as taking no time",
      "a note that is not printed is read, as editors play what is hidden",
    ]);
  });

  test("a string number beside a fret is another instrument's", () => {
    const tab = quarter("C", 4, "<notations><technical><string>2</string><fret>1</fret></technical></notations>");
    const { notes, unread, stringMarks } = readBar(tab);
    expect(notes[0]?.given.string).toBeNull();
    expect(stringMarks).toEqual([]);
    expect(unread[0]?.what).toMatch(/string number beside a fret/);
  });

  test("words beside no note of the voice are told with their text", () => {
    const words = "<direction><direction-type><words>rit.</words></direction-type></direction>";
    const rest = "<note><rest/><duration>1</duration><voice>1</voice></note>";
    expect(readBar(quarter("C", 4) + words + rest).unread).toEqual([
      { bar: "1", what: 'a text beside no note of this voice is not read ("rit.")' },
    ]);
  });
});

describe("ids and offsets", () => {
  test("a note's own id counts where it is unique and usable", () => {
    const own = (id: string): string => quarter("C", 4).replace("<note>", `<note id="${id}">`);
    const { notes, unread } = readBar(own("first") + own("twice") + own("twice") + own("not usable"));
    expect(notes.map(({ id }) => id)).toEqual(["first", "p1b1n2", "p1b1n3", "p1b1n4"]);
    expect(unread).toEqual([
      { bar: null, what: 'note ids that are not unique or not usable are replaced: "twice", "not usable"' },
    ]);
  });

  test("ids stay the same whatever is read", () => {
    const whole = readFixture("ties.musicxml").notes.map(({ id }) => id);
    expect(readFixture("ties.musicxml", { bars: "2" }).notes.map(({ id }) => id)).toEqual([whole.at(-1)]);
  });

  test("offsets cut each note element, ties included, out of the text", () => {
    const { score, source } = readScore(fixture("musicxml/ties.musicxml"), "ties.musicxml");
    expect([...source.notes.keys()]).toEqual(score.notes.flatMap(({ id, tiedIds }) => [id, ...tiedIds]));
    for (const { start, end } of [...source.notes.values()].map(({ element }) => element))
      expect(source.text.slice(start, end)).toMatch(/^<note>.*<\/note>$/s);
    expect(source.text).toBe(new TextDecoder().decode(fixture("musicxml/ties.musicxml")));
  });
});
