// SPDX-License-Identifier: AGPL-3.0-or-later
// The bytes of a file or of standard input.
import { readFileSync, statSync } from "node:fs";
import { InputProblem } from "../problem.js";
import { MAX_BYTES, MAX_YAML_BYTES } from "./limits.js";

/** The file descriptor of standard input. */
const STANDARD_INPUT = 0;

/**
 * Reads a whole file; `-` reads standard input.
 *
 * @throws InputProblem when the name is empty, there is no such file, it is a folder, it may not be read or it is too large
 */
export function readBytes(path: string): Uint8Array {
  if (path.trim() === "") throw new InputProblem("no-file", "the score", "its name is empty", "name a MusicXML file");
  const place = path === "-" ? "standard input" : path;
  try {
    if (path !== "-") guardFile(path);
    const bytes = readFileSync(path === "-" ? STANDARD_INPUT : path);
    if (bytes.length > MAX_BYTES) throw tooLarge(place, bytes.length);
    return bytes;
  } catch (error) {
    if (error instanceof InputProblem) throw error;
    throw cannotRead(place, error);
  }
}

/**
 * Reads the text of a brief or of a hand; `-` reads standard input.
 *
 * @throws InputProblem as {@link readBytes} does, and when it is too large or no UTF-8
 */
export function readYamlText(path: string): string {
  const bytes = readBytes(path);
  const place = path === "-" ? "standard input" : path;
  if (bytes.length > MAX_YAML_BYTES)
    throw new InputProblem(
      "too-large",
      place,
      `it holds ${Math.ceil(bytes.length / 1024)} KB, above the limit of ${MAX_YAML_BYTES / 1024} KB`,
      "name a YAML file of a few lines",
    );
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new InputProblem("bad-encoding", place, "its text is not valid UTF-8", "save it as UTF-8");
  }
}

function guardFile(path: string): void {
  const found = statSync(path);
  if (found.isDirectory())
    throw new InputProblem("is-folder", path, "this is a folder, not a score", "name a MusicXML file in it");
  if (found.size > MAX_BYTES) throw tooLarge(path, found.size);
}

function tooLarge(place: string, bytes: number): InputProblem {
  return new InputProblem(
    "too-large",
    place,
    `it holds ${Math.ceil(bytes / 1024 / 1024)} MB, above the limit of ${MAX_BYTES / 1024 / 1024} MB`,
    "export the melody's part alone",
  );
}

function cannotRead(place: string, error: unknown): InputProblem {
  const code = error instanceof Error && "code" in error ? String(error.code) : "unknown";
  if (code === "ENOENT" || code === "ENOTDIR")
    return new InputProblem("no-file", place, "no such file", "check the name and the folder");
  if (code === "EACCES" || code === "EPERM")
    return new InputProblem("no-access", place, "this file may not be read", "allow reading it");
  return new InputProblem("unreadable-file", place, `it cannot be read (${code})`, "try a copy of the file");
}
