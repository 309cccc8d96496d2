// SPDX-License-Identifier: AGPL-3.0-or-later
// How much of anything a score may hold: input from outside must not exhaust memory or time.

/** Bytes of a file, packed or not, and of the score inside an .mxl archive: 32 MB. */
export const MAX_BYTES = 32 * 1024 * 1024;
/** Entries of an .mxl archive. */
export const MAX_ARCHIVE_ENTRIES = 1_000;
/** Levels of nested elements. */
export const MAX_DEPTH = 64;
/** Elements of a document. */
export const MAX_ELEMENTS = 3_000_000;
/** Attributes of one element. */
export const MAX_ATTRIBUTES = 200;
/** Characters of one attribute. */
export const MAX_ATTRIBUTE_CHARACTERS = 64 * 1024;
/** Notes of one line: the search's whole-number costs stay exact up to here. */
export const MAX_NOTES = 150_000;
/** Quarter notes in one bar. */
export const MAX_BAR_QUARTERS = 100_000;
/** The finest part of a quarter note that a bar may be cut into. */
export const MAX_DENOMINATOR = 1_000_000_000_000n;
