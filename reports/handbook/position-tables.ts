// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the hui are, where every semitone lies, and what the harmonics sound.
import type { HandbookJson } from "./json.js";
import { type Part, type Section, signed, text } from "./table.js";

/** Positions along the string. */
export function positionSection(handbook: HandbookJson): Section {
  return {
    id: "positions-of-the-board",
    title: "Positions on the board",
    words: [
      "The string sounds from the bridge, at the player's right, to the finger. Hui 1 is nearest the bridge, hui 7 the middle, hui 13 nearest the nut. A place such as 7.9 lies nine tenths of the way from hui 7 to hui 8, toward the nut: the larger the number, the lower the note.",
      `Lengths hold for strings of ${handbook.scaleLengthCm} cm, from the bridge. Fractions after Yuguzhai qinpu (1855), v29; all else is computed from them.`,
    ],
    parts: [huiPart(handbook), semitonePart(handbook), harmonicPart(handbook)],
  };
}

function huiPart({ hui }: HandbookJson): Part {
  return {
    id: "hui",
    title: "The thirteen hui",
    words: [],
    tables: [
      {
        caption: "The thirteen hui",
        layout: "numbers",
        head: [
          "Hui",
          "Sounding part",
          "cm from bridge",
          "Stopped, cents above open",
          "Harmonic, partial",
          "Harmonic, cents above open",
          "off equal temperament",
        ],
        rows: hui.map((one) => ({
          head: { ...text(String(one.hui)), characters: one.characters },
          cells: [
            one.fraction,
            one.cmFromBridge.toFixed(2),
            one.stoppedCents.toFixed(1),
            `×${one.partial}`,
            one.harmonicCents.toFixed(1),
            signed(one.harmonicOffCents),
          ].map(text),
          strong: true,
        })),
      },
    ],
  };
}

function semitonePart({ semitones }: HandbookJson): Part {
  return {
    id: "semitones",
    title: "Every semitone above the open string",
    words: [
      "The written place is the one that players use. Beside it are the exact places in three temperaments, and by how many cents the written place sounds above them.",
    ],
    tables: [
      {
        caption: "Every semitone above the open string",
        layout: "numbers",
        head: [
          "Semitones",
          "Written",
          "cm from bridge",
          "Cents",
          "Pythagorean place",
          "off",
          "Just place",
          "off",
          "Equal place",
          "off",
        ],
        rows: semitones.map(({ exact, offCents, ...one }) => ({
          head: text(String(one.semitones)),
          cells: [
            String(one.written),
            one.cmFromBridge.toFixed(2),
            one.cents.toFixed(1),
            exact.pythagorean.toFixed(3),
            signed(offCents.pythagorean),
            exact.just.toFixed(3),
            signed(offCents.just),
            exact.equal.toFixed(3),
            signed(offCents.equal),
          ].map(text),
          strong: true,
        })),
      },
    ],
  };
}

function harmonicPart({ harmonics, tunings, strings }: HandbookJson): Part {
  const columns = harmonics.filter(({ string }) => string === 1).map(({ hui }) => hui);
  return {
    id: "harmonics",
    title: "Harmonics of the standard tuning",
    words: [
      "Hui at the same distance from either end sound alike. Those on hui 3, 6, 8 and 11 are 13.7 cents below equal temperament.",
    ],
    tables: [
      {
        caption: "Harmonics of the standard tuning",
        layout: "places",
        head: ["String", ...columns.map((hui) => `hui ${hui.join(", ")}`)],
        rows: strings.map(({ number, name, characters }) => ({
          head: { ...text(`${number} ${name} ${tunings[0]?.strings[number - 1]}`), characters },
          cells: harmonics.filter(({ string }) => string === number).map(({ pitch }) => text(pitch)),
          strong: true,
        })),
      },
    ],
  };
}
