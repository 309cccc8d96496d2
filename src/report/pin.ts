// SPDX-License-Identifier: AGPL-3.0-or-later
// The line of a brief that pins a note to one way of playing it, as `read/brief.ts` takes it.
import { strokeOn } from "../check/check.js";
import type { Left, Placed, Right } from "../model/playing.js";
import type { Score, ScoreNote } from "../model/score.js";

/** Labels that YAML reads as what is printed, between braces too. */
const PLAIN_LABEL = /^(?:0|[1-9]\d{0,8})$/;
/** Labels that may stand between quotation marks without anything escaped. */
const QUOTED_LABEL = /^[\p{L}\p{N}][\p{L}\p{N}.-]{0,19}$/u;

/**
 * Which note a pin is about.
 *
 * @example pinHead(note, score) // "bar: 3, beat: 2"
 */
export function pinHead(note: ScoreNote, score: Score): string {
  const beside = score.notes.filter(
    (one) => one.bar === note.bar && one.beat === note.beat && one.grace === note.grace,
  );
  const nth = beside.findIndex(({ id }) => id === note.id) + 1;
  const which = note.grace ? `, grace: ${nth}` : beside.length > 1 ? `, note: ${nth}` : "";
  return `bar: ${barName(note.bar, score)}, beat: ${note.beat}${which}`;
}

/** The bar's printed label; `#12`, the twelfth in order, where others carry it too or nobody could type it. */
function barName(index: number, score: Score): string {
  const label = score.bars.find((bar) => bar.index === index)?.label ?? "";
  const alone = score.bars.filter((bar) => bar.label === label).length === 1;
  if (alone && PLAIN_LABEL.test(label)) return label;
  return alone && QUOTED_LABEL.test(label) ? `"${label}"` : `"#${index + 1}"`;
}

/**
 * What a pin says of the note; null where a brief has no words for it: a compound stroke over several strings.
 *
 * @example pinWishes(placed, left, right) // "string: 4, position: 7.6, finger: ring, stroke: gou"
 */
export function pinWishes(placed: Placed, left: Left, right: Right): string | null {
  if (right.figure !== null && left.chain === 0) return null;
  const { sound, string, position, finger, contact } = placed;
  const wishes = {
    sound: sound === "stopped" ? null : sound,
    string,
    position,
    finger,
    contact: contact === "tip" && finger !== null ? null : contact,
    ...(left.chain === 0 ? { stroke: strokeOn(right, placed) } : { arrival: left.arrival }),
  };
  return Object.entries(wishes)
    .filter(([, value]) => value !== null)
    .map(([key, value]) => `${key}: ${value}`)
    .join(", ");
}
