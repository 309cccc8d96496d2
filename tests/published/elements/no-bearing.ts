// SPDX-License-Identifier: AGPL-3.0-or-later
// Elements of MusicXML 4.0 that have no bearing on what a melody sounds or where it is, by what they are for.

const words = (text: string): readonly string[] => text.trim().split(/\s+/);

/** Names of elements by the reason. */
export const NO_BEARING: Readonly<Record<string, readonly string[]>> = {
  "the page: its size, margins, systems and staves": words(`
    defaults scaling millimeters tenths page-layout page-height page-width page-margins left-margin right-margin
    top-margin bottom-margin system-layout system-margins system-distance top-system-distance system-dividers
    left-divider right-divider staff-layout staff-distance measure-layout measure-distance print measure-numbering
    staves part-symbol staff-lines line-detail staff-size
  `),
  "looks: fonts, widths of lines, sizes, glyphs, pictures": words(`
    appearance line-width note-size distance glyph other-appearance music-font word-font lyric-font lyric-language
    credit-image credit-symbol bar-style
  `),
  "how a pitch is written, which the pitch itself says": words(`
    line clef-octave-change cancel accidental accidental-mark accidental-text notehead-text concert-score
  `),
  "how a length is written, which the duration itself says": words(`
    beam tuplet tuplet-actual tuplet-normal tuplet-number tuplet-type tuplet-dot normal-type normal-dot
    multiple-rest slash-type slash-dot except-voice
  `),
  "which of several lines is taken for the melody (tests/read/choice.test.ts)": words(`
    score-instrument instrument-name instrument-sound midi-instrument midi-channel part-abbreviation staff-type clef sign
    stem
  `),
  "a second way to count a bar whose first is read": words("interchangeable time-relation"),
  "transposed parts that can be printed from a score in concert pitch": words("for-part part-clef part-transpose"),
  "syllables: where a word goes on, how it is sung": words(`
    syllabic extend laughing humming end-line end-paragraph
  `),
  "letters and lines that help to find a place, or that go with words": words("rehearsal dashes bracket directive"),
  "names, groups and brackets of parts": words(`
    part-abbreviation-display part-group group group-name group-name-display group-abbreviation
    group-abbreviation-display group-symbol group-barline group-time
  `),
  "playback: sounds, channels and devices": words(`
    instrument instruments instrument-abbreviation instrument-change midi-device midi-name midi-bank midi-program
    midi-unpitched volume pan elevation virtual-instrument virtual-library virtual-name ensemble solo play ipa mute
    semi-pitched other-play
  `),
  "programs that listen to a player": words(`
    player player-name listening listen assess wait other-listen other-listening sync
  `),
  "who made the file, from what, with which rights": words(`
    rights source relation encoding encoding-date encoder software encoding-description supports work-number
    movement-number
  `),
  "links to other files, and places in them": words("opus link bookmark instrument-link group-link part-link"),
  "an editor's notes and analysis": words("footnote level grouping feature"),
};
