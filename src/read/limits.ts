// SPDX-License-Identifier: AGPL-3.0-or-later
// How much of anything a score or a brief may hold: input from outside must not exhaust memory or time. Each limit lies
// far above what is written down for music; what they hold off was measured with made files.

/** Bytes of a file, packed or not, and of the score inside an .mxl archive: 32 MB. */
export const MAX_BYTES = 32 * 1024 * 1024;
/** Bytes of a brief or of a hand's file: 64 KB. */
export const MAX_YAML_BYTES = 64 * 1024;
/** Entries of an .mxl archive. */
export const MAX_ARCHIVE_ENTRIES = 1_000;
/** How many times its packed size a score may unpack to; printed music packs 10 to 40 to 1. */
export const MAX_UNPACKED_RATIO = 250;
/** Scores that unpack to less than this may have any ratio, in bytes. */
export const RATIO_COUNTS_FROM_BYTES = 1024 * 1024;
/** Levels of nested elements. */
export const MAX_DEPTH = 64;
/** Elements of a document, attributes counted with them. */
export const MAX_ELEMENTS = 1_500_000;
/** Elements directly inside one that is no score, part, bar or list of parts, such as a note. */
export const MAX_CHILDREN = 1_000;
/** Attributes of one element. */
export const MAX_ATTRIBUTES = 200;
/** Characters of one attribute. */
export const MAX_ATTRIBUTE_CHARACTERS = 64 * 1024;
/** Characters of the text of one element. */
export const MAX_TEXT_CHARACTERS = 64 * 1024;
/** Characters of a comment, a processing instruction, a CDATA section or a document type declaration. */
export const MAX_ASIDE_CHARACTERS = 1024 * 1024;
/** Characters of a title, a name, a lyric or words that are passed on; longer ones are shortened. */
export const MAX_SHOWN_CHARACTERS = 500;
/** Characters of a bar's printed label that are passed on. */
export const MAX_LABEL_CHARACTERS = 40;
/** Characters of `--bars`, and of the bars that a brief names. */
export const MAX_SPAN_CHARACTERS = 200;
/** Parts of a score. */
export const MAX_PARTS = 1_000;
/** Bars of a score. */
export const MAX_BARS = 20_000;
/** Voices of one part. */
export const MAX_VOICES = 250;
/** Notes of one part, in all its voices. */
export const MAX_NOTES = 30_000;
/** Directions and sounds of one part, such as words, dynamics and tempos. */
export const MAX_DIRECTIONS = 50_000;
/** Elements directly in the bars of one part: notes, directions, keys, barlines and all others. */
export const MAX_PART_ELEMENTS = 200_000;
/** Notes of the melody that is searched. */
export const MAX_MELODY_NOTES = 10_000;
/** Notes of one chord, and grace notes before one note: no string is struck so often at once. */
export const MAX_NOTES_AT_ONCE = 100;
/** Quarter notes in one bar. */
export const MAX_BAR_QUARTERS = 100_000;
/** The finest part of a quarter note that a bar may be cut into. */
export const MAX_DENOMINATOR = 1_000_000_000_000n;
