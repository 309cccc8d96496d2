// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Left } from "../model/playing.js";

const names = new WeakMap<Left, string>();

/** What one sees and hears of a hand: strings, places, kind of sound and arrival. Asked again and again, so remembered. */
export function placeName(left: Left): string {
  const known = names.get(left);
  if (known !== undefined) return known;
  const places = left.placed.map(({ note, string, sound, position }) => `${note} ${string} ${sound} ${position}`);
  const name = `${left.arrival} ${places.join("+")}`;
  names.set(left, name);
  return name;
}
