// SPDX-License-Identifier: AGPL-3.0-or-later
// Elements of MusicXML 4.0 that the melody takes in, each with music that shows what becomes of it.
import { pitchName } from "../../../src/model/pitch.js";
import type { Score } from "../../../src/model/score.js";
import { attributes, direction, type ElsewhereRow, marked, note, type ReadRow, technical } from "./row.js";

/** Pitch as it sounds, onset and length of each note. */
const line = ({ notes }: Score): string[] =>
  notes.map((one) => `${pitchName(one.sounding)} ${one.onset.toFraction()}+${one.duration.toFraction()}`);
const first = (score: Score) => score.notes[0];
const marksOf = (score: Score): readonly string[] => first(score)?.marks.others ?? [];
const tempos = ({ tempos: all }: Score): number[] => all.map((one) => one.quartersPerMinute);
const bar = ({ bars }: Score) => bars[0];
const part = (music: string): string =>
  `<part-list><score-part id="P1"><part-name>Qin</part-name></score-part></part-list>${music}`;
const ONE_BAR = `<part id="P1"><measure number="7">${note("D4")}</measure></part>`;

const TIME: readonly ReadRow[] = [
  {
    elements: ["note", "pitch", "step", "octave", "duration", "voice"],
    music: note("D4"),
    shows: line,
    as: ["D4 0+1"],
  },
  { elements: ["alter"], music: note("Bb4"), shows: line, as: ["Bb4 0+1"] },
  {
    elements: ["rest"],
    music: `<note><rest/><duration>1</duration><voice>1</voice></note>${note("D4")}`,
    shows: line,
    as: ["D4 1+1"],
  },
  {
    elements: ["attributes", "divisions"],
    music: `${note("D4")}<attributes><divisions>4</divisions></attributes>${note("E4")}`,
    shows: line,
    as: ["D4 0+1", "E4 1+1/4"],
  },
  {
    elements: ["backup", "forward"],
    music: `<forward><duration>2</duration></forward>${note("D4")}<backup><duration>3</duration></backup>${note("E4")}`,
    shows: line,
    as: ["E4 0+1", "D4 2+1"],
  },
  { elements: ["chord"], music: note("D4") + note("A4", "", "<chord/>"), shows: line, as: ["D4 0+1", "A4 0+1"] },
  {
    elements: ["grace"],
    music: note("D4", "", '<grace slash="yes"/>').replace("<duration>1</duration>", "") + note("E4"),
    shows: line,
    as: ["D4 0+0", "E4 0+1"],
  },
  {
    elements: ["tie", "tied"],
    music:
      note("D4", '<notations><tied type="start"/></notations>') +
      note("D4", '<notations><tied type="stop"/><tied type="start"/></notations>') +
      note("D4", '<tie type="stop"/>'),
    shows: line,
    as: ["D4 0+3"],
  },
  {
    // Seven in the time of eight: 16 divisions would be 2 2/7 each, and were rounded to 2.
    elements: ["type", "dot", "time-modification", "actual-notes", "normal-notes"],
    music: `<attributes><divisions>4</divisions></attributes>${["C4", "D4"]
      .map((pitch) =>
        note(
          pitch,
          "<type>eighth</type><time-modification><actual-notes>7</actual-notes><normal-notes>8</normal-notes></time-modification>",
        ).replace("<duration>1", "<duration>2"),
      )
      .join("")}${note(
      "E4",
      "<type>16th</type><dot/><time-modification><actual-notes>7</actual-notes><normal-notes>8</normal-notes></time-modification>",
    ).replace("<duration>1", "<duration>2")}`,
    shows: line,
    as: ["C4 0+4/7", "D4 4/7+4/7", "E4 8/7+3/7"],
  },
  {
    elements: ["staff"],
    music:
      note("D4", "<staff>2</staff>", "") +
      attributes('<transpose number="2"><chromatic>2</chromatic></transpose>') +
      note("E4", "<staff>2</staff>"),
    shows: line,
    as: ["D4 0+1", "D4 1+1", "F#4 2+1"],
  },
];

const BARS: readonly ReadRow[] = [
  {
    elements: ["score-partwise", "part-list", "score-part", "part-name", "part", "measure"],
    music: `<score-partwise>${part(ONE_BAR)}</score-partwise>`,
    shows: (score) => [score.part, bar(score)?.label],
    as: [{ id: "P1", name: "Qin" }, "7"],
  },
  {
    elements: ["score-timewise"],
    music: `<score-timewise>${part(`<measure number="7"><part id="P1">${note("D4")}</part></measure>`)}</score-timewise>`,
    shows: line,
    as: ["D4 0+1"],
  },
  {
    elements: ["part-name-display", "display-text"],
    music: `<score-partwise>${part(ONE_BAR).replace("<part-name>Qin</part-name>", "<part-name/><part-name-display><display-text>琴</display-text></part-name-display>")}</score-partwise>`,
    shows: (score) => score.part.name,
    as: "琴",
  },
  {
    elements: ["time", "beats", "beat-type"],
    music: attributes("<time><beats>6</beats><beat-type>8</beat-type></time>"),
    shows: (score) => bar(score)?.meter,
    as: { beats: 6, beatType: 8 },
  },
  {
    elements: ["senza-misura"],
    music: attributes("<time><senza-misura/></time>"),
    shows: (score) => bar(score)?.meter,
    as: null,
  },
  {
    elements: ["key", "fifths", "mode"],
    music: attributes("<key><fifths>-1</fifths><mode>major</mode></key>"),
    shows: (score) => bar(score)?.key,
    as: { fifths: -1, mode: "major" },
  },
  {
    elements: ["barline", "repeat", "ending"],
    music: `<barline location="left"><ending number="1" type="start"/></barline>${note("D4")}<barline location="right"><ending number="1" type="stop"/><repeat direction="backward" times="3"/></barline>`,
    shows: (score) => [bar(score)?.repeatTimes, bar(score)?.endings],
    as: [3, [1]],
  },
  {
    elements: ["transpose", "diatonic", "chromatic", "octave-change"],
    music: attributes(
      "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose>",
    ),
    shows: line,
    as: ["C3 0+1"],
  },
];

const DIRECTIONS: readonly ReadRow[] = [
  {
    elements: ["direction", "direction-type", "words"],
    music: direction("<words>calm</words>"),
    shows: (score) => first(score)?.words,
    as: ["calm"],
  },
  ...["p", "pp", "ppp", "pppp", "ppppp", "pppppp", "f", "ff", "fff", "ffff", "fffff", "ffffff", "mp", "mf", "n"]
    .concat("sf", "sfp", "sfpp", "fp", "rf", "rfz", "sfz", "sffz", "fz", "pf", "sfzp")
    .map(
      (name): ReadRow => ({
        elements: [name],
        music: direction(`<dynamics><${name}/></dynamics>`),
        shows: (score) => first(score)?.dynamic,
        as: name,
      }),
    ),
  {
    elements: ["dynamics", "other-dynamics"],
    music: marked("<dynamics><other-dynamics>piano assai</other-dynamics></dynamics>"),
    shows: (score) => first(score)?.dynamic,
    as: "piano assai",
  },
  {
    elements: ["wedge"],
    music: `${direction('<wedge type="crescendo"/>')}${direction('<wedge type="stop"/>')}`,
    shows: (score) => score.wedges.map(({ kind }) => kind),
    as: ["crescendo"],
  },
  {
    elements: ["octave-shift"],
    music: direction('<octave-shift type="down" size="8"/>'),
    shows: (score) => [first(score)?.written.octave, first(score)?.sounding.octave],
    as: [3, 4],
  },
  {
    elements: ["metronome", "beat-unit", "beat-unit-dot", "per-minute"],
    music: direction(
      "<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome>",
    ),
    shows: tempos,
    as: [90],
  },
  {
    elements: ["beat-unit-tied"],
    music: direction(
      "<metronome><beat-unit>quarter</beat-unit><beat-unit-tied><beat-unit>16th</beat-unit></beat-unit-tied><per-minute>60</per-minute></metronome>",
    ),
    shows: tempos,
    as: [75],
  },
  {
    elements: ["sound", "offset"],
    music: direction("<words>slower</words>", '<sound tempo="50"><offset>1</offset></sound>') + note("E4"),
    shows: (score) => score.tempos.map((one) => [one.onset.valueOf(), one.quartersPerMinute]),
    as: [[1, 50]],
  },
  {
    elements: ["straight"],
    music: `<sound><swing><straight/></swing></sound>${note("D4")}`,
    shows: (score) => score.unread,
    as: [],
  },
];

const lyric = '<lyric number="1"><text>far</text><elision>~</elision><text>off</text></lyric>';

const MARKS: readonly ReadRow[] = [
  {
    elements: ["notations", "fermata"],
    music: marked("<fermata/>"),
    shows: (score) => first(score)?.marks.fermata,
    as: true,
  },
  {
    elements: ["slur"],
    music: `${marked('<slur type="start"/>')}${marked('<slur type="stop"/>')}`,
    shows: (score) => score.slurs.map(({ count }) => count),
    as: [2],
  },
  ...["slide", "glissando"].map(
    (name): ReadRow => ({
      elements: [name],
      music: `${marked(`<${name} type="start"/>`)}${marked(`<${name} type="stop"/>`)}`,
      shows: (score) => score.notes.map(({ marks }) => marks.slideTo),
      as: [false, true],
    }),
  ),
  ...["staccato", "staccatissimo", "spiccato"].map(
    (name): ReadRow => ({
      elements: ["articulations", name],
      music: marked(`<articulations><${name}/></articulations>`),
      shows: (score) => first(score)?.marks.staccato,
      as: true,
    }),
  ),
  ...["trill-mark", "wavy-line"].map(
    (name): ReadRow => ({
      elements: ["ornaments", name],
      music: marked(`<ornaments><${name} type="start"/></ornaments>`),
      shows: (score) => first(score)?.marks.vibrato,
      as: true,
    }),
  ),
  // Marks of stress are kept and plain in any hand; the others are judged by the rule on ornaments of other instruments.
  ...["accent", "strong-accent", "soft-accent", "tenuto", "detached-legato", "stress", "unstress"]
    .concat("scoop", "plop", "doit", "falloff")
    .map((name) => kept("articulations", name)),
  ...["turn", "delayed-turn", "inverted-turn", "delayed-inverted-turn", "vertical-turn", "inverted-vertical-turn"]
    .concat("shake", "mordent", "inverted-mordent", "schleifer", "tremolo", "haydn")
    .map((name) => kept("ornaments", name)),
  ...["up-bow", "down-bow", "double-tongue", "triple-tongue", "snap-pizzicato"].map((name) => kept("technical", name)),
  {
    elements: ["bend", "bend-alter", "pre-bend", "release", "with-bar"],
    music: technical(
      "<bend><bend-alter>1</bend-alter><pre-bend/></bend><bend><bend-alter>1</bend-alter><release/><with-bar>dip</with-bar></bend>",
    ),
    shows: marksOf,
    as: ["bend"],
  },
  { elements: ["arpeggiate"], music: marked("<arpeggiate/>"), shows: marksOf, as: ["arpeggiate"] },
  {
    elements: ["technical", "string", "fingering", "pluck"],
    music: technical("<string>4</string><fingering>ring</fingering><pluck>gou</pluck>"),
    shows: (score) => [first(score)?.given.string, first(score)?.given.finger, first(score)?.given.stroke],
    as: [4, "ring", "gou"],
  },
  {
    elements: ["open-string"],
    music: technical("<open-string/>"),
    shows: (score) => first(score)?.given.sound,
    as: "open",
  },
  {
    elements: ["harmonic", "natural"],
    music: technical("<harmonic><natural/></harmonic>"),
    shows: (score) => first(score)?.marks.harmonic,
    as: true,
  },
  {
    elements: ["artificial", "sounding-pitch"],
    music: technical("<harmonic><artificial/><sounding-pitch/></harmonic>"),
    shows: (score) => [first(score)?.marks.harmonic, score.unread],
    as: [true, []],
  },
  {
    elements: ["other-technical"],
    music: technical("<other-technical>san gou 3</other-technical>"),
    shows: (score) => first(score)?.given.text,
    as: "san gou 3",
  },
  {
    elements: ["lyric", "text", "elision"],
    music: note("D4", lyric),
    shows: (score) => first(score)?.lyrics,
    as: [{ verse: "1", text: "far~off" }],
  },
];

function kept(group: string, name: string): ReadRow {
  return { elements: [group, name], music: marked(`<${group}><${name}/></${group}>`), shows: marksOf, as: [name] };
}

const HEAD: readonly ReadRow[] = [
  {
    elements: ["work", "work-title", "identification", "creator"],
    music: headed(
      '<work><work-title>月兒高</work-title></work><identification><creator type="composer">Anon.</creator></identification>',
    ),
    shows: ({ title, creator }) => [title, creator],
    as: ["月兒高", "Anon."],
  },
  {
    elements: ["movement-title"],
    music: headed("<movement-title>Ода</movement-title>"),
    shows: ({ title }) => title,
    as: "Ода",
  },
  {
    elements: ["credit", "credit-type", "credit-words"],
    music: headed(
      '<credit page="1"><credit-type>title</credit-type><credit-words>قمر</credit-words></credit><credit page="1"><credit-type>composer</credit-type><credit-words>Anon.</credit-words></credit>',
    ),
    shows: ({ title, creator }) => [title, creator],
    as: ["قمر", "Anon."],
  },
];

function headed(head: string): string {
  return `<score-partwise>${head}${part(ONE_BAR)}</score-partwise>`;
}

/** Rows whose music is read here. */
export const READ: readonly ReadRow[] = [...TIME, ...BARS, ...DIRECTIONS, ...MARKS, ...HEAD];

/** Rows whose music is read in another test. */
export const READ_ELSEWHERE: readonly ElsewhereRow[] = [
  {
    elements: ["miscellaneous", "miscellaneous-field"],
    file: "tests/write/annotate.test.ts",
    test: "a setting that somebody changed beyond recognition is refused with its line",
  },
];
