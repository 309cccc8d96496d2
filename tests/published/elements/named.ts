// SPDX-License-Identifier: AGPL-3.0-or-later
// Elements of MusicXML 4.0 that are told as left out, each with music that shows what the user reads.
import { attributes, direction, marked, type NamedRow, note, technical } from "./row.js";

const jumpTold = (name: string): string =>
  `a repeat or jump is not followed: the music is read once, as printed ("${name}")`;
const NO_NUMBER = "a metronome mark without a plain number is not read";
const TUNING = "<tuning-step>E</tuning-step><tuning-alter>-1</tuning-alter><tuning-octave>4</tuning-octave>";

const NOTES: readonly NamedRow[] = [
  { elements: ["cue"], music: note("D4") + note("E4", "", "<cue/>"), told: "a cue note is left out" },
  {
    elements: ["unpitched", "display-step", "display-octave"],
    music: `${note("D4")}<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>1</duration><voice>1</voice></note>`,
    told: "a note without pitch is left out",
  },
  {
    elements: ["notehead"],
    music: note("D4", "<notehead>slash</notehead>"),
    told: "a note or passage in slashes or crosses is read with the pitches that the file gives",
  },
  ...["base-pitch", "touching-pitch"].map(
    (name): NamedRow => ({
      elements: [name],
      music: technical(`<harmonic><artificial/><${name}/></harmonic>`),
      told: "a harmonic that is written where the string is held or touched is read as if that pitch sounded",
    }),
  ),
  {
    elements: ["fret"],
    music: technical("<string>2</string><fret>3</fret>"),
    told: "a string number beside a fret is not read: another instrument is meant",
  },
];

/** A mark on a note by the group that holds it. */
const MARKS: Readonly<Record<string, readonly string[]>> = {
  technical: [
    ...["hammer-on", "pull-off", "tap", "thumb-position", "fingernails", "golpe", "handbell", "stopped", "open"],
    ...["half-muted", "heel", "toe", "flip", "smear", "brass-bend"],
  ],
  articulations: ["breath-mark", "caesura", "other-articulation"],
  ornaments: ["other-ornament"],
};

const PLAYING: readonly NamedRow[] = [
  ...Object.entries(MARKS).flatMap(([group, names]) =>
    names.map((name) => playing(name, marked(`<${group}><${name} type="start"/></${group}>`))),
  ),
  playing(
    "hole",
    technical("<hole><hole-type>ring</hole-type><hole-closed>half</hole-closed><hole-shape>o</hole-shape></hole>"),
    "hole-type",
    "hole-closed",
    "hole-shape",
  ),
  playing(
    "arrow",
    technical("<arrow><arrow-direction>up</arrow-direction><arrow-style>single</arrow-style><arrowhead/></arrow>"),
    "arrow-direction",
    "arrow-style",
    "arrowhead",
  ),
  playing("arrow", technical("<arrow><circular-arrow>clockwise</circular-arrow></arrow>"), "circular-arrow"),
  playing("harmon-mute", technical("<harmon-mute><harmon-closed>half</harmon-closed></harmon-mute>"), "harmon-closed"),
  ...["other-notation", "non-arpeggiate"].map((name) => playing(name, marked(`<${name} type="single"/>`))),
];

function playing(name: string, music: string, ...inner: readonly string[]): NamedRow {
  return { elements: [name, ...inner], music, told: `a playing mark is not read ("${name}")` };
}

const BARS: readonly NamedRow[] = [
  ...["segno", "coda"].map(
    (name): NamedRow => ({ elements: [name], music: direction(`<${name}/>`), told: jumpTold(name) }),
  ),
  ...["measure-repeat", "beat-repeat"].map(
    (name): NamedRow => ({
      elements: ["measure-style", name],
      music: `<measure number="1">${note("D4")}</measure><measure number="2"><attributes><measure-style><${name} type="start">1</${name}></measure-style></attributes><note><rest measure="yes"/><duration>1</duration><voice>1</voice></note></measure>`,
      told: "a bar with a repeat sign in place of its notes is read without them: write the notes out to have them fingered",
    }),
  ),
  {
    elements: ["slash"],
    music: attributes('<measure-style><slash type="start" use-stems="yes"/></measure-style>'),
    told: "a note or passage in slashes or crosses is read with the pitches that the file gives",
  },
  {
    elements: ["key-step", "key-alter", "key-accidental", "key-octave"],
    music: attributes(
      '<key><key-step>F</key-step><key-alter>1</key-alter><key-accidental>sharp</key-accidental><key-octave number="1">4</key-octave></key>',
    ),
    told: "a key signature that is not in the circle of fifths is read as no sharps or flats",
  },
  {
    elements: ["double"],
    music: attributes('<transpose><chromatic>0</chromatic><double above="yes"/></transpose>'),
    told: "an octave doubling of the part is not read: only the written line is",
  },
  {
    elements: ["staff-details", "staff-tuning", "tuning-step", "tuning-alter", "tuning-octave"],
    music: attributes(`<staff-details><staff-tuning line="1">${TUNING}</staff-tuning></staff-details>`),
    told: 'a string tuning in the score is not read: choose one with --tuning ("staff-tuning")',
  },
  {
    elements: ["capo"],
    music: attributes("<staff-details><capo>2</capo></staff-details>"),
    told: 'a string tuning in the score is not read: choose one with --tuning ("capo")',
  },
];

const DIRECTIONS: readonly NamedRow[] = [
  {
    elements: ["swing", "first", "second", "swing-type", "swing-style"],
    music: `<sound><swing><first>2</first><second>1</second><swing-type>eighth</swing-type><swing-style>slow</swing-style></swing></sound>${note("D4")}`,
    told: "a swing rhythm is not applied: durations are as written",
  },
  {
    elements: [
      "metronome-note",
      "metronome-type",
      "metronome-dot",
      "metronome-beam",
      "metronome-tied",
      "metronome-arrows",
    ].concat(...["metronome-relation", "metronome-tuplet"]),
    music: direction(
      '<metronome><metronome-arrows/><metronome-note><metronome-type>eighth</metronome-type><metronome-dot/><metronome-beam number="1">begin</metronome-beam><metronome-tied type="start"/></metronome-note><metronome-relation>equals</metronome-relation><metronome-note><metronome-type>eighth</metronome-type><metronome-tuplet type="start"><actual-notes>3</actual-notes><normal-notes>2</normal-notes></metronome-tuplet></metronome-note></metronome>',
    ),
    told: NO_NUMBER,
  },
  { elements: ["pedal"], music: direction('<pedal type="start"/>'), told: "a pedal mark is not read" },
  {
    elements: ["scordatura", "accord"],
    music: direction(`<scordatura><accord string="1">${TUNING}</accord></scordatura>`),
    told: "a string tuning in the score is not read: choose one with --tuning",
  },
  ...[
    "symbol",
    "image",
    "eyeglasses",
    "string-mute",
    "damp",
    "damp-all",
    "principal-voice",
    "staff-divide",
    "other-direction",
  ].map((name) => other(name, "")),
  other(
    "harp-pedals",
    "<pedal-tuning><pedal-step>D</pedal-step><pedal-alter>0</pedal-alter></pedal-tuning>",
    ...["pedal-tuning", "pedal-step", "pedal-alter"],
  ),
  other(
    "accordion-registration",
    "<accordion-high/><accordion-middle>1</accordion-middle><accordion-low/>",
    ...["accordion-high", "accordion-middle", "accordion-low"],
  ),
  ...[
    "glass",
    "metal",
    "wood",
    "pitched",
    "membrane",
    "effect",
    "timpani",
    "beater",
    "stick-location",
    "other-percussion",
  ].map((name) => other("percussion", `<${name}/>`, name)),
  other(
    "percussion",
    "<stick><stick-type>yarn</stick-type><stick-material>soft</stick-material></stick>",
    ...["stick", "stick-type", "stick-material"],
  ),
];

function other(name: string, content: string, ...inner: readonly string[]): NamedRow {
  return {
    elements: [name, ...inner],
    music: direction(`<${name}>${content}</${name}>`),
    told: `a playing direction of another kind is not read ("${name}")`,
  };
}

const CHORDS: readonly NamedRow[] = [
  chord(
    "<root><root-step>C</root-step><root-alter>1</root-alter></root><kind>major</kind><inversion>1</inversion><bass><bass-separator>/</bass-separator><bass-step>E</bass-step><bass-alter>1</bass-alter></bass><degree><degree-value>9</degree-value><degree-alter>1</degree-alter><degree-type>add</degree-type></degree>",
    ...[
      "harmony",
      "root",
      "root-step",
      "root-alter",
      "kind",
      "inversion",
      "bass",
      "bass-separator",
      "bass-step",
      "bass-alter",
    ],
    ...["degree", "degree-value", "degree-alter", "degree-type"],
  ),
  chord(
    "<numeral><numeral-root>2</numeral-root><numeral-alter>1</numeral-alter><numeral-key><numeral-fifths>0</numeral-fifths><numeral-mode>major</numeral-mode></numeral-key></numeral><kind>minor</kind>",
    ...["numeral", "numeral-root", "numeral-alter", "numeral-key", "numeral-fifths", "numeral-mode"],
  ),
  chord(
    '<function>V</function><kind>major</kind><frame><frame-strings>6</frame-strings><frame-frets>4</frame-frets><first-fret>1</first-fret><frame-note><string>1</string><fret>0</fret><barre type="start"/></frame-note></frame>',
    ...["function", "frame", "frame-strings", "frame-frets", "first-fret", "frame-note", "barre"],
  ),
  {
    elements: ["figured-bass", "figure", "prefix", "figure-number", "suffix"],
    music: `<figured-bass><figure><prefix>sharp</prefix><figure-number>6</figure-number><suffix>slash</suffix></figure></figured-bass>${note("D4")}`,
    told: "a figured bass is not part of the melody",
  },
];

function chord(content: string, ...elements: readonly string[]): NamedRow {
  return {
    elements,
    music: `<harmony>${content}</harmony>${note("D4")}`,
    told: "a chord symbol is not part of the melody",
  };
}

/** Rows whose music is read by the test of the table. */
export const NAMED: readonly NamedRow[] = [...NOTES, ...PLAYING, ...BARS, ...DIRECTIONS, ...CHORDS];
