// SPDX-License-Identifier: AGPL-3.0-or-later
// Where our reading of a score and Verovio's differ, file by file, and why. reader-against-verovio.test.ts works the
// differences out anew and asserts that they are these, no more and no fewer. Each row was checked by hand against the
// file. "The standard" is MusicXML 4.0 (W3C Music Notation Community Group,
// https://www.w3.org/2021/06/musicxml40/musicxml-reference/), with the element whose page says it; "the suite" is the
// unofficial MusicXML test suite, whose files describe in their header what they hold.

/** Why two readings part, and which of them is right. */
export interface Reason {
  readonly right: "ours" | "both" | "open";
  readonly why: string;
}

/** The reasons, by name. */
export const REASONS = {
  microtones: {
    right: "ours",
    why: "Verovio reads no alter of -0.5, 0.5, -1.5 or 1.5 without a sign that it knows, and plays the natural note. The standard, <alter>: decimal values like 0.5 (quarter tone sharp) are used for microtones.",
  },
  "note lengths": {
    right: "ours",
    why: "Verovio works a note's length out from <type>, the <tuplet> signs and its own idea of nested tuplets and two-note tremolos; the <duration> in the file fills the bar exactly. The standard, <duration>: the intended duration in divisions, against the notated one; <tuplet-actual> and <tuplet-normal>: only what is displayed.",
  },
  "last forward": {
    right: "ours",
    why: "Verovio drops a <forward> that ends a bar, so that the next bar begins too soon. The standard, <forward>: it moves the time like a rest; the suite: it fills the bar up to the right length.",
  },
  "rest without a meter": {
    right: "ours",
    why: "A rest with measure='yes' takes no time in Verovio where there is no meter. The standard, <duration>: it has a duration, here a dotted half note; so does the suite say.",
  },
  "empty bar": {
    right: "open",
    why: "A bar holds a time signature and nothing else. Verovio gives it no length, we that of its meter, since elsewhere such bars stand for silence and the other parts go on. The standard is silent; the suite knows both readings.",
  },
  "tie of three": {
    right: "ours",
    why: "A chord note both ends a tie and begins one, and the beginning is written first: Verovio loses the third note. The standard, <tied>: both may stand at one note, in any order.",
  },
  "struck between": {
    right: "ours",
    why: "The end of the tie is missing, and Verovio takes a later one, two bars on, although the same pitch is struck anew in the bar between. We leave the tie out and say so. The standard, <tied>: a tie connects two notes of the same pitch; nothing can sound on through its own repetition.",
  },
  "tie into another voice": {
    right: "both",
    why: "Verovio plays all voices, so the note sounds on into the other voice. We play one voice: the tie is told as leading to no note of it.",
  },
  "broken chord held": {
    right: "ours",
    why: "Notes of a broken chord are tied into the full chord, over the notes between. Verovio adds the two printed lengths; the note sounds from its onset to the end of the chord. The suite calls these arpeggio ties.",
  },
  "accidental mark": {
    right: "ours",
    why: "Verovio takes a double sharp that is printed as an <accidental-mark> for the note's own, and keeps it for all notes of that step to the end, over bar lines. The standard, <accidental-mark>: a mark above or below another note's ornament; what sounds is the <pitch>.",
  },
  tablature: {
    right: "ours",
    why: "Verovio works the pitch out from string and fret with the strings sorted by height, which is wrong for a banjo and a ukulele, whose fourth or fifth string is high. The <pitch> in the file equals the <staff-tuning> of the string plus the fret at every note (reckoned by hand).",
  },
  "three octaves": {
    right: "ours",
    why: "The part transposes by 3 octaves and a tritone, as <octave-change> and <chromatic> say; Verovio takes one octave of the three. The suite: each part plays c'', which is MIDI 72.",
  },
  "change of instrument": {
    right: "ours",
    why: "Verovio keeps the first transposition of a part. The standard, <transpose>: it may change anywhere in the piece.",
  },
} as const satisfies Readonly<Record<string, Reason>>;

/** One voice of one file. */
export interface DifferenceRow {
  readonly file: string;
  /** id of the part and name of the voice */
  readonly voice: string;
  readonly reason: keyof typeof REASONS;
  /** `BAR:BEAT`, or a row of notes with their number, then Verovio's value less ours: quarter notes, semitones */
  readonly differences: readonly string[];
}

/** Files of the suite that hold rests, percussion or nothing at all: they are refused, and the refusal says so. */
export const WITHOUT_NOTES: readonly string[] = [
  "02a-Rests-Durations.xml",
  "02b-Rests-PitchedRests.xml",
  "02c-Rests-MultiMeasureRests.xml",
  "41b-MultiParts-MoreThan10.xml",
  "41f-StaffGroups-Overlapping.xml",
  "41g-StaffGroups-NestingOrder.xml",
  "41h-TooManyParts.xml",
  "43g-MultiStaff-PartSymbol.xml",
  "45a-SimpleRepeat.xml",
  "45c-SimpleRepeat-Nested.xml",
  "45d-Repeats-MultipleEndings.xml",
  "45e-Repeats-Combination.xml",
  "45f-Repeats-InvalidEndings.xml",
  "45j-SimpleRepeat-Start.xml",
  "46a-Barlines.xml",
  "51a-Header-Credits.xml",
  "51b-Header-Quotes.xml",
  "51c-MultipleMetadata.xml",
  "51d-EmptyTitle.xml",
  "52a-PageLayout.xml",
];

/** Differences in the public suite. */
export const SUITE_DIFFERENCES: readonly DifferenceRow[] = [
  {
    file: "01d-Pitches-Microtones.xml",
    voice: "P1 1",
    reason: "microtones",
    differences: [
      "1:1 pitch +3/2",
      "1:2 pitch +1/2",
      "1:3 pitch -1/2",
      "1:4 pitch -3/2",
      "2:1 pitch +3/2",
      "2:2 pitch +1/2",
      "2:3 pitch -1/2",
      "2:4 pitch -3/2",
    ],
  },
  {
    file: "01f-Pitches-ParenthesizedMicrotoneAccidentals.xml",
    voice: "P1 1",
    reason: "microtones",
    differences: ["1:1-1:4 (4) pitch +1/2", "3:1-3:4 (4) pitch +3/2", "4:1-4:4 (4) pitch -3/2"],
  },
  {
    file: "03f-Rhythm-Forward.xml",
    voice: "P1 1",
    reason: "last forward",
    differences: ["2:1 onset -3/4"],
  },
  {
    file: "11h-TimeSignatures-SenzaMisura.xml",
    voice: "P1 1",
    reason: "rest without a meter",
    differences: ["3:1-4:3 (9) onset -3"],
  },
  {
    file: "11h-TimeSignatures-SenzaMisura.xml",
    voice: "P1 2",
    reason: "rest without a meter",
    differences: ["3:1-4:3 (9) onset -3"],
  },
  {
    file: "21b-Chords-TwoNotes.xml",
    voice: "P0 1",
    reason: "tie of three",
    differences: ["2:2 duration -1"],
  },
  {
    file: "23c-Tuplet-Display-NonStandard.xml",
    voice: "P1 1",
    reason: "note lengths",
    differences: [
      "3:1 duration +1/42",
      "3:1.333 onset +1/42, duration +1/42",
      "3:1.667 onset +1/21, duration +1/42",
      "3:2 onset +1/14, duration +1/14",
      "3:3 onset +1/7, duration +1/14",
      "3:4 onset +3/14, duration +1/14",
      "4:1 onset +2/7, duration +1/6",
      "4:1.333 onset +19/42, duration +1/6",
      "4:1.667 onset +13/21, duration +1/6",
      "4:2 onset +11/14, duration +1/2",
      "4:3 onset +9/7, duration +1/2",
      "4:4 onset +25/14, duration +1/2",
      "5:1 onset +16/7, duration +1/42",
      "5:1.333 onset +97/42, duration +1/42",
      "5:1.667 onset +7/3, duration +1/42",
      "5:2 onset +33/14, duration +1/14",
      "5:3 onset +17/7, duration +1/14",
      "5:4 onset +5/2, duration +1/14",
    ],
  },
  {
    file: "23d-Tuplets-Nested.xml",
    voice: "P1 1",
    reason: "note lengths",
    differences: [
      "1:1.667 duration +1/15",
      "1:1.8 onset +1/15, duration +1/15",
      "1:1.933 onset +2/15, duration +1/15",
      "1:2.067 onset +1/5, duration +1/15",
      "1:2.2 onset +4/15, duration +1/15",
      "1:2.333-1:2.667 (2) onset +1/3",
      "2:1 onset +1/3, duration +1/30",
      "2:1.133 onset +11/30, duration +1/30",
      "2:1.267 onset +2/5, duration +1/30",
      "2:1.4 onset +13/30, duration +1/30",
      "2:1.533 onset +7/15, duration +1/30",
      "2:1.667 onset +1/2, duration +1/6",
      "2:2 onset +2/3, duration +1/6",
      "2:2.333 onset +5/6, duration +1/15",
      "2:2.467 onset +9/10, duration +1/15",
      "2:2.6 onset +29/30, duration +1/15",
      "2:2.733 onset +31/30, duration +1/15",
      "2:2.867 onset +11/10, duration +1/15",
      "3:1-3:1.667 (2) onset +7/6",
      "3:2.333 onset +7/6, duration -1/18",
      "3:2.556 onset +10/9, duration -1/18",
      "3:2.778 onset +19/18, duration -1/18",
    ],
  },
  {
    file: "23f-Tuplets-DurationButNoBracket.xml",
    voice: "P1 1",
    reason: "note lengths",
    differences: ["1:3 duration +1/3", "1:3.667 onset +1/3, duration +1/3", "1:4.333 onset +2/3, duration +1/3"],
  },
  {
    file: "23f-Tuplets-DurationButNoBracket.xml",
    voice: "P1 2",
    reason: "note lengths",
    differences: [
      "1:2 duration +1/6",
      "1:2.333 onset +1/6, duration +1/6",
      "1:2.667 onset +1/3, duration +1/6",
      "1:3-1:3.75 (4) onset +1/2",
      "1:4 onset +1/2, duration +1/12",
      "1:4.167 onset +7/12, duration +1/12",
      "1:4.333 onset +2/3, duration +1/12",
      "1:4.5 onset +3/4, duration +1/12",
      "1:4.667 onset +5/6, duration +1/12",
      "1:4.833 onset +11/12, duration +1/12",
    ],
  },
  {
    file: "32a-Notations.xml",
    voice: "P1 1",
    reason: "accidental mark",
    differences: [
      "2:4-12:2 (39) pitch +2",
      "13:2-13:4 (3) pitch +2",
      "14:1 pitch +2",
      "14:4-15:3 (4) pitch +2",
      "15:4-23:3 (28) pitch +2",
    ],
  },
  {
    file: "33i-Ties-NotEnded.xml",
    voice: "P1 1",
    reason: "struck between",
    differences: ["1:1 duration +4", "3:1 tied to the note before"],
  },
  {
    file: "33j-Beams-Tremolos.xml",
    voice: "P1 1",
    reason: "note lengths",
    differences: [
      "2:1 duration -1/6",
      "2:1.667 onset -1/6, duration -1/6",
      "2:2.333 onset -1/3, duration -1/6",
      "2:3 onset -1/2, duration -1/6",
      "2:3.667 onset -2/3, duration -1/6",
      "2:4.333 onset -5/6, duration -1/6",
      "2:5-2:7 (8) onset -1",
    ],
  },
  {
    file: "33k-Tie-Types.xml",
    voice: "P1 1",
    reason: "tie into another voice",
    differences: ["1:1 duration +1/2"],
  },
  {
    file: "33k-Tie-Types.xml",
    voice: "P1 1",
    reason: "broken chord held",
    differences: ["2:3.5 duration -1", "2:4 duration -1/2"],
  },
  {
    file: "33k-Tie-Types.xml",
    voice: "P1 2",
    reason: "tie into another voice",
    differences: ["1:2 tied to the note before"],
  },
  {
    file: "34b-Colors.xml",
    voice: "P1 1",
    reason: "note lengths",
    differences: [
      "5:7 duration -1/4",
      "5:7.75 onset -1/4, duration -1/4",
      "5:8.5 onset -1/2, duration -1/4",
      "5:9.25 onset -3/4, duration -1/4",
      "5:10-14:1 (41) onset -1",
    ],
  },
  {
    file: "34c-Font-Size.xml",
    voice: "P1 1",
    reason: "note lengths",
    differences: [
      "5:7 duration -1/4",
      "5:8.5 onset -1/4, duration -1/4",
      "5:10 onset -1/2, duration -1/4",
      "5:11.5 onset -3/4, duration -1/4",
      "5:13-7:4 (10) onset -1",
    ],
  },
  {
    file: "46j-EmptyMeasure.xml",
    voice: "P1 1",
    reason: "empty bar",
    differences: ["3:1-3:3 (3) onset -3"],
  },
  {
    file: "71e-TabStaves.xml",
    voice: "P6 1",
    reason: "tablature",
    differences: ["1:1 pitch -10", "1:2 pitch +10", "1:3 pitch +5", "2:2-2:4 (3) pitch -5"],
  },
  {
    file: "71e-TabStaves.xml",
    voice: "P8 1",
    reason: "tablature",
    differences: ["1:1 pitch -4", "1:2 pitch +2", "1:3 pitch +4", "1:4 pitch -4", "2:1-2:4 (4) pitch +4"],
  },
  {
    file: "72b-TransposingInstruments-Full.xml",
    voice: "P10 1",
    reason: "three octaves",
    differences: ["1:1 pitch -24"],
  },
  {
    file: "72c-TransposingInstruments-Change.xml",
    voice: "P1 1",
    reason: "change of instrument",
    differences: ["2:1-3:1 (2) pitch +5"],
  },
];

/** Differences in the project's own fixtures. */
export const FIXTURE_DIFFERENCES: readonly DifferenceRow[] = [
  {
    file: "transposing-change.musicxml",
    voice: "P1 1",
    reason: "change of instrument",
    differences: ["2:1 pitch +10"],
  },
];
