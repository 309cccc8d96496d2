// SPDX-License-Identifier: AGPL-3.0-or-later
// Tuning by comparison, and the keys ranked.
import { placeInCharacters, stringInCharacters } from "../../src/model/characters.js";
import type { Lying } from "../../src/model/key-ranking.js";
import type { ComparedBy } from "../../src/model/string-comparison.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../../src/words.js";
import type { Differences, HandbookJson, TuningJson } from "./json.js";
import { type Cell, type Part, type Section, signed, type Table, text } from "./table.js";

/** Who compares, as the tables name them. */
const BY_WORDS: Readonly<Record<ComparedBy, Said>> = {
  lesson: phrase("lesson", "课文"),
  "1855": phrase("1855", "1855年"),
  retuning: phrase("retuning", "古谱"),
  computed: phrase("computed", "推算"),
};

const SYSTEMS = [phrase("Pythagorean", "五度相生律"), phrase("Just", "纯律"), phrase("Equal", "十二平均律")] as const;
const COMPARED_BY = phrase("Compared by", "所据");

/** Which string is compared with which, and what to expect. */
export function comparisonSection({ comparison }: HandbookJson): Section {
  const { sources } = comparison;
  const who = joined(
    Object.entries(sources).flatMap(([by, source]) =>
      by === "lesson" || by === "1855" ? [joined([BY_WORDS[by], source], phrase(": ", "："))] : [],
    ),
    phrase("; ", "；"),
  );
  return {
    id: "comparison",
    title: phrase("Tuning by comparison", "对音调弦"),
    words: [
      phrase(
        "For the standard tuning: by how many cents the stop sounds above the open string when the open strings are tuned in one of three temperaments on F. A difference of about 21.5 cents is the comma between pure and Pythagorean thirds, not a fault of the player or the string.",
        "以正调为例：七根散音以F为宫，按三种律制之一调好时，按音比散音高多少音分。相差约21.5音分，是纯律三度与五度相生三度之间的音差，不是人或弦的毛病。",
      ),
      phraseOf({
        en: (say) => `Who compares them: ${say(who)}. The cents are computed.`,
        zh: (say) => `所据：${say(who)}。音分数为推算。`,
      }),
    ],
    parts: [stopPart(comparison), harmonicPart(comparison)],
  };
}

function stopPart({ stops }: HandbookJson["comparison"]): Part {
  const title = phrase("Open strings and stops", "散音与按音");
  return {
    id: "compared-stops",
    title,
    words: [],
    tables: [
      {
        caption: title,
        layout: "numbers",
        head: [phrase("Open string", "散音"), phrase("String at place", "按音"), ...SYSTEMS, COMPARED_BY],
        rows: stops.map(({ open, string, position, differences, by }) => ({
          head: text(phrase(`open ${open}`, `散${stringInCharacters(open)}`)),
          cells: [
            text(phrase(`${string} at ${position}`, `${stringInCharacters(string)}${placeInCharacters(position)}`)),
            ...differenceCells(differences),
            text(BY_WORDS[by]),
          ],
          strong: true,
        })),
      },
    ],
  };
}

function harmonicPart({ harmonics }: HandbookJson["comparison"]): Part {
  const title = phrase("Harmonics compared", "泛音相对");
  const harmonic = (string: number, hui: number): Phrase =>
    phrase(`${string} at hui ${hui}`, `${stringInCharacters(string)}${placeInCharacters(hui)}`);
  return {
    id: "compared-harmonics",
    title,
    words: [],
    tables: [
      {
        caption: title,
        layout: "numbers",
        head: [phrase("Harmonic", "泛音"), phrase("Other harmonic", "另一泛音"), ...SYSTEMS, COMPARED_BY],
        rows: harmonics.map(({ string, hui, otherString, otherHui, differences, by }) => ({
          head: text(harmonic(string, hui)),
          cells: [text(harmonic(otherString, otherHui)), ...differenceCells(differences), text(BY_WORDS[by])],
          strong: true,
        })),
      },
    ],
  };
}

function differenceCells({ pythagorean, just, equal }: Differences): readonly Cell[] {
  return [pythagorean, just, equal].map(({ octaves, cents }) => {
    if (octaves === 0) return text(signed(cents));
    const above = octaves > 0;
    return text(
      phrase(`octave ${above ? "above" : "below"}, ${signed(cents)}`, `${above ? "高" : "低"}八度，${signed(cents)}`),
    );
  });
}

const LYING_WORDS: Readonly<Record<Lying, Phrase>> = {
  open: phrase("open", "散音"),
  hui: phrase("hui 7, 9 or 10", "七、九或十徽"),
  between: phrase("between hui", "两徽之间"),
};

/** Which keys lie well in each tuning. */
export function keySection({ tunings }: HandbookJson): Section {
  return {
    id: "keys",
    title: phrase("Keys, ranked for each tuning", "各种定弦宜用的调"),
    words: [
      phrase(
        "Computed for major keys; a minor key counts with its relative major. The more degrees are open strings, the better a key rings; then the more lie on hui 7, 9 or 10, which sound pure; then by how many strings have them there, and by the tonic. Stops are counted over seven strings on hui 7, 9 and 10, and on hui 7 to 12.",
        "按大调推算；小调归入其关系大调。落在散音上的音级越多，这个调越响亮；其次看有多少音级在七、九、十徽上，那里的音最纯；再看有多少根弦如此，最后看主音。按音一栏数的是七根弦的七、九、十徽，以及七至十二徽。",
      ),
    ],
    parts: tunings.map(keyPart),
  };
}

function keyPart(tuning: TuningJson): Part {
  const title = phraseOf({
    en: (say) => `Keys in ${say(tuning.title)}`,
    zh: (say) => `${say(tuning.title)}宜用的调`,
  });
  return { id: `keys-${tuning.name}`, title, words: [], tables: [keyTable(title, tuning)] };
}

function keyTable(caption: Said, tuning: TuningJson): Table {
  return {
    caption,
    layout: "numbers",
    head: [
      phrase("Key", "调"),
      phrase("Open degrees of 7", "散音音级（共7）"),
      phrase("of the five", "其中五声"),
      phrase("Open strings in key, of 7", "调内散音弦（共7）"),
      phrase("Pure degrees of 7", "纯音音级（共7）"),
      phrase("Stops of 21", "按音处（共21）"),
      phrase("Stops of 42", "按音处（共42）"),
      phrase("Tonic", "主音"),
      phrase("Always between hui", "总在两徽之间的音"),
    ],
    rows: tuning.keys.map((key) => ({
      head: text(
        phrase(`${key.rank}. ${key.major} (${key.minor}m)`, `${key.rank}. ${key.major}大调（${key.minor}小调）`),
      ),
      cells: [
        ...[key.openDegrees, key.openCoreDegrees, key.openStrings, key.pureDegrees, key.pureStops, key.nearStops].map(
          (n) => text(String(n)),
        ),
        text(LYING_WORDS[key.tonic]),
        text(key.between.length === 0 ? phrase("none", "无") : key.between.join(" ")),
      ],
      strong: true,
    })),
  };
}
