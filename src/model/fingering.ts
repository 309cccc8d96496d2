// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of a fingering, as players say and write them.

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

/** Two-note pinches: tiao + gou, tuo + gou, bo + ti. */
export const PINCHES = ["small-cuo", "large-cuo", "reverse-cuo"] as const;
/** One of {@link PINCHES}. */
export type Pinch = (typeof PINCHES)[number];

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
  readonly written: boolean;
  /** the text it was read from, for messages */
  readonly text: string;
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
  written: false,
  text: "",
};

/** Whether nothing is given. */
export function givesNothing(given: GivenFingering): boolean {
  const { text: _, written: __, ...fields } = given;
  return Object.values(fields).every((value) => value === null);
}

const FINGER_WORD: Readonly<Record<Finger, string>> = { thumb: "da", index: "shi", middle: "zhong", ring: "ming" };

/** One sound of a fingering, complete. */
export interface SpokenNote {
  readonly sound: Sound;
  readonly string: number;
  readonly position: number | null;
  readonly finger: Finger | null;
  readonly contact: Contact | null;
  readonly stroke: Stroke | null;
  readonly arrival: Arrival;
  /** a slide's or pull-off's direction and source, needed only without a pluck */
  readonly previous: { readonly position: number | null; readonly finger: Finger | null } | null;
}

/**
 * The spoken reading in pinyin with digits.
 *
 * @example spokenForm({ sound: "stopped", finger: "thumb", contact: "tip", position: 7.6, stroke: "tiao", string: 4, ... }) // "da 7.6 tiao 4"
 */
export function spokenForm(note: SpokenNote): string {
  switch (note.arrival) {
    case "slid":
      return `${(note.position ?? 14) < (note.previous?.position ?? 14) ? "shang" : "xia"} ${note.position}`;
    case "pulled-off":
      if (note.sound === "stopped") return "qia qi";
      return note.previous?.finger === "thumb" ? "zhua qi" : "dai qi";
    case "hammered":
      return `yan ${note.position}`;
    case "plucked":
      return `${spokenPlace(note)} ${note.stroke} ${note.string}`;
  }
}

function spokenPlace(note: SpokenNote): string {
  if (note.sound === "open") return "san";
  if (note.sound === "harmonic") return `fan ${note.position}`;
  const contact = note.contact === "joint" ? " jie" : note.contact === "kneeling" ? " gui" : "";
  return `${FINGER_WORD[note.finger ?? "ring"]}${contact} ${note.position}`;
}
