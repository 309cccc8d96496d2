// SPDX-License-Identifier: AGPL-3.0-or-later

/** A word of a command as it is typed: in quotes where a shell would take it apart. */
export function shellWord(word: string): string {
  return /^[\w./,:+=#-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
