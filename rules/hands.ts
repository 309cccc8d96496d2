// SPDX-License-Identifier: AGPL-3.0-or-later
// The hands that --hand may name: data in rules/hands, checked when read.

import { parse } from "yaml";
import { z } from "zod";
import { didYouMean } from "../src/model/nearest.js";
import type { Hand } from "../src/model/setting.js";
import { InputProblem } from "../src/problem.js";

/** Names of the hands that come with huipath; each has its file in rules/hands. */
export const HAND_NAMES = ["small", "medium", "large", "beginner", "experienced"] as const;

const cm = z.number().positive().max(40);
const perSecond = z.number().positive().max(200);

const SCHEMA = z.strictObject({
  frameNearCm: cm,
  frameFarCm: cm,
  frameNearHighCm: cm,
  comfortableSpanCm: cm,
  spanLimitCm: cm,
  freeShiftCm: cm,
  comfortableCmPerSecond: perSecond,
  plucksPerSecond: perSecond,
  plucksPerSecondOneFinger: perSecond,
  plucksPerSecondWithShift: perSecond,
  jointAndKneelingExtra: z.number().min(0).max(3),
});

/**
 * Reads a hand from the text of its YAML file.
 *
 * @param name what the report calls it
 * @throws InputProblem naming the first key that is wrong
 */
export function readHand(text: string, name: string): Hand {
  const result = SCHEMA.safeParse(yamlOf(text, name));
  if (result.success) return { name, ...result.data };
  const issue = result.error.issues[0];
  const keys = Object.keys(SCHEMA.shape).join(", ");
  throw new InputProblem(
    "bad-hand",
    `hand ${name}`,
    `${issue?.path.join(".") || "the file"}: ${issue?.message}`,
    `a hand file has the keys ${keys}`,
  );
}

function yamlOf(text: string, name: string): unknown {
  try {
    return parse(text);
  } catch (error) {
    const said = error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);
    throw new InputProblem(
      "bad-hand",
      `hand ${name}`,
      `this is no YAML: ${said}`,
      "write one key and its number a line, such as spanLimitCm: 13.5",
    );
  }
}

/** The message for a name that is neither a known hand nor a file. */
export function unknownHand(name: string): InputProblem {
  return new InputProblem(
    "unknown-hand",
    "--hand",
    `no hand called "${name}"`,
    `${didYouMean(name, HAND_NAMES)}known: ${HAND_NAMES.join(", ")}; or give a YAML file`,
  );
}
