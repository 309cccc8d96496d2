// SPDX-License-Identifier: AGPL-3.0-or-later
// The answer of `huipath where` for a terminal: one aligned table.
import type { Sound } from "../src/model/fingering.js";
import type { Strung } from "../src/model/places.js";
import { compass, type Question, type Spot } from "../src/model/where.js";
import { count } from "./words.js";

/** The sounds as composers and as players call them. */
const SOUND_WORDS: Readonly<Record<Sound, string>> = {
  open: "open (san)",
  stopped: "stopped (an)",
  harmonic: "harmonic (fan)",
};

/** A pitch that differs by less is not remarked on: nobody hears half a cent. */
const REMARKED_CENTS = 0.5;

/**
 * The answer as text.
 *
 * @example whereText({ about: "note", name: "D3", semitone: 50 }, spots, strung) // "D3 in standard tuning ...: 9 places.\n..."
 */
export function whereText(question: Question, spots: readonly Spot[], strung: Strung): string {
  const lines =
    question.about === "note"
      ? noteLines(question.name, spots, strung)
      : [placeHeading(question.string, spots, strung), "", ...table(spots), ...footnote(spots)];
  return `${lines.join("\n")}\n`;
}

function noteLines(name: string, spots: readonly Spot[], strung: Strung): readonly string[] {
  if (spots.length > 0)
    return [`${name} has ${count(spots.length, "place")} in ${settingWords(strung)}:`, "", ...table(spots)];
  const { lowest, highest } = compass(strung);
  return [
    `No string sounds ${name} in ${tuningWords(strung)}.`,
    `The strings reach from ${lowest}, the lowest open string, to ${highest}, the highest string stopped at hui 1.`,
  ];
}

function placeHeading(string: number, spots: readonly Spot[], strung: Strung): string {
  const place = spots[0]?.position ?? null;
  return `String ${string}, ${place === null ? "open" : `at ${place}`}, in ${settingWords(strung)}:`;
}

function settingWords(strung: Strung): string {
  return `${tuningWords(strung)}, ${strung.temperament} temperament`;
}

function tuningWords({ tuning }: Strung): string {
  if (tuning.name === "zhengdiao") return `standard tuning (${tuning.strings.join(" ")})`;
  const name = tuning.characters === "" ? "your own tuning" : `${tuning.title} tuning`;
  return `${name} (${tuning.strings.join(" ")})`;
}

const HEADER = ["string", "sound", "place", "cents above open", "sounds"] as const;
/** Columns of numbers stand flush right. */
const FLUSH_RIGHT = new Set([2, 3]);

function table(spots: readonly Spot[]): readonly string[] {
  const rows = [HEADER, ...spots.map(row)];
  const widths = HEADER.map((_, column) => Math.max(...rows.map((cells) => (cells[column] as string).length)));
  return rows.map((cells) =>
    cells
      .map((cell, column) => {
        const width = widths[column] as number;
        return FLUSH_RIGHT.has(column) ? cell.padStart(width) : cell.padEnd(width);
      })
      .join("  ")
      .trimEnd(),
  );
}

function row(spot: Spot): readonly string[] {
  const place = spot.position === null ? "-" : String(spot.position);
  const off = offWords(spot.offCents);
  return [
    String(spot.string),
    SOUND_WORDS[spot.sound],
    // Whole hui keep their column: the tenths of the others hang out to the right.
    place.includes(".") ? place : `${place}  `,
    spot.cents.toFixed(0),
    off === "" ? spot.pitch : `${spot.pitch}, ${off}`,
  ];
}

/** How far a place sounds from the note; empty where no one would hear it. */
function offWords(offCents: number): string {
  const cents = Math.abs(offCents);
  if (cents < REMARKED_CENTS) return "";
  const size = count(Math.round(cents), "cent");
  return `${size} ${offCents > 0 ? "high" : "low"}`;
}

/** A written place is a rounded one: said where a stop is off. */
function footnote(spots: readonly Spot[]): readonly string[] {
  const rounded = spots.some(({ sound, offCents }) => sound === "stopped" && Math.abs(offCents) >= REMARKED_CENTS);
  if (!rounded) return [];
  return [
    "",
    "Places are written in tenths of the way between two hui; the player's ear finds the pure pitch near them.",
  ];
}
