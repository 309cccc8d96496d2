// SPDX-License-Identifier: AGPL-3.0-or-later
// The answer of `huipath where` for a terminal: one aligned table.
import { placeInCharacters, stringInCharacters } from "../src/model/characters.js";
import type { Sound } from "../src/model/fingering.js";
import type { Strung } from "../src/model/places.js";
import { compass, type Question, type Spot } from "../src/model/where.js";
import { temperamentName } from "../src/report/wording.js";
import { inWords, joined, type Language, type Phrase, phrase, type Said } from "../src/words.js";
import { columnsOf, padded } from "./terminal.js";
import { count } from "./words.js";

/** The sounds as composers and as players call them. */
const SOUND_WORDS: Readonly<Record<Sound, Phrase>> = {
  open: phrase("open (san)", "散音"),
  stopped: phrase("stopped (an)", "按音"),
  harmonic: phrase("harmonic (fan)", "泛音"),
};

/** A pitch that differs by less is not remarked on: nobody hears half a cent. */
const REMARKED_CENTS = 0.5;

/**
 * The answer as text.
 *
 * @example whereText({ about: "note", name: "D3", semitone: 50 }, spots, strung) // "D3 in standard tuning ...: 9 places.\n..."
 */
export function whereText(
  question: Question,
  spots: readonly Spot[],
  strung: Strung,
  language: Language = "en",
): string {
  const lines =
    question.about === "note"
      ? noteLines(question.name, spots, strung, language)
      : [placeHeading(question.string, spots, strung), "", ...table(spots, language), ...footnote(spots)];
  return `${lines.map((line) => inWords(line, language)).join("\n")}\n`;
}

function noteLines(name: string, spots: readonly Spot[], strung: Strung, language: Language): readonly Said[] {
  const setting = settingWords(strung);
  if (spots.length > 0)
    return [
      phrase(
        `${name} has ${count(spots.length, "place")} in ${setting.en}:`,
        `${setting.zh}，${name}有${spots.length}个音位：`,
      ),
      "",
      ...table(spots, language),
    ];
  const { lowest, highest } = compass(strung);
  const tuning = tuningWords(strung);
  return [
    phrase(`No string sounds ${name} in ${tuning.en}.`, `${tuning.zh}，没有一根弦能发${name}。`),
    phrase(
      `The strings reach from ${lowest}, the lowest open string, to ${highest}, the highest string stopped at hui 1.`,
      `各弦的音域从最低的散音${lowest}到最高的弦按在一徽的${highest}。`,
    ),
  ];
}

function placeHeading(string: number, spots: readonly Spot[], strung: Strung): Phrase {
  const place = spots[0]?.position ?? null;
  const setting = settingWords(strung);
  return phrase(
    `String ${string}, ${place === null ? "open" : `at ${place}`}, in ${setting.en}:`,
    `${setting.zh}，${stringInCharacters(string)}${place === null ? "散音" : placeInCharacters(place)}：`,
  );
}

function settingWords(strung: Strung): Phrase {
  const [tuning, temperament] = [tuningWords(strung), temperamentName(strung.temperament)];
  return phrase(`${tuning.en}, ${temperament.en} temperament`, `${tuning.zh}，${temperament.zh}`);
}

function tuningWords({ tuning }: Strung): Phrase {
  const strings = tuning.strings.join(" ");
  if (tuning.name === "zhengdiao") return phrase(`standard tuning (${strings})`, `正调（${strings}）`);
  return tuning.characters === ""
    ? phrase(`your own tuning (${strings})`, `自定的定弦（${strings}）`)
    : phrase(`${tuning.title} tuning (${strings})`, `${tuning.simplified}定弦（${strings}）`);
}

const HEADER: readonly Said[] = [
  phrase("string", "弦"),
  phrase("sound", "音色"),
  phrase("place", "徽位"),
  phrase("cents above open", "高于散音（音分）"),
  phrase("sounds", "音高"),
];
/** Columns of numbers stand flush right. */
const FLUSH_RIGHT = new Set([2, 3]);

function table(spots: readonly Spot[], language: Language): readonly string[] {
  const rows = [HEADER, ...spots.map(row)].map((cells) => cells.map((cell) => inWords(cell, language)));
  const widths = HEADER.map((_, column) => Math.max(...rows.map((cells) => columnsOf(cells[column] ?? ""))));
  return rows.map((cells) =>
    cells
      .map((cell, column) => padded(cell, widths[column] as number, FLUSH_RIGHT.has(column) ? "start" : "end"))
      .join("  ")
      .trimEnd(),
  );
}

function row(spot: Spot): readonly Said[] {
  const place = spot.position === null ? "-" : String(spot.position);
  const off = offWords(spot.offCents);
  return [
    String(spot.string),
    SOUND_WORDS[spot.sound],
    // Whole hui keep their column: the tenths of the others hang out to the right.
    place.includes(".") ? place : `${place}  `,
    spot.cents.toFixed(0),
    off === null ? spot.pitch : joined([spot.pitch, off], phrase(", ", "，")),
  ];
}

/** How far a place sounds from the note; null where no one would hear it. */
function offWords(offCents: number): Phrase | null {
  if (Math.abs(offCents) < REMARKED_CENTS) return null;
  const cents = Math.round(Math.abs(offCents));
  const high = offCents > 0;
  return phrase(`${count(cents, "cent")} ${high ? "high" : "low"}`, `${high ? "高" : "低"}${cents}音分`);
}

/** A written place is a rounded one: said where a stop is off. */
function footnote(spots: readonly Spot[]): readonly Said[] {
  const rounded = spots.some(({ sound, offCents }) => sound === "stopped" && Math.abs(offCents) >= REMARKED_CENTS);
  if (!rounded) return [];
  return [
    "",
    phrase(
      "Places are written in tenths of the way between two hui; the player's ear finds the pure pitch near them.",
      "徽位写到两徽之间的十分之一；准确的音高由演奏者的耳朵在其附近找到。",
    ),
  ];
}
