// SPDX-License-Identifier: AGPL-3.0-or-later
// Each tuning with the places of its scale: the note-position tables.
import { NUT_POSITION } from "../../src/model/board.js";
import { placeInCharacters, stringInCharacters } from "../../src/model/characters.js";
import type { Zone } from "../../src/model/mode-pattern.js";
import { inWords, joined, type Phrase, phrase, phraseOf, type Said } from "../../src/words.js";
import { simplified } from "../simplified.js";
import { groundsWords } from "./evidence.js";
import type { HandbookJson, ModeJson, TuningJson } from "./json.js";
import { type Cell, type Part, type Row, type Section, signed, type Table, text } from "./table.js";

/** Every tuning and mode. */
export function tuningSection({ tunings }: HandbookJson): Section {
  return {
    id: "tunings",
    title: phrase("Tunings and where their notes lie", "各种定弦与音位"),
    words: [
      phrase(
        "Each table gives the places of a scale on the seven strings, as written, from the open string up to hui 4. The five tones of the scale come first, in bold. An octave up, 7.9 becomes 4.6, 7.6 becomes 4.4, 10 becomes 5.6 and 9 becomes 5.",
        "每张表列出一个音阶在七根弦上的音位，从散音到四徽，写法照通行的徽位：7.9即七徽九分。五声在前，用粗体。高一个八度时，7.9变为4.6，7.6变为4.4，10变为5.6，9变为5。",
      ),
      phrase(
        "Below the scale stands what players keep in mind (common practice; the places are computed): the tones on either side of hui 7, mostly 7.6 or 7.9 below it and 6.4 or 6.2 above; and the zones where most strings have their tone at one place, with the odd strings marked ◆. ○ marks an open string that is no tone of the five. A stop off these places announces a change of mode.",
        "音阶之下是演奏者记在心里的（通行做法；音位为推算）：七徽两侧的音，下方多为7.6或7.9，上方多为6.4或6.2；以及多数弦的音都在同一处的几段，与众不同的弦标◆。○表示这根散音不在五声之内。离开这些音位的按音，预示着转调。",
      ),
      phrase(
        "Places are computed in the Pythagorean scale on gong (degree 1, the major tonic).",
        "音位按五度相生律、以宫音（音级1，即大调主音）为起点推算。",
      ),
    ],
    parts: tunings.map(tuningPart),
  };
}

/** The anchor of a tuning. */
const tuningId = (name: string): string => `tuning-${name}`;

const SEMICOLON = phrase("; ", "；");

function tuningPart(tuning: TuningJson): Part {
  const { name, title, characters } = tuning;
  return {
    id: tuningId(name),
    title: phraseOf({ en: (say) => `${say(title)} ${say(characters)}`, zh: (say) => say(title) }),
    words: [
      aboutTuning(tuning),
      pureWords(tuning),
      ...(tuning.retuning.length === 0 ? [] : [retuningWords(tuning)]),
      keyWords(tuning),
    ],
    tables: tuning.modes.map((mode) => modeTable(tuning, mode)),
  };
}

function aboutTuning({ name, title, strings, change, note, alsoCalled }: TuningJson): Phrase {
  const names = otherNames(alsoCalled);
  const inCharacters = simplifiedNames(alsoCalled, title);
  return phraseOf({
    en: (say) =>
      `${name}: ${strings.join(" ")}, ${say(change)}.${names.length === 0 ? "" : ` Also called ${names.join(", ")}.`}${note === null ? "" : ` Note: ${say(note)}.`}`,
    zh: (say) =>
      `${strings.join(" ")}，${say(change)}。${inCharacters.length === 0 ? "" : `又名${inCharacters.join("、")}。`}${note === null ? "" : `注：${say(note)}。`}`,
  });
}

function pureWords({ pure }: TuningJson): Phrase {
  const comparisons = pure.map(({ open, string, position }) =>
    position === NUT_POSITION
      ? phrase(`${open} = open ${string}`, `${stringInCharacters(open)}=散${stringInCharacters(string)}`)
      : phrase(
          `${open} = ${string} at ${position}`,
          `${stringInCharacters(open)}=${stringInCharacters(string)}${placeInCharacters(position)}`,
        ),
  );
  return phraseOf({
    en: (say) =>
      `Open strings that farther strings sound at a pure place (computed): ${say(joined(comparisons, SEMICOLON))}.`,
    zh: (say) => `散音与外侧弦的纯正音位对音（推算）：${say(joined(comparisons, SEMICOLON))}。`,
  });
}

function retuningWords({ retuning }: TuningJson): Phrase {
  const compared = retuning.map(({ open, string, position, differences }) => {
    const cents = signed(differences.equal.cents);
    return phrase(
      `open ${open} = ${string} at ${position} (${cents} cents against equal temperament)`,
      `散${stringInCharacters(open)}=${stringInCharacters(string)}${placeInCharacters(position)}（与十二平均律相差${cents}音分）`,
    );
  });
  return phraseOf({
    en: (say) => `Old handbooks (J. Thompson, silkqin.com) compare ${say(joined(compared, SEMICOLON))}.`,
    zh: (say) => `古谱（据J. Thompson，silkqin.com）所对的音：${say(joined(compared, SEMICOLON))}。`,
  });
}

function keyWords({ keys }: TuningJson): Phrase {
  const best = keys.slice(0, 5).map((key) => ({ key: key.major, degrees: `${key.openDegrees}/${key.pureDegrees}` }));
  return phrase(
    `Keys that lie best (open degrees / degrees open or on hui 7, 9 or 10, computed): ${best.map(({ key, degrees }) => `${key} ${degrees}`).join(", ")}.`,
    `最顺手的调（散音音级数/散音或在七、九、十徽的音级数，推算）：${best.map(({ key, degrees }) => `${key} ${degrees}`).join("，")}。`,
  );
}

/** Other names without those that differ in spacing or marks only. */
function otherNames(names: readonly string[]): readonly string[] {
  const plain = (name: string): string => name.normalize("NFD").replace(/[\u0300-\u036f\s-]/g, "");
  return names.filter((name, at) => names.findIndex((other) => plain(other) === plain(name)) === at);
}

/** Other names that are in characters, in simplified ones, each once. */
function simplifiedNames(names: readonly string[], title: Said): readonly string[] {
  const characters = names.filter((name) => /^\p{Script=Han}+$/u.test(name)).map(simplified);
  return [...new Set(characters)].filter((name) => name !== inWords(title, "zh"));
}

function modeTable({ title, strings }: TuningJson, mode: ModeJson): Table {
  const reading = mode.own ? phrase("its own gong", "本调之宫") : phrase("second reading", "另一种读法");
  return {
    caption: phraseOf({
      en: (say) => `${say(title)} on ${mode.gong} (${say(reading)}; ${say(groundsWords(mode))})`,
      zh: (say) => `${say(title)}，以${mode.gong}为宫（${say(reading)}；${say(groundsWords(mode))}）`,
    }),
    layout: "places",
    head: [
      phrase("Degree", "音级"),
      ...strings.map((pitch, i) => phrase(`${i + 1} ${pitch}`, `${stringInCharacters(i + 1)} ${pitch}`)),
    ],
    rows: [openRow(mode), ...mode.tones.map(toneRow), ...octaveRows(mode), ...zoneRows(mode)],
  };
}

function openRow({ openDegrees, octave }: ModeJson): Row {
  return {
    head: text(phrase("open string is", "散音为")),
    cells: openDegrees.map((degree, i) => text(octave[i]?.openInScale ? degree : `${degree} ○`)),
    strong: false,
  };
}

function toneRow({ degree, name, pitchClass, core, places }: ModeJson["tones"][number]): Row {
  return {
    head: text(joined([degree, name, pitchClass], " ")),
    cells: places.map((ones) => text(placeWords(ones))),
    strong: core,
  };
}

function placeWords(places: readonly number[]): Said {
  if (places.length === 0) return "–";
  return joined(
    places.map((place) => (place === NUT_POSITION ? phrase("open", "散") : String(place))),
    " ",
  );
}

function octaveRows({ octave }: ModeJson): readonly Row[] {
  const row = (head: Said, places: readonly number[]): Row => ({
    head: text(head),
    cells: places.map((place) => text(String(place))),
    strong: false,
  });
  return [
    {
      ...row(
        phrase("below hui 7", "七徽之下"),
        octave.map(({ below }) => below),
      ),
      starts: true,
    },
    row(
      phrase("above hui 7", "七徽之上"),
      octave.map(({ above }) => above),
    ),
  ];
}

const ZONE_WORDS: Readonly<Record<Zone["name"], Phrase>> = {
  "low down": phrase("low down", "十二徽以下"),
  "around hui 10": phrase("around hui 10", "十徽一带"),
  "around hui 9": phrase("around hui 9", "九徽一带"),
};

function zoneRows({ zones }: ModeJson): readonly Row[] {
  return zones.map(({ zone, strings, odd }) => ({
    head: text(ZONE_WORDS[zone]),
    cells: strings.map(({ string, places }): Cell => {
      const isOdd = odd.some((one) => one.string === string);
      return { ...text(joined([placeWords(places), isOdd ? " ◆" : ""])), odd: isOdd };
    }),
    strong: false,
  }));
}
