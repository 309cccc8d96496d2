// SPDX-License-Identifier: AGPL-3.0-or-later
// Other ways to play each note: what each would cost the whole line, and the line of the brief that pins it.
import { stringInCharacters } from "../src/model/characters.js";
import type { NoteJson, Report } from "../src/report.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../src/words.js";
import { packPins } from "./pin-pack.js";
import { count, number, spareMoves, spokenWords } from "./words.js";

interface WayView {
  readonly said: Said;
  readonly cost: Said;
  /** the line of the brief where the page prints it; empty for all but the cheapest */
  readonly pin: string;
}

interface NoteWaysView {
  readonly id: string;
  /** "Beat 2: F3" */
  readonly place: Said;
  readonly said: Said;
  /** what the score or the brief gives for it; empty for nothing */
  readonly given: Said;
  readonly any: boolean;
  /** "12 other ways, from +0.2" */
  readonly sum: Said;
  /** at other places */
  readonly elsewhere: readonly WayView[];
  /** at the place that is played */
  readonly here: readonly WayView[];
  /** the lines of the brief in the order of both lists, packed */
  readonly pins: string;
}

/** What the page prints about other ways to play each note. */
export interface OtherWaysView {
  /** "9.94 spare moves" */
  readonly total: Said;
  /** "of the line's 9.94" */
  readonly ofTotal: Said;
  /** that not all ways are listed; empty where they are */
  readonly cut: Said;
  readonly bars: readonly { readonly label: string; readonly notes: readonly NoteWaysView[] }[];
}

/** So many ways a page may list, and so many lines of the brief: more would make it too long to be mailed. */
const ROOM = { ways: 7000, pins: 500 } as const;
/** However long the score, a note has so many ways. */
const LEAST_WAYS = 3;

/** What of each note there is room for. */
interface Room {
  readonly ways: number;
  /** lines of the brief for other places, printed beside their ways */
  readonly pins: number;
}

function roomFor(notes: readonly NoteJson[]): Room {
  const all = notes.reduce((sum, note) => sum + note.alternatives.length, 0);
  const each = (room: number, least: number): number => Math.max(least, Math.floor(room / Math.max(1, notes.length)));
  return { ways: all <= ROOM.ways ? Number.POSITIVE_INFINITY : each(ROOM.ways, LEAST_WAYS), pins: each(ROOM.pins, 1) };
}

/** Builds the view. */
export function viewOtherWays({ json, score }: Report): OtherWaysView {
  const { total, notes } = json.fingering;
  const byBar = new Map(score.bars.map((bar) => [bar.index, { label: bar.label, notes: [] as NoteWaysView[] }]));
  const barOf = new Map(score.notes.map((note) => [note.id, note.bar]));
  const room = roomFor(notes);
  for (const note of notes) byBar.get(barOf.get(note.id) ?? -1)?.notes.push(viewNote(note, room));
  const sum = number(total.effort);
  return {
    total: spareMoves(sum, total.effort),
    ofTotal: phrase(`of the line's ${sum}`, `全曲共${sum}`),
    cut: Number.isFinite(room.ways)
      ? phrase(
          `So long a score leaves room for the ${room.ways} cheapest ways of each note.`,
          `乐谱较长，每音只列最省的${room.ways}种。`,
        )
      : "",
    bars: [...byBar.values()].filter((bar) => bar.notes.length > 0),
  };
}

type Way = NoteJson["alternatives"][number];

function viewNote(note: NoteJson, room: Room): NoteWaysView {
  const ways = note.alternatives.slice(0, room.ways);
  const here = ways.filter((way) => isHere(note, way));
  const elsewhere = ways.filter((way) => !here.includes(way));
  return {
    id: note.id,
    place: placeWords(note),
    said: spokenWords(note),
    given: givenWords(note.given),
    any: ways.length > 0,
    sum: sumWords(note.alternatives),
    elsewhere: elsewhere.map((way, i) => viewWay(way, i < room.pins)),
    here: here.map((way, i) => viewWay(way, i < 1)),
    pins: packPins([...elsewhere, ...here].map((way) => way.pin)),
  };
}

function isHere({ sound, string, position }: NoteJson, way: Way): boolean {
  return way.sound === sound && way.string === string && way.position === position;
}

function viewWay(way: Way, printed: boolean): WayView {
  const { spoken, string } = way;
  // The reading of a note without a pluck does not name its string.
  const plucked = spoken.endsWith(` ${string}`) && !spoken.startsWith("shang") && !spoken.startsWith("xia");
  const words = spokenWords({ spoken });
  const named = phraseOf({
    en: (say) => `${say(words)}, string ${string}`,
    zh: (say) => `${say(words)}（${stringInCharacters(string)}）`,
  });
  return { said: plucked ? words : named, cost: costWords(way), pin: printed ? (way.pin ?? "") : "" };
}

/** "+0.2", "blocks 1 more". */
function costWords({ blockedMore, effortMore }: Way): Said {
  if (blockedMore > 0) return phrase(`blocks ${blockedMore} more`, `多略去${blockedMore}个音`);
  const effort = effortMore < 0 ? `−${number(-effortMore)}` : `+${number(effortMore)}`;
  if (blockedMore < 0) return phrase(`frees ${-blockedMore}, ${effort}`, `少略去${-blockedMore}个音，${effort}`);
  return effort;
}

function sumWords(ways: readonly Way[]): Said {
  const [first] = ways;
  if (first === undefined) return phrase("no other way", "没有其他弹法");
  const from = costWords(first);
  return phraseOf({
    en: (say) => `${count(ways.length, "other way")}, from ${say(from)}`,
    zh: (say) => `另有${ways.length}种弹法，最省的一种${say(from)}`,
  });
}

function placeWords({ beat, sounding, grace }: NoteJson): Phrase {
  return grace
    ? phrase(`grace before beat ${beat}: ${sounding}`, `第${beat}拍前装饰音：${sounding}`)
    : phrase(`beat ${beat}: ${sounding}`, `第${beat}拍：${sounding}`);
}

const GIVEN: Readonly<Record<string, Phrase>> = {
  sound: phrase("kind of sound", "音色"),
  string: phrase("string", "弦"),
  position: phrase("place", "徽位"),
  finger: phrase("left finger", "左手指"),
  contact: phrase("part of the finger", "触弦部位"),
  stroke: phrase("stroke", "右手指法"),
  arrival: phrase("how it begins", "发声方式"),
  compound: phrase("compound stroke", "组合指法"),
  entry: phrase("entry", "绰注"),
  ornament: phrase("ornament", "吟猱"),
};

function givenWords(given: NoteJson["given"]): Said {
  if (given.length === 0) return "";
  const list = joined(
    given.map((key) => GIVEN[key] ?? key),
    phrase(", ", "、"),
  );
  return phraseOf({
    en: (say) => `Given by the score or the brief: ${say(list)}.`,
    zh: (say) => `乐谱或编配说明已定：${say(list)}。`,
  });
}
