// SPDX-License-Identifier: AGPL-3.0-or-later
// The hands that --hand may name: data in rules/hands, checked when read.
import { closest } from "fastest-levenshtein";
import { parse } from "yaml";
import { z } from "zod";
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
  const result = SCHEMA.safeParse(parse(text));
  if (result.success) return { name, ...result.data };
  const issue = result.error.issues[0];
  throw new InputProblem(
    "bad-hand",
    `hand ${name}`,
    `${issue?.path.join(".") || "the file"}: ${issue?.message}`,
    "compare it with rules/hands/medium.yaml",
  );
}

/** The message for a name that is neither a known hand nor a file. */
export function unknownHand(name: string): InputProblem {
  return new InputProblem(
    "unknown-hand",
    "--hand",
    `no hand called "${name}"`,
    `did you mean ${closest(name, [...HAND_NAMES])}? Known: ${HAND_NAMES.join(", ")}; or give a YAML file`,
  );
}
