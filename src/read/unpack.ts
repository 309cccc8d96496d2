// SPDX-License-Identifier: AGPL-3.0-or-later
// From bytes to the text of a MusicXML document: archives, encodings, and the limits on both.
import { Unzip, type UnzipFileInfo, UnzipInflate, unzipSync } from "fflate";
import { InputProblem } from "../problem.js";
import { MAX_ARCHIVE_ENTRIES, MAX_BYTES, MAX_UNPACKED_RATIO, RATIO_COUNTS_FROM_BYTES } from "./limits.js";
import { child, children, parseXml } from "./xml.js";

const CONTAINER = "META-INF/container.xml";
const SCORE_TYPE = "application/vnd.recordare.musicxml+xml";
const SCORE_NAME = /\.(musicxml|xml)$/i;
/** How much of an archive is handed over at a time, so that what comes out is counted early. */
const PIECE = 16 * 1024;

/** How a document's text is stored. */
export type TextEncoding = "utf-8" | "utf-16le" | "utf-16be";

/** A document's text, and what it takes to store it in the same way. */
export interface Unpacked {
  /** without the byte order mark */
  readonly text: string;
  readonly encoding: TextEncoding;
  readonly byteOrderMark: boolean;
}

/**
 * The text of the score in a plain or a packed (.mxl) file; what counts is the content, not the file's ending.
 *
 * @throws InputProblem when it is too large, empty, a broken archive, or not UTF-8 or UTF-16
 */
export function unpack(bytes: Uint8Array, file: string): Unpacked {
  if (bytes.length > MAX_BYTES) throw tooLarge(file);
  if (!isArchive(bytes)) return decode(bytes, file);
  const path = scorePath(bytes, file);
  const packed = extract(bytes, file, (name) => name === path);
  if (packed === null)
    throw new InputProblem("broken-archive", file, `the archive holds no ${path}`, "export it from the editor again");
  return decode(packed, file);
}

/** The files of an archive. */
export interface Archive {
  /** the score's name in it */
  readonly path: string;
  /** all files by name, in their order; folders are left out */
  readonly entries: ReadonlyMap<string, Uint8Array>;
}

/**
 * All that a packed (.mxl) file holds, so that it can be packed again; null for a plain file.
 *
 * @throws InputProblem when it is too large or a broken archive
 */
export function unpackAll(bytes: Uint8Array, file: string): Archive | null {
  if (!isArchive(bytes)) return null;
  const path = scorePath(bytes, file);
  let size = 0;
  let entries = 0;
  const isWanted = (entry: UnzipFileInfo): boolean => {
    if (++entries > MAX_ARCHIVE_ENTRIES) throw tooManyEntries(file);
    size += entry.originalSize;
    if (size > MAX_BYTES) throw tooLarge(file);
    return !entry.name.endsWith("/");
  };
  try {
    return { path, entries: new Map(Object.entries(unzipSync(bytes, { filter: isWanted }))) };
  } catch (error) {
    throw error instanceof InputProblem ? error : brokenArchive(file);
  }
}

function isArchive(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 0x03 && bytes[3] === 0x04;
}

/** The entry that the container names; the first that looks like a score where there is no container. */
function scorePath(bytes: Uint8Array, file: string): string {
  const container = extract(bytes, file, (name) => name === CONTAINER);
  if (container === null) return firstScore(bytes, file);
  const root = parseXml(decode(container, file).text, `${file} (${CONTAINER})`);
  const roots = children(child(root, "rootfiles") ?? root, "rootfile").map((entry) => ({
    path: entry.getAttribute("full-path") ?? "",
    type: entry.getAttribute("media-type") ?? SCORE_TYPE,
  }));
  // The first is the score (MusicXML 4.0, container). Types of other names are met; then the ending of the name counts.
  const named =
    roots.find(({ path, type }) => path !== "" && type === SCORE_TYPE)?.path ??
    roots.find(({ path }) => SCORE_NAME.test(path))?.path;
  if (named === undefined)
    throw new InputProblem("broken-archive", file, "its container names no score", "export it from the editor again");
  return named;
}

function firstScore(bytes: Uint8Array, file: string): string {
  const names: string[] = [];
  extract(bytes, file, (name) => {
    if (SCORE_NAME.test(name) && !name.startsWith("META-INF/")) names.push(name);
    return false;
  });
  const first = names[0];
  if (first === undefined)
    throw new InputProblem("not-musicxml", file, "this archive holds no MusicXML", "export the score as MusicXML");
  return first;
}

/** Unpacks the first entry that is wanted, in memory, counting what comes out: a declared size may lie. */
function extract(bytes: Uint8Array, file: string, wanted: (name: string) => boolean): Uint8Array | null {
  const pieces: Uint8Array[] = [];
  let size = 0;
  let entries = 0;
  let found = false;
  let finished = false;
  const archive = new Unzip((entry) => {
    if (++entries > MAX_ARCHIVE_ENTRIES) throw tooManyEntries(file);
    if (found || !wanted(entry.name)) return;
    if ((entry.originalSize ?? 0) > MAX_BYTES) throw tooLarge(file);
    found = true;
    entry.ondata = (error, data, final) => {
      if (error !== null) throw error;
      size += data.length;
      if (size > MAX_BYTES) throw tooLarge(file);
      if (size > RATIO_COUNTS_FROM_BYTES && size > MAX_UNPACKED_RATIO * bytes.length) throw tooDense(file);
      pieces.push(data);
      finished ||= final;
    };
    entry.start();
  });
  archive.register(UnzipInflate);
  try {
    for (let from = 0; from < bytes.length && !finished; from += PIECE)
      archive.push(bytes.subarray(from, from + PIECE), from + PIECE >= bytes.length);
  } catch (error) {
    throw error instanceof InputProblem ? error : brokenArchive(file);
  }
  if (found && !finished) throw brokenArchive(file);
  return found ? joined(pieces, size) : null;
}

function joined(pieces: readonly Uint8Array[], size: number): Uint8Array {
  const whole = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** UTF-8, or UTF-16 by its byte order mark or by how its first `<` is stored; a byte that fits neither is refused. */
function decode(bytes: Uint8Array, file: string): Unpacked {
  if (bytes.length === 0)
    throw new InputProblem("not-xml", file, "the file is empty", "export the score as MusicXML again");
  const [first, second, third] = bytes;
  const little = (first === 0xff && second === 0xfe) || (first === 0x3c && second === 0);
  const big = (first === 0xfe && second === 0xff) || (first === 0 && second === 0x3c);
  const encoding = little ? "utf-16le" : big ? "utf-16be" : "utf-8";
  const byteOrderMark = first === 0xff || first === 0xfe || (first === 0xef && second === 0xbb && third === 0xbf);
  try {
    return { text: new TextDecoder(encoding, { fatal: true }).decode(bytes), encoding, byteOrderMark };
  } catch {
    throw new InputProblem(
      "bad-encoding",
      file,
      `its text is not valid ${encoding.toUpperCase()}`,
      "save it as UTF-8, or export the score as MusicXML",
    );
  }
}

function tooLarge(file: string): InputProblem {
  return new InputProblem(
    "too-large",
    file,
    `its score is above the limit of ${MAX_BYTES / 1024 / 1024} MB`,
    "export the melody's part alone",
  );
}

function tooDense(file: string): InputProblem {
  return new InputProblem(
    "too-large",
    file,
    `its score unpacks to more than the limit of ${MAX_UNPACKED_RATIO} times the archive's size`,
    "export the score as plain MusicXML",
  );
}

function tooManyEntries(file: string): InputProblem {
  return new InputProblem(
    "too-large",
    file,
    `the archive holds more than the limit of ${MAX_ARCHIVE_ENTRIES} entries`,
    "export the score as plain MusicXML",
  );
}

function brokenArchive(file: string): InputProblem {
  return new InputProblem("broken-archive", file, "the archive is damaged", "export it from the editor again");
}
