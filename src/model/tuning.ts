// SPDX-License-Identifier: AGPL-3.0-or-later
// The tunings by name. Pitches and names after Thompson's studies of the 1425 and 1525 handbooks and of the list of
// 39 tunings ("TYDQ"), and Ling Tingkan's Yanyue kaoyuan; where sources disagree the note says so.
import { InputProblem } from "../problem.js";
import { phrase, type Said } from "../words.js";
import { didYouMean } from "./nearest.js";
import { parsePitch, pitchName, semitoneOf } from "./pitch.js";

/** A tuning of the seven strings. */
export interface Tuning {
  /** the name that options and JSON use: pinyin without marks */
  readonly name: string;
  /** what a person sees first, pinyin with tone marks */
  readonly title: string;
  /** in traditional characters; empty for pitches without a name */
  readonly characters: string;
  readonly simplified: string;
  /** other names it goes by, as options may give them */
  readonly alsoCalled: readonly string[];
  /** open strings in scientific pitch, string 1 (lowest and farthest) first */
  readonly strings: readonly string[];
  /** open strings as MIDI note numbers */
  readonly semitones: readonly number[];
  /** pitch class of gong, 0 = C: the tonic of the scale on which the temperament is built */
  readonly gong: number;
  /** what is changed from the standard tuning, in plain words */
  readonly change: Said;
  /** a disagreement between sources; null without one */
  readonly note: Said | null;
}

interface Entry {
  readonly title: string;
  readonly characters: string;
  readonly simplified: string;
  readonly also: readonly string[];
  readonly strings: string;
  readonly gong: string;
  readonly change: Said;
  readonly note?: Said;
}

const ENTRIES: Readonly<Record<string, Entry>> = {
  zhengdiao: {
    title: "zhèng diào",
    characters: "正調",
    simplified: "正调",
    also: ["standard", "gongdiao", "gong diao", "宮調", "zhonglü", "zhonglü jun", "zhonglu", "仲呂均", "正调"],
    strings: "C2 D2 F2 G2 A2 C3 D3",
    gong: "F",
    change: phrase("the standard tuning", "正调"),
    note: phrase(
      "the open strings are sol la do re mi sol la on F, and by another reading do re fa sol la do re on C",
      "七根散音以F为宫，唱作5 6 1 2 3 5 6；另一种读法以C为宫，唱作1 2 4 5 6 1 2",
    ),
  },
  ruibin: {
    title: "ruìbīn",
    characters: "蕤賓",
    simplified: "蕤宾",
    also: ["jin yu", "tight 5", "緊羽", "wuyi jun", "無射均", "qingyu", "清羽", "蕤宾", "紧羽"],
    strings: "C2 D2 F2 G2 Bb2 C3 D3",
    gong: "Bb",
    change: phrase("string 5 up a semitone", "紧五弦半音"),
    note: phrase(
      "the pitch name does not fit its gong, as commentators have long said; called qingyu in 1525",
      "律名与宫音不合，前人早有议论；1525年的谱称作清羽",
    ),
  },
  manjue: {
    title: "màn jué",
    characters: "慢角",
    simplified: "慢角",
    also: ["man jiao", "slack 3", "huangzhong jun", "黃鐘均", "黄钟均", "taicou", "dalü", "dalu"],
    strings: "C2 D2 E2 G2 A2 C3 D3",
    gong: "C",
    change: phrase("string 3 down a semitone", "慢三弦半音"),
    note: phrase(
      "the 1525 handbook heads it huangzhong, a name that in 1425 means another tuning",
      "1525年的谱题作黄钟，而这个名称在1425年指另一种定弦",
    ),
  },
  mangong: {
    title: "màn gōng",
    characters: "慢宮",
    simplified: "慢宫",
    also: ["slack 1-3-6", "slack 1 3 6", "yize", "夷則", "nanlü", "nanlu", "南呂", "慢宫"],
    strings: "B1 D2 E2 G2 A2 B2 D3",
    gong: "G",
    change: phrase("strings 1, 3 and 6 down a semitone", "慢一、三、六弦各半音"),
    note: phrase(
      "nanlü also names 2-5-7 raised (1571); one modern list prints man gong for slack 3",
      "南吕也指紧二、五、七弦（1571）；一份今人的表把慢三弦印作慢宫",
    ),
  },
  yizejun: {
    title: "yí zé jūn",
    characters: "夷則均",
    simplified: "夷则均",
    also: ["tight 2-4-5-7", "tight 2 4 5 7", "夷则均"],
    strings: "C2 Eb2 F2 Ab2 Bb2 C3 Eb3",
    gong: "Ab",
    change: phrase("strings 2, 4, 5 and 7 up a semitone", "紧二、四、五、七弦各半音"),
    note: phrase("the same relative tuning as man gong, a semitone higher", "各弦音程与慢宫相同，只是整体高半音"),
  },
  qingshang: {
    title: "qīng shāng",
    characters: "清商",
    simplified: "清商",
    also: ["tight 2-5-7", "tight 2 5 7", "guxian", "姑洗", "jiazhong", "夾鐘", "夹钟", "biyu", "碧玉"],
    strings: "C2 Eb2 F2 G2 Bb2 C3 Eb3",
    gong: "Eb",
    change: phrase("strings 2, 5 and 7 up a semitone", "紧二、五、七弦各半音"),
    note: phrase(
      "guxian, jiazhong, qingshang and biyu overlap in the sources",
      "姑洗、夹钟、清商、碧玉诸名，各书所指互有重叠",
    ),
  },
  qiliang: {
    title: "qī liáng",
    characters: "淒涼",
    simplified: "凄凉",
    also: ["chu shang", "楚商", "tight 2-5", "tight 2 5", "凄凉"],
    strings: "C2 Eb2 F2 G2 Bb2 C3 D3",
    gong: "Bb",
    change: phrase("strings 2 and 5 up a semitone", "紧二、五弦各半音"),
  },
  huangzhong: {
    title: "huáng zhōng",
    characters: "黃鐘",
    simplified: "黄钟",
    also: ["wuyi", "wu yi", "無射", "fu gu", "復古", "yingzhong", "應鐘", "黄钟", "tight 5 slack 1"],
    strings: "Bb1 D2 F2 G2 Bb2 C3 D3",
    gong: "Bb",
    change: phrase("string 5 up a semitone, string 1 down a tone", "紧五弦半音，慢一弦全音"),
    note: phrase(
      "so in 1425; the 1525 handbook gives the name to slack 3 (here man jue)",
      "1425年如此；1525年的谱以此名指慢三弦（本表作慢角）",
    ),
  },
  manshang: {
    title: "màn shāng",
    characters: "慢商",
    simplified: "慢商",
    also: ["slack 2"],
    strings: "C2 C2 F2 G2 A2 C3 D3",
    gong: "F",
    change: phrase("string 2 down a tone, to the pitch of string 1", "慢二弦全音，与一弦同音"),
    note: phrase(
      "one list reads slack 1 and 3, the 1425 handbook slack 2; its sources count degrees on C",
      "一份表作慢一、三弦，1425年的谱作慢二弦；所据各书以C为宫",
    ),
  },
  yunu: {
    title: "yù nǚ",
    characters: "玉女",
    simplified: "玉女",
    also: ["yunü", "slack 1-3", "slack 1 3"],
    strings: "B1 D2 E2 G2 A2 C3 D3",
    gong: "G",
    change: phrase("strings 1 and 3 down a semitone", "慢一、三弦各半音"),
  },
  qingdiao: {
    title: "qīng diào",
    characters: "清調",
    simplified: "清调",
    also: ["tight 5-7", "tight 5 7", "清调"],
    strings: "C2 D2 F2 G2 Bb2 C3 Eb3",
    gong: "Bb",
    change: phrase("strings 5 and 7 up a semitone", "紧五、七弦各半音"),
  },
  ceshang: {
    title: "cè shāng",
    characters: "側商",
    simplified: "侧商",
    also: ["slack 3-4-6", "slack 3 4 6", "侧商"],
    strings: "C2 D2 E2 F#2 A2 B2 D3",
    gong: "D",
    change: phrase("strings 3, 4 and 6 down a semitone", "慢三、四、六弦各半音"),
    note: phrase(
      "Jiang Kui's recipe, from memory; one modern list lowers string 7 instead",
      "姜夔的定法，凭记忆所录；一份今人的表改慢七弦",
    ),
  },
  wumei: {
    title: "wú méi",
    characters: "無媒",
    simplified: "无媒",
    also: ["slack 3-6", "slack 3 6", "无媒"],
    strings: "C2 D2 E2 G2 A2 B2 D3",
    gong: "G",
    change: phrase("strings 3 and 6 down a semitone", "慢三、六弦各半音"),
    note: phrase("the name stands in the 1525 list, the recipe is from memory", "名称见于1525年的表，定法凭记忆所录"),
  },
};

const PITCH_CLASS = (name: string): number => semitoneOf(parsePitch(`${name}4`) as never) % 12;

/** All tunings with a name, the standard one first. */
export const TUNINGS: readonly Tuning[] = Object.entries(ENTRIES).map(([name, entry]) => {
  const strings = entry.strings.split(" ");
  return {
    name,
    title: entry.title,
    characters: entry.characters,
    simplified: entry.simplified,
    alsoCalled: entry.also,
    strings,
    semitones: strings.map((pitch) => semitoneOf(parsePitch(pitch) as never)),
    gong: PITCH_CLASS(entry.gong),
    change: entry.change,
    note: entry.note ?? null,
  };
});

/** The standard tuning. */
export const STANDARD: Tuning = TUNINGS[0] as Tuning;

/** Names are compared without case, spaces, hyphens and tone marks. */
const plain = (name: string): string =>
  name
    .normalize("NFD")
    .replace(/[\u0300-\u036f]/g, "")
    .toLowerCase()
    .replace(/[\s\-_]/g, "");

const BY_NAME = new Map(
  TUNINGS.flatMap((tuning) =>
    [...tuning.alsoCalled, tuning.title, tuning.characters, tuning.name].map((name) => [plain(name), tuning] as const),
  ),
);

/**
 * The tuning that a name or seven pitches mean.
 *
 * @param text  a name (any that it goes by) or seven pitches from string 1 to 7, such as "C2 D2 F2 G2 A2 C3 D3"
 * @param place where it was given, for the message
 * @throws InputProblem for an unknown name (naming the nearest and all known) or a list that is not seven pitches
 */
export function findTuning(text: string, place = "--tuning"): Tuning {
  const named = BY_NAME.get(plain(text));
  if (named !== undefined) return named;
  const words = text.trim().split(/[\s,]+/);
  const pitches = words.map(parsePitch);
  if (words.length === 1 || pitches.every((pitch) => pitch === null)) throw unknownTuning(text, place);
  const bad = words.find((_, i) => pitches[i] === null);
  if (bad !== undefined)
    throw new InputProblem(
      "bad-tuning",
      place,
      `"${bad}" is no pitch`,
      "write seven pitches such as C2 D2 F2 G2 A2 C3 D3",
    );
  if (words.length !== 7)
    throw new InputProblem(
      "bad-tuning",
      place,
      `${words.length} pitches where the guqin has seven strings`,
      "give seven, string 1 (lowest) first, such as C2 D2 F2 G2 A2 C3 D3",
    );
  return ownTuning(pitches.map((pitch) => pitchName(pitch as never)));
}

function unknownTuning(text: string, place: string): InputProblem {
  const known = TUNINGS.map((tuning) => tuning.name);
  const near = didYouMean(plain(text), [...BY_NAME.keys()], (name) => (BY_NAME.get(name) as Tuning).name);
  return new InputProblem(
    "unknown-tuning",
    place,
    `no tuning called "${text}"`,
    `${near}known: ${known.join(", ")}; or give seven pitches such as "C2 D2 F2 G2 A2 C3 D3"`,
  );
}

/** Degrees of the gong pentatonic scale, in semitones. */
const PENTATONIC = new Set([0, 2, 4, 7, 9]);

/** A tuning typed by hand; gong is where most open strings are degrees of the pentatonic scale, most of them gong itself. */
function ownTuning(strings: readonly string[]): Tuning {
  const semitones = strings.map((name) => semitoneOf(parsePitch(name) as never));
  const low = semitones.findIndex((pitch) => pitch < 24 || pitch > 72);
  if (low >= 0)
    throw new InputProblem(
      "bad-tuning",
      "--tuning",
      `string ${low + 1} at ${strings[low]} is out of any string's reach`,
      "give pitches from C1 to C5",
    );
  const same = TUNINGS.find((tuning) => tuning.semitones.every((pitch, i) => pitch === semitones[i]));
  if (same !== undefined) return same;
  const openDegrees = (gong: number): number =>
    semitones.reduce((sum, pitch) => {
      const degree = (pitch - gong + 120) % 12;
      return sum + (PENTATONIC.has(degree) ? 10 : 0) + (degree === 0 ? 1 : 0);
    }, 0);
  const classes = [5, 0, 10, 7, 3, 2, 8, 9, 1, 4, 6, 11];
  const gong = classes.reduce((best, next) => (openDegrees(next) > openDegrees(best) ? next : best));
  return {
    name: strings.join(" "),
    title: "own tuning",
    characters: "",
    simplified: "",
    alsoCalled: [],
    strings,
    semitones,
    gong,
    change: phrase("typed by hand", "自行输入"),
    note: null,
  };
}

/** How many strings are tuned otherwise than in another tuning. */
export function countRetuned(tuning: Tuning, from: Tuning): number {
  return tuning.semitones.filter((semitone, i) => semitone !== from.semitones[i]).length;
}

/** All tunings with a name, and one of somebody's own where it is none of them. */
export function tuningsWith(own: Tuning): readonly Tuning[] {
  return TUNINGS.some(({ name }) => name === own.name) ? TUNINGS : [own, ...TUNINGS];
}
