// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a command's outputs may go.

import { basename, resolve } from "node:path";
import { InputProblem } from "../problem.js";
import { inLanguage, type Language, oneLine, printableJson } from "../words.js";
import { checkOutputs, type Output, writeOutput } from "../write/output.js";

/** The page's place when none is named: the score's name without its ending, in the working folder. */
export function pagePath(score: string, kind: "report" | "fit" | "compare"): string {
  const stem = score === "-" ? "score" : basename(score).replace(/\.(musicxml|xml|mxl)$/i, "");
  return `${stem}.${kind}.html`;
}

/**
 * Makes sure that at most one output goes to standard output, that none replaces what the call reads, and that each can
 * be written.
 *
 * @param outputs by option; null or undefined for none
 * @param inputs  files that the call reads; undefined for none
 * @throws InputProblem naming the first that cannot
 */
export function guardOutputs(
  outputs: Readonly<Record<string, string | null | undefined>>,
  inputs: readonly (string | undefined)[],
  force: boolean,
): void {
  const paths = Object.values(outputs).filter((path) => path !== null && path !== undefined);
  if (paths.filter((path) => path === "-").length > 1)
    throw new InputProblem(
      "two-streams",
      Object.keys(outputs).join(", "),
      "more than one asks for standard output",
      "let the others name files",
    );
  const read = inputs.filter((path) => path !== undefined).map((path) => resolve(path));
  const swallowed = paths.find((path) => path !== "-" && read.includes(resolve(path)));
  if (swallowed !== undefined)
    throw new InputProblem(
      "output-is-input",
      swallowed,
      "this file is read by the same call",
      "let the output have another name",
    );
  checkOutputs(
    paths.filter((path) => path !== "-"),
    force,
  );
}

/** Writes the outputs that go to files, and returns the one that goes to standard output; undefined for none. */
export async function deliver(outputs: readonly Output[]): Promise<Output["content"] | undefined> {
  for (const output of outputs) if (output.path !== "-") await writeOutput(output);
  return outputs.find((output) => output.path === "-")?.content;
}

/** What is said of rules that failed, by id. */
export function crashLines(crashed: Iterable<readonly [rule: string, message: string]>): string {
  return [...crashed]
    .map(([rule, message]) => `the rule ${rule} failed and was left out: ${oneLine(message)}\n`)
    .join("");
}

/** A value as JSON on one line, its texts in one language. */
export function jsonText(value: object, language: Language): string {
  return `${printableJson(JSON.stringify(inLanguage(value, language)))}\n`;
}
