// SPDX-License-Identifier: AGPL-3.0-or-later
// The annotated score as bytes: in the encoding that it was read in, plain or packed as .mxl.
import { strToU8, type Zippable, zipSync } from "fflate";
import type { SourceText } from "../read/score.js";
import type { Archive } from "../read/unpack.js";
import { MADE_BY } from "./output.js";
import { escaped } from "./splice.js";

/** Text as bytes, in the encoding and with the byte order mark of the document that was read. */
export function encodeText(text: string, { encoding, byteOrderMark }: SourceText): Uint8Array {
  const marked = byteOrderMark ? `\ufeff${text}` : text;
  if (encoding === "utf-8") return Buffer.from(marked, "utf8");
  const bytes = Buffer.from(marked, "utf16le");
  return encoding === "utf-16le" ? bytes : bytes.swap16();
}

const CONTAINER = "META-INF/container.xml";
const MIME_TYPE = "application/vnd.recordare.musicxml";

/** A container that names one score (MusicXML 4.0, container.xsd). */
const containerOf = (path: string): string =>
  `<?xml version="1.0" encoding="UTF-8"?>
<container>
  <rootfiles>
    <rootfile full-path="${escaped(path).replaceAll('"', "&quot;")}" media-type="${MIME_TYPE}+xml"/>
  </rootfiles>
</container>
`;

/** Equal scores give equal archives: the day that zip counts from, instead of today. */
const EPOCH = new Date(1980, 0, 1);
/** The number of our extra field: of those that the zip format leaves to anyone. */
const EXTRA_FIELD = 0x6875;

/**
 * A score packed as .mxl. The other files of the archive that it came from stay in it.
 *
 * @param archive null for a score that was not packed
 */
export function packScore(document: Uint8Array, archive: Archive | null): Uint8Array {
  const path = archive?.path ?? "score.musicxml";
  const entries = new Map<string, Uint8Array>([
    ["mimetype", strToU8(MIME_TYPE)],
    [CONTAINER, strToU8(containerOf(path))],
    ...(archive?.entries ?? []),
    [path, document],
  ]);
  const files: Zippable = {};
  for (const [name, content] of entries) {
    // The type stands first and uncompressed, where it can be seen from outside; the mark that huipath made it comes next.
    const options = name === "mimetype" ? { level: 0 as const } : { extra: name === CONTAINER ? EXTRA : {} };
    files[name] = [content, { mtime: EPOCH, ...options }];
  }
  return zipSync(files);
}

const EXTRA = { [EXTRA_FIELD]: strToU8(MADE_BY) };
