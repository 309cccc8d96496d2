// SPDX-License-Identifier: AGPL-3.0-or-later
// What a short text was read as, kept for the next time that it is met: a score says the same few forms over and over.

/** Texts that a reader keeps at most; then it begins anew. A line of fingering has some hundred different forms. */
const MOST_TEXTS = 1_000;
/** Longer texts are read each time. */
const MOST_CHARACTERS = 100;

/**
 * A reader of texts that reads the same text once. What it reads must depend on the text alone, and nobody may change it.
 *
 * @param read the reader to ask the first time
 */
export function remembered<T>(read: (text: string) => T): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined || known.has(text)) return before as T;
    if (text.length > MOST_CHARACTERS) return read(text);
    if (known.size >= MOST_TEXTS) known.clear();
    const own = detached(text);
    const result = read(own);
    known.set(own, result);
    return result;
  };
}

/** The same text in memory of its own: a piece of a document would keep all of that document in memory. */
function detached(text: string): string {
  return Buffer.from(text, "utf16le").toString("utf16le");
}
