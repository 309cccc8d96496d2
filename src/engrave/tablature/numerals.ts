// SPDX-License-Identifier: AGPL-3.0-or-later
// Numbers of hui and of strings in Chinese numerals.
import { beside, rows } from "./boxes.js";
import type { ComponentName } from "./components.js";
import type { Box, Part } from "./part.js";

const NUMERALS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"] as const;

/** The numeral of a number from 0 to 10. */
export function numeral(number: number): ComponentName {
  const name = NUMERALS[number];
  if (name === undefined) throw new RangeError(`no numeral for ${number}`);
  return name;
}

/** The place outside hui 13, which has a sign of its own. */
const WAI = 13.1;

/** A place along the strings in rows: the hui, and below it the part of the way to the next. */
function placeRows(position: number): readonly (readonly ComponentName[])[] {
  const hundredths = Math.round(position * 100);
  if (hundredths === WAI * 100) return [["wai"]];
  const hui = Math.floor(hundredths / 100);
  const beyond = hundredths % 100;
  // Ten and a unit stand beside each other: a unit below ten would say tenths.
  const above = hui > 10 ? [numeral(10), numeral(hui - 10)] : [numeral(hui)];
  if (beyond === 0) return [above];
  if (beyond === 50) return [above, ["half"]];
  const digits = beyond % 10 === 0 ? [beyond / 10] : [Math.floor(beyond / 10), beyond % 10];
  return [above, digits.map(numeral)];
}

/** The place along the strings in its box. */
export function layPlace(position: number, whole: Box): readonly Part[] {
  const lines = placeRows(position);
  const cells = rows(
    whole,
    50,
    lines.map(() => 1),
  );
  return lines.flatMap((line, i) => beside(cells[i] as Box, 30, line));
}
