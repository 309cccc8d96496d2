// SPDX-License-Identifier: AGPL-3.0-or-later
// Sounds of the left hand alone, as players say and write them: slides, taps, pull-offs, and ornaments behind them.
import { type Finger, type GivenFingering, ORNAMENTS, type Ornament } from "../model/fingering.js";
import { POSITION, positionOf } from "./positions.js";

/** Which way a slide goes by its word. */
export type Direction = "up" | "down";

/** A sound of the left hand alone. */
export interface Move {
  readonly given: Pick<GivenFingering, "sound" | "position" | "finger" | "arrival"> &
    Partial<Pick<GivenFingering, "ornament">>;
  /** of a slide whose word says so */
  readonly direction: Direction | null;
}

const SLIDE = new RegExp(
  `^(?<kind>(?:er |two )?(?:shang|up|xia|down)|jin fu|tui fu|wang lai)(?: (?<one>${POSITION})(?: (?<two>${POSITION}))?)?$`,
);
const TAPPED = new RegExp(`^yan (?<place>${POSITION})$`);
/** A row of moves, none for no words; null where a word is no part of one. */
export function movesOf(words: readonly string[]): readonly Move[] | null {
  if (words.length === 0) return [];
  for (let to = words.length; to > 0; to--) {
    const here = adornedMoves(words.slice(0, to));
    const rest = here === null ? null : movesOf(words.slice(to));
    if (here !== null && rest !== null) return [...here, ...rest];
  }
  return null;
}

/** A move with an ornament behind it, which is that of its last note and needs a finger on the string. */
function adornedMoves(words: readonly string[]): readonly Move[] | null {
  const ornament = ornamentAt(words);
  const moves = moveOf((ornament === null ? words : words.slice(0, -1)).join(" "));
  const last = moves?.at(-1);
  if (ornament === null || moves === null || last === undefined) return moves;
  return last.given.sound === "open" ? null : [...moves.slice(0, -1), { ...last, given: { ...last.given, ornament } }];
}

/** The ornament that ends a row of words; null for none. */
export function ornamentAt(words: readonly string[]): Ornament | null {
  return ORNAMENTS.find((ornament) => ornament === words.at(-1)) ?? null;
}

const WAYS: Readonly<Record<string, readonly Direction[]>> = {
  shang: ["up"],
  up: ["up"],
  xia: ["down"],
  down: ["down"],
  "jin fu": ["up", "down"],
  "tui fu": ["down", "up"],
  "wang lai": ["up", "down", "up", "down"],
};

function moveOf(text: string): readonly Move[] | null {
  if (/^(?:dai|zhua|zhao) (?:qi|rise)$/.test(text)) return [handMove("open", null, "pulled-off")];
  // The string is let go over a ring finger that already holds it lower down.
  if (/^qia (?:qi|rise)$/.test(text)) return [handMove("stopped", null, "pulled-off", "ring")];
  const tapped = TAPPED.exec(text)?.groups?.place;
  if (tapped !== undefined) {
    const position = positionOf(tapped);
    return position === null ? null : [handMove("stopped", position, "hammered")];
  }
  return slidesOf(text);
}

function handMove(
  sound: "open" | "stopped",
  position: number | null,
  arrival: "slid" | "pulled-off" | "hammered",
  finger: Finger | null = null,
): Move {
  return { given: { sound, position, finger, arrival }, direction: null };
}

/** One place belongs to the last note of two slid one way, and to the first of two there and back. */
function slidesOf(text: string): readonly Move[] | null {
  const { kind, one, two } = SLIDE.exec(text)?.groups ?? {};
  if (kind === undefined) return null;
  const places = [one, two].flatMap((place) => (place === undefined ? [] : [positionOf(place)]));
  const way = WAYS[kind] ?? WAYS[kind.split(" ")[1] ?? ""] ?? [];
  const twice = /^(?:er|two) /.test(kind) ? [...way, ...way] : way;
  if (places.includes(null) || places.length > twice.length) return null;
  const [first = null, second = null] = places;
  const ends = twice.length === 2 && twice[0] === twice[1] && places.length === 1 ? [null, first] : [first, second];
  return twice.map((direction, i) => ({ ...handMove("stopped", ends[i] ?? null, "slid"), direction }));
}
