// SPDX-License-Identifier: AGPL-3.0-or-later
// Values of options that several commands share.

import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { HAND_NAMES, readHand, unknownHand } from "../../rules/hands.js";
import { parseTransposition, type Transposition, UNTRANSPOSED } from "../model/pitch.js";
import type { Score } from "../model/score.js";
import type { Hand } from "../model/setting.js";
import { InputProblem } from "../problem.js";
import { readYamlText } from "../read/file.js";
import { LANGUAGES, type Language } from "../words.js";

/** One of the known values. @throws InputProblem naming them all */
export function oneOf<const T extends string>(text: string, known: readonly T[], option: string): T {
  const found = known.find((value) => value === text);
  if (found === undefined)
    throw new InputProblem("unknown-value", option, `no such value: "${text}"`, `known: ${known.join(", ")}`);
  return found;
}

/** A hand of ours by name, or of a YAML file. @throws InputProblem for an unknown name or an unusable file */
export function findHand(name: string): Hand {
  const own = HAND_NAMES.find((known) => known === name);
  if (own !== undefined)
    return readHand(readFileSync(new URL(`../../rules/hands/${own}.yaml`, import.meta.url), "utf8"), own);
  if (!/\.ya?ml$/i.test(name)) throw unknownHand(name);
  return readHand(readYamlText(name), basename(name).replace(/\.ya?ml$/i, ""));
}

/**
 * A transposition as typed.
 *
 * @param place where it was said, for the message
 * @throws InputProblem when it is none, or farther than 48 semitones
 */
export function readTransposition(text: string | undefined, score: Score, place: string): Transposition {
  if (text === undefined) return UNTRANSPOSED;
  const transposition = parseTransposition(text, score.bars[0]?.key.fifths ?? 0);
  if (transposition === null || Math.abs(transposition.semitones) > 48)
    throw new InputProblem(
      "bad-transposition",
      place,
      `"${text}" is no transposition`,
      "say semitones from -48 to 48 such as -12, or an interval such as -P5 or M2",
    );
  return transposition;
}

/** A number as typed. @throws InputProblem when it is none, or lies outside */
export function numberIn(
  text: string,
  option: string,
  { from, to, whole }: { readonly from: number; readonly to: number; readonly whole: boolean },
): number {
  const value = /^\d+(\.\d+)?$/.test(text.trim()) ? Number(text) : Number.NaN;
  if (value >= from && value <= to && (!whole || Number.isInteger(value))) return value;
  const wanted = `say a ${whole ? "whole " : ""}number from ${from} to ${to}`;
  throw new InputProblem("bad-number", option, `"${text}" does not fit`, wanted);
}

/** The language that reports are to be in; English where none is named. @throws InputProblem for one that is not known */
export function languageOf(lang: string | undefined): Language {
  return oneOf(lang ?? "en", LANGUAGES, "--lang");
}
