// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the hui are, where every semitone lies, and what the harmonics sound.
import { stringInCharacters } from "../../src/model/characters.js";
import { inWords, phrase, type Said } from "../../src/words.js";
import type { HandbookJson } from "./json.js";
import { type Cell, type Part, type Section, signed, term, text } from "./table.js";

/** Positions along the string. */
export function positionSection(handbook: HandbookJson): Section {
  const { scaleLengthCm } = handbook;
  return {
    id: "positions-of-the-board",
    title: phrase("Positions on the board", "琴面上的位置"),
    words: [
      phrase(
        "The string sounds from the bridge, at the player's right, to the finger. Hui 1 is nearest the bridge, hui 7 the middle, hui 13 nearest the nut. A place such as 7.9 lies nine tenths of the way from hui 7 to hui 8, toward the nut: the larger the number, the lower the note.",
        "弦从演奏者右手边的岳山振动到按弦的手指。一徽最近岳山，七徽居中，十三徽最近龙龈。七徽九分（写作7.9）在七徽到八徽之间靠龙龈的十分之九处：数字越大，音越低。",
      ),
      phrase(
        `Lengths hold for strings of ${scaleLengthCm} cm, from the bridge. Fractions after Yuguzhai qinpu (1855), v29; all else is computed from them.`,
        `长度从岳山量起，以有效弦长${scaleLengthCm}厘米为准。各徽的分数据《与古斋琴谱》（1855），v29；其余都由此推算。`,
      ),
    ],
    parts: [huiPart(handbook), semitonePart(handbook), harmonicPart(handbook)],
  };
}

function huiPart({ hui }: HandbookJson): Part {
  const title = phrase("The thirteen hui", "十三徽");
  return {
    id: "hui",
    title,
    words: [],
    tables: [
      {
        caption: title,
        layout: "numbers",
        head: [
          phrase("Hui", "徽"),
          phrase("Sounding part", "振动部分"),
          phrase("cm from bridge", "距岳山（厘米）"),
          phrase("Stopped, cents above open", "按音高于散音（音分）"),
          phrase("Harmonic, partial", "泛音为第几倍音"),
          phrase("Harmonic, cents above open", "泛音高于散音（音分）"),
          phrase("off equal temperament", "与十二平均律之差"),
        ],
        rows: hui.map((one) => ({
          head: term(String(one.hui), one.characters),
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

const OFF = phrase("off", "差");

function semitonePart({ semitones }: HandbookJson): Part {
  const title = phrase("Every semitone above the open string", "散音以上的每一个半音");
  return {
    id: "semitones",
    title,
    words: [
      phrase(
        "The written place is the one that players use. Beside it are the exact places in three temperaments, and by how many cents the written place sounds above them.",
        "通行徽位是演奏者所用的。旁边是三种律制的精确位置，以及通行徽位比它们高多少音分。",
      ),
    ],
    tables: [
      {
        caption: title,
        layout: "numbers",
        head: [
          phrase("Semitones", "半音数"),
          phrase("Written", "通行徽位"),
          phrase("cm from bridge", "距岳山（厘米）"),
          phrase("Cents", "音分"),
          phrase("Pythagorean place", "五度相生律"),
          OFF,
          phrase("Just place", "纯律"),
          OFF,
          phrase("Equal place", "十二平均律"),
          OFF,
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

function harmonicPart({ harmonics, tunings, strings, hui: every }: HandbookJson): Part {
  const columns = harmonics.filter(({ string }) => string === 1).map(({ hui }) => hui);
  const title = phrase("Harmonics of the standard tuning", "正调的泛音");
  const characters = (hui: number): string => every[hui - 1]?.characters ?? "";
  return {
    id: "harmonics",
    title,
    words: [
      phrase(
        "Hui at the same distance from either end sound alike. Those on hui 3, 6, 8 and 11 are 13.7 cents below equal temperament.",
        "距两端同样远的徽，泛音相同。三、六、八、十一徽的泛音比十二平均律低13.7音分。",
      ),
    ],
    tables: [
      {
        caption: title,
        layout: "places",
        head: [
          phrase("String", "弦"),
          ...columns.map((hui) => phrase(`hui ${hui.join(", ")}`, `${hui.map(characters).join("、")}徽`)),
        ],
        rows: strings.map(({ number, name, characters: sign }) => ({
          head: stringHead(number, name, sign, tunings[0]?.strings[number - 1] ?? ""),
          cells: harmonics.filter(({ string }) => string === number).map((one) => text(one.pitch)),
          strong: true,
        })),
      },
    ],
  };
}

/** "1 gōng C2 宮", "一弦（宫）C2" */
function stringHead(number: number, name: Said, characters: Said, pitch: string): Cell {
  return term(
    `${number} ${inWords(name, "en")} ${pitch}`,
    phrase(inWords(characters, "en"), `${stringInCharacters(number)}（${inWords(characters, "zh")}）${pitch}`),
  );
}
