// SPDX-License-Identifier: AGPL-3.0-or-later
// Tuning by comparison, and the keys ranked.
import type { Lying } from "../../src/model/key-ranking.js";
import type { Differences, HandbookJson, TuningJson } from "./json.js";
import { type Cell, type Section, signed, type Table, text } from "./table.js";

/** Which string is compared with which, and what to expect. */
export function comparisonSection({ comparison }: HandbookJson): Section {
  const { stops, harmonics, sources } = comparison;
  const systems = ["Pythagorean", "Just", "Equal"];
  return {
    id: "comparison",
    title: "Tuning by comparison",
    words: [
      "For the standard tuning: by how many cents the stop sounds above the open string when the open strings are tuned in one of three temperaments on F. A difference of about 21.5 cents is the comma between pure and Pythagorean thirds, not a fault of the player or the string.",
      `Who compares them: ${Object.entries(sources)
        .filter(([by]) => by === "lesson" || by === "1855")
        .map(([by, source]) => `${by}: ${source}`)
        .join("; ")}. The cents are computed.`,
    ],
    parts: [
      {
        id: "compared-stops",
        title: "Open strings and stops",
        words: [],
        tables: [
          {
            caption: "Open strings and stops",
            layout: "numbers",
            head: ["Open string", "String at place", ...systems, "Compared by"],
            rows: stops.map(({ open, string, position, differences, by }) => ({
              head: text(`open ${open}`),
              cells: [text(`${string} at ${position}`), ...differenceCells(differences), text(by)],
              strong: true,
            })),
          },
        ],
      },
      {
        id: "compared-harmonics",
        title: "Harmonics compared",
        words: [],
        tables: [
          {
            caption: "Harmonics compared",
            layout: "numbers",
            head: ["Harmonic", "Other harmonic", ...systems, "Compared by"],
            rows: harmonics.map(({ string, hui, otherString, otherHui, differences, by }) => ({
              head: text(`${string} at hui ${hui}`),
              cells: [text(`${otherString} at hui ${otherHui}`), ...differenceCells(differences), text(by)],
              strong: true,
            })),
          },
        ],
      },
    ],
  };
}

function differenceCells({ pythagorean, just, equal }: Differences): readonly Cell[] {
  return [pythagorean, just, equal].map(({ octaves, cents }) =>
    text(octaves === 0 ? signed(cents) : `octave ${octaves > 0 ? "above" : "below"}, ${signed(cents)}`),
  );
}

const LYING_WORDS: Readonly<Record<Lying, string>> = {
  open: "open",
  hui: "hui 7, 9 or 10",
  between: "between hui",
};

/** Which keys lie well in each tuning. */
export function keySection({ tunings }: HandbookJson): Section {
  return {
    id: "keys",
    title: "Keys, ranked for each tuning",
    words: [
      "Computed for major keys; a minor key counts with its relative major. The more degrees are open strings, the better a key rings; then the more lie on hui 7, 9 or 10, which sound pure; then by how many strings have them there, and by the tonic. Stops are counted over seven strings on hui 7, 9 and 10, and on hui 7 to 12.",
    ],
    parts: tunings.map((tuning) => ({
      id: `keys-${tuning.name}`,
      title: `Keys in ${tuning.title}`,
      words: [],
      tables: [keyTable(tuning)],
    })),
  };
}

function keyTable({ title, keys }: TuningJson): Table {
  return {
    caption: `Keys in ${title}`,
    layout: "numbers",
    head: [
      "Key",
      "Open degrees of 7",
      "of the five",
      "Open strings in key, of 7",
      "Pure degrees of 7",
      "Stops of 21",
      "Stops of 42",
      "Tonic",
      "Always between hui",
    ],
    rows: keys.map((key) => ({
      head: text(`${key.rank}. ${key.major} (${key.minor}m)`),
      cells: [
        ...[key.openDegrees, key.openCoreDegrees, key.openStrings, key.pureDegrees, key.pureStops, key.nearStops].map(
          (n) => text(String(n)),
        ),
        text(LYING_WORDS[key.tonic]),
        text(key.between.length === 0 ? "none" : key.between.join(" ")),
      ],
      strong: true,
    })),
  };
}
