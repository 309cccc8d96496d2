// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of a fingering, as players say and write them.
import { NUT_POSITION } from "./board.js";

/** The eight strokes. `bo` is also called pi. */
export const STROKES = ["bo", "tuo", "mo", "tiao", "gou", "ti", "da", "zhai"] as const;
/** One of {@link STROKES}. */
export type Stroke = (typeof STROKES)[number];

/** Left-hand fingers (the little finger is not used). */
export const FINGERS = ["thumb", "index", "middle", "ring"] as const;
/** One of {@link FINGERS}. */
export type Finger = (typeof FINGERS)[number];

/** The part of the finger that stops the string. */
export const CONTACTS = ["tip", "joint", "kneeling"] as const;
/** One of {@link CONTACTS}. */
export type Contact = (typeof CONTACTS)[number];

/** The kinds of sound: san (open), an (stopped), fan (harmonic). */
export type Sound = "open" | "stopped" | "harmonic";

/** How a sound begins: by a pluck, or by the left hand alone. */
export const ARRIVALS = ["plucked", "slid", "pulled-off", "hammered"] as const;
/** One of {@link ARRIVALS}. */
export type Arrival = (typeof ARRIVALS)[number];

/** Two strings struck at once: tiao + gou, tuo + gou, bo + ti, and mo + gou, which only a score asks for. */
export const PINCHES = ["small-cuo", "large-cuo", "reverse-cuo", "yuan-lou"] as const;
/** One of {@link PINCHES}. */
export type Pinch = (typeof PINCHES)[number];

/** Compound strokes of a single note: on one string, over several, or on a pair of strings. */
export const FIGURES = [
  "mo-tiao",
  "gou-ti",
  "mo-gou",
  "die",
  "juan",
  "ban-lun",
  "lun",
  "bei-suo",
  "duan-suo",
  "chang-suo",
  "li",
  "gun",
  "fu",
  "gun-fu",
  "suo-ling",
  "ru-yi",
  "shuang-tan",
  "bo-la",
  "quan-fu",
  "da-yuan",
] as const;
/** One of {@link FIGURES}. */
export type FigureName = (typeof FIGURES)[number];

/** Any compound stroke, as JSON names it. */
export type Compound = FigureName | Pinch;

/** What a score may say of a compound: `cuo` is a small or a large one, whichever the strings allow. */
export type GivenCompound = Compound | "cuo";

/** Ornaments by which a finger enters its place: chuo from below, zhu from above. */
export const ENTRIES = ["chuo", "zhu"] as const;
/** One of {@link ENTRIES}. */
export type Entry = (typeof ENTRIES)[number];

/**
 * Ornaments of a stopped note that ask for no note of their own: yin and nao swing about its place, zhuang, dou and huan leave
 * it for a moment.
 */
export const ORNAMENTS = ["yin", "nao", "zhuang", "dou", "huan"] as const;
/** One of {@link ORNAMENTS}. */
export type Ornament = (typeof ORNAMENTS)[number];

/** The finger of the right hand that makes a stroke. */
export const STROKE_FINGER: Readonly<Record<Stroke, Finger>> = {
  bo: "thumb",
  tuo: "thumb",
  mo: "index",
  tiao: "index",
  gou: "middle",
  ti: "middle",
  da: "ring",
  zhai: "ring",
};

/** Strokes that close the hand toward a fist; the others open it (common practice, no source). */
export function closes(stroke: Stroke): boolean {
  return stroke === "mo" || stroke === "gou" || stroke === "da" || stroke === "tuo";
}

/**
 * What a score gives for one note; null where it says nothing. Strings count as players do: 1 is the lowest.
 * `written` is true where the writer asked for it in print (so that a harmonic or a slide is a wish), false where
 * huipath's own unprinted elements say it.
 */
export interface GivenFingering {
  readonly sound: Sound | null;
  readonly string: number | null;
  /** hui and tenths, the harmonic's hui for harmonics */
  readonly position: number | null;
  readonly finger: Finger | null;
  readonly contact: Contact | null;
  readonly stroke: Stroke | null;
  readonly arrival: Arrival | null;
  /** a compound stroke; `stroke` is then its first attack, null for a pinch */
  readonly compound: GivenCompound | null;
  /** the strings that a compound goes over, in the order in which they are struck, where it names several */
  readonly across: readonly number[] | null;
  readonly entry: Entry | null;
  readonly ornament: Ornament | null;
  /** what stood before and was left out here: it holds where the note lies there, see `withHeld` */
  readonly held: Held | null;
  readonly written: boolean;
  /** the text it was read from, for messages */
  readonly text: string;
}

/** Sound and place of an earlier note, which players do not write again as long as they hold. */
export interface Held {
  readonly sound: Sound;
  readonly position: number | null;
  readonly finger: Finger | null;
  readonly contact: Contact | null;
}

/** A fingering that gives nothing. */
export const NOTHING_GIVEN: GivenFingering = {
  sound: null,
  string: null,
  position: null,
  finger: null,
  contact: null,
  stroke: null,
  arrival: null,
  compound: null,
  across: null,
  entry: null,
  ornament: null,
  held: null,
  written: false,
  text: "",
};

/** Whether nothing is given. */
export function givesNothing(given: GivenFingering): boolean {
  const { text: _, written: __, held: ___, ...fields } = given;
  return Object.values(fields).every((value) => value === null);
}

/** What stays where a note is set free: a compound stroke and an ornament are part of the music, however it is fingered. */
export function setFree({ compound, across, stroke, ornament }: GivenFingering): GivenFingering {
  const figure = compound !== null && FIGURES.some((one) => one === compound);
  return { ...NOTHING_GIVEN, ornament, ...(figure ? { compound, across, stroke } : {}) };
}

const FINGER_WORD: Readonly<Record<Finger, string>> = { thumb: "da", index: "shi", middle: "zhong", ring: "ming" };

/** The two names of one thumb stroke (common practice, no source). */
export const THUMB_STROKE_NAMES = ["bo", "pi"] as const;
/** One of {@link THUMB_STROKE_NAMES}. */
export type ThumbStrokeName = (typeof THUMB_STROKE_NAMES)[number];

/** One sound of a fingering, complete. */
export interface SpokenNote {
  readonly sound: Sound;
  readonly string: number;
  readonly position: number | null;
  readonly finger: Finger | null;
  readonly contact: Contact | null;
  readonly stroke: Stroke | null;
  readonly arrival: Arrival;
  /** a compound stroke in place of the single one, with the strings that it goes over if there are several */
  readonly figure: FigureName | null;
  readonly across: readonly number[] | null;
  readonly entry: Entry | null;
  readonly ornament: Ornament | null;
  /** a slide's or pull-off's direction and source, needed only without a pluck */
  readonly previous: { readonly position: number | null; readonly finger: Finger | null } | null;
  /** what bo is called; bo where left out */
  readonly thumbStroke?: ThumbStrokeName;
}

/**
 * The spoken reading in pinyin with digits.
 *
 * @example spokenForm({ sound: "stopped", finger: "thumb", contact: "tip", position: 7.6, stroke: "tiao", string: 4, ... }) // "da 7.6 tiao 4"
 */
export function spokenForm(note: SpokenNote): string {
  const ornament = note.sound === "stopped" && note.ornament !== null ? ` ${note.ornament}` : "";
  return spokenSound(note) + ornament;
}

/** Whether a slide leads toward hui 1. */
export function slidesUp({ position, previous }: Pick<SpokenNote, "position" | "previous">): boolean {
  return (position ?? NUT_POSITION) < (previous?.position ?? NUT_POSITION);
}

function spokenSound(note: SpokenNote): string {
  switch (note.arrival) {
    case "slid":
      return `${slidesUp(note) ? "shang" : "xia"} ${note.position}`;
    case "pulled-off":
      if (note.sound === "stopped") return "qia qi";
      return note.previous?.finger === "thumb" ? "zhua qi" : "dai qi";
    case "hammered":
      return `yan ${note.position}`;
    case "plucked":
      return `${spokenPlace(note)} ${strokeWord(note)} ${spokenStrings(note)}`;
  }
}

function strokeWord({ figure, stroke, thumbStroke = "bo" }: SpokenNote): string {
  if (figure !== null) return figure.replaceAll("-", " ");
  return stroke === "bo" ? thumbStroke : `${stroke}`;
}

/** One string; of a sweep or a pair the first and the last. */
function spokenStrings({ string, across }: SpokenNote): string {
  return across === null ? String(string) : `${across[0]} ${across.at(-1)}`;
}

function spokenPlace(note: SpokenNote): string {
  if (note.sound === "open") return "san";
  if (note.sound === "harmonic") return `fan ${note.position}`;
  const contact = note.contact === "joint" ? " jie" : note.contact === "kneeling" ? " gui" : "";
  const entry = note.entry === null ? "" : `${note.entry} `;
  return `${entry}${FINGER_WORD[note.finger ?? "ring"]}${contact} ${note.position}`;
}
